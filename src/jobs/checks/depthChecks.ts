import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import { largestDiameter } from "../results/envelopeResults.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, finding } from "./check.ts";

export const gaugeProvesBore: Check = (context) => {
  const { programme, results, writer } = context;
  const parts = [context.reading("diameter"), context.reading("depth")];
  const [diameter, depth] = parts.map((reading) => quantitySI(reading, results.context.atmosphere));
  const mandrel = targetMandrel(programme);
  const strings = [programme.strings.pull, programme.strings.set].filter((s) => s !== undefined);
  if (diameter === undefined || depth === undefined || !mandrel || strings.length === 0) {
    return finding(
      "not known",
      "Not known: needs the gauge's diameter, the depth it reached, the mandrel and the strings.",
      parts,
    );
  }
  const tool = Math.max(...strings.map(largestDiameter));
  const target = toSI("length", mandrel.depthAlongHole);
  const { write } = writer;
  if (diameter < tool) {
    return finding(
      "fails",
      `The gauge of ${write("diameter", diameter)} is smaller than the largest tool, ${write("diameter", tool)}: it proves nothing for that string. Run a gauge at least as large.`,
      parts,
      ["drift-clearance"],
    );
  }
  if (depth < target) {
    return finding(
      "fails",
      `The gauge reached ${write("length", depth)}; the mandrel is at ${write("length", target)}. A string of the same size does not go until the gauge passes.`,
      parts,
    );
  }
  return finding(
    "passes",
    `A ${write("diameter", diameter)} gauge passed to ${write("length", depth)}, below the mandrel at ${write("length", target)}.`,
    parts,
  );
};

export const depthAgrees: Check = (context) => {
  const { programme, results, writer } = context;
  const tagged = context.reading("tagged");
  const depth = quantitySI(tagged, results.context.atmosphere);
  const mandrel = targetMandrel(programme);
  if (depth === undefined || !mandrel || !programme.policy) {
    return finding("not known", "Not known: needs the tagged depth of the mandrel.", [tagged]);
  }
  const target = toSI("length", mandrel.depthAlongHole);
  const allowed = toSI("length", programme.policy.depthAgreement.value);
  const off = depth - target;
  const { write } = writer;
  const words = `tagged at ${write("length", depth)}, schematic ${write("length", target)}, ${write("length", Math.abs(off))} ${off < 0 ? "shallow" : "deep"}`;
  return Math.abs(off) <= allowed
    ? finding("passes", `Mandrel ${words}.`, [tagged])
    : finding(
        "fails",
        `Mandrel ${words}; at most ${write("length", allowed)} is allowed. Check the counter zero and the depth reference, tag the mandrels above and below, or correct the schematic.`,
        [tagged],
      );
};
