import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import { BELOW_TARGET } from "../results/boresOnTheWay.ts";
import { largestDiameter } from "../results/envelopeResults.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, finding, valuesOf } from "./check.ts";
import { atLeast, atMost } from "./compare.ts";

/**
 * A gauge at least as large as the largest tool of the pull and set strings passed to where they go: 30 ft below the
 * mandrel (common practice).
 */
export const gaugeProvesBore: Check = (context) => {
  const { programme, results, writer } = context;
  const gauge = byCorrectedCounter(context, "depth");
  const { depth } = gauge;
  const parts = [context.reading("diameter"), gauge.reading];
  const diameter = quantitySI(parts[0], results.context.atmosphere);
  const mandrel = targetMandrel(programme);
  const strings = [programme.strings.pull, programme.strings.set].filter((s) => s !== undefined);
  if (diameter === undefined || depth === undefined || !mandrel || strings.length === 0) {
    return finding(
      "not known",
      "Not known: needs the gauge's diameter, the depth it reached, the mandrel and the strings.",
      parts,
    );
  }
  if (gauge.missing) return finding("not known", `Not known: needs ${gauge.missing}.`, parts);
  const tool = Math.max(...strings.map(largestDiameter));
  const target = toSI("length", mandrel.depthAlongHole);
  const { write } = writer;
  if (!atLeast(diameter, tool)) {
    return finding(
      "fails",
      `The gauge of ${write("diameter", diameter)} is smaller than the largest tool, ${write("diameter", tool)}: it proves nothing for that string. Run a gauge at least as large.`,
      parts,
      ["drift-clearance"],
    );
  }
  const foot = target + BELOW_TARGET;
  const reached = `${write("length", depth)}${gauge.says}`;
  if (!atLeast(depth, foot)) {
    return finding(
      "fails",
      `The gauge reached ${reached}; strings go to ${write("length", foot)}, ${write("length", BELOW_TARGET)} below the mandrel. A string of the same size does not go until the gauge has passed there.`,
      parts,
    );
  }
  return finding(
    "passes",
    `A ${write("diameter", diameter)} gauge passed to ${reached}, below the ${write("length", foot)} that strings go to.`,
    parts,
  );
};

/** How far apart two depths along hole are, in words. */
function apart(context: CheckContext, from: number, to: number): string {
  const { write } = context.writer;
  return `${write("length", Math.abs(to - from))} ${to < from ? "shallow" : "deep"}`;
}

function depthOf(context: CheckContext, part: string) {
  const reading = context.reading(part);
  return { reading, depth: quantitySI(reading, context.results.context.atmosphere) };
}

/** A depth by the counter less its correction at the known point, and what is missing for that. */
function byCorrectedCounter(context: CheckContext, part: string) {
  const read = depthOf(context, part);
  // A sheet issued before the correction was asked for is judged on the counter as it was read.
  if (!context.asks("counter")) return { ...read, says: "", missing: "" };
  const correction = valuesOf(context, ["counter-correction"]);
  if ("missing" in correction) return { ...read, says: "", missing: correction.missing };
  const [by] = correction.values as [number];
  const depth = read.depth === undefined ? undefined : read.depth - by;
  return { ...read, depth, says: " by the corrected counter", missing: "" };
}

/**
 * The counter, zeroed and corrected, reads a known point (nipple, end of tubing) within the policy's distance of
 * its depth, both along hole.
 */
export const counterAgrees: Check = (context) => {
  const { policy } = context.programme;
  const counter = depthOf(context, "counter");
  const known = depthOf(context, "known");
  const readings = [counter.reading, known.reading];
  if (counter.depth === undefined || known.depth === undefined || !policy) {
    return finding("not known", "Not known yet: needs a known point tagged.", readings);
  }
  const allowed = toSI("length", policy.depthAgreement.value);
  const { write } = context.writer;
  const words = `The known point at ${write("length", known.depth)} was tagged at ${write("length", counter.depth)}, ${apart(context, known.depth, counter.depth)}`;
  return atMost(Math.abs(counter.depth - known.depth), allowed)
    ? finding("passes", `${words}.`, readings)
    : finding(
        "fails",
        `${words}; at most ${write("length", allowed)} is allowed. Check the counter zero and the depth reference, correct the counter, and tag it again.`,
        readings,
      );
};

/**
 * The tool rests within the policy's distance of where the schematic has the target mandrel, along hole, by the counter
 * less its correction at the known point, and no other mandrel lies as near.
 */
export const rightPocket: Check = (context) => {
  const { programme, writer } = context;
  const { reading, depth, says, missing } = byCorrectedCounter(context, "pocket");
  if (missing) return finding("not known", `Not known: needs ${missing}.`, [reading]);
  const mandrel = targetMandrel(programme);
  if (depth === undefined || !mandrel || !programme.policy) {
    return finding("not known", "Not known yet: needs the depth at which the tool rests.", [
      reading,
    ]);
  }
  const target = toSI("length", mandrel.depthAlongHole);
  const allowed = toSI("length", programme.policy.depthAgreement.value);
  const { write } = writer;
  const readings = [reading, context.reading("counter")];
  const rests = `The tool rests at ${write("length", depth)}${says}`;
  const words = `${rests}, mandrel ${mandrel.number} is at ${write("length", target)}, ${apart(context, target, depth)}`;
  const away = Math.abs(depth - target);
  const nearer = (programme.well?.mandrels ?? [])
    .filter(({ id }) => id !== mandrel.id)
    .map(({ number, depthAlongHole }) => ({ number, at: toSI("length", depthAlongHole) }))
    .find(({ at }) => atMost(Math.abs(depth - at), away));
  if (nearer) {
    return finding(
      "fails",
      `${rests}, and mandrel ${nearer.number} at ${write("length", nearer.at)} is nearer: ${write("length", Math.abs(depth - nearer.at))} away, mandrel ${mandrel.number} is ${write("length", away)}. Tag the mandrels above and below, check the counter, or correct the schematic.`,
      readings,
    );
  }
  return atMost(away, allowed)
    ? finding("passes", `${words}.`, readings)
    : finding(
        "fails",
        `${words}; at most ${write("length", allowed)} is allowed. This may be another pocket: tag the mandrels above and below, check the counter, or correct the schematic.`,
        readings,
      );
};

const neighbours = [
  { part: "above", id: "mandrel-above" },
  { part: "below", id: "mandrel-below" },
] as const;

/**
 * The mandrels next to the target were tagged where the schematic has them: what the counter read, less its
 * correction at the known point, within the policy's distance, along hole. One depth alone fits a pocket of the
 * wrong number as well.
 */
export const neighboursAgree: Check = (context) => {
  const { programme, results, writer } = context;
  const onRecord = neighbours.flatMap(({ part, id }) => {
    const schematic = results.value(id);
    return schematic === undefined ? [] : [{ part, schematic, ...depthOf(context, part) }];
  });
  const tagged = onRecord.filter(({ depth }) => depth !== undefined);
  // One neighbour and the pocket tell it from any other; a sheet issued before asks for all there are, as it did.
  const there = context.asks("counter") && tagged.length > 0 ? tagged : onRecord;
  const readings = there.map(({ reading }) => reading);
  const correction = valuesOf(context, ["counter-correction"]);
  const { policy } = programme;
  if (there.length === 0) {
    return finding("passes", "No other mandrel on record to tag; the known point has to do.");
  }
  const missing = there.find(({ depth }) => depth === undefined);
  if (missing) {
    const where = writer.write("length", missing.schematic);
    return finding(
      "not known",
      `Not known yet: needs the mandrel ${missing.part} tagged, at ${where} on the schematic.`,
      readings,
    );
  }
  if ("missing" in correction || !policy) {
    const needs = "missing" in correction ? correction.missing : "the policy";
    return finding("not known", `Not known: needs ${needs}.`, readings);
  }
  const [by] = correction.values as [number];
  const allowed = toSI("length", policy.depthAgreement.value);
  const { write } = writer;
  const { measured } = results.context;
  const found = there.map(({ part, schematic, depth = 0 }) => ({
    agrees: atMost(Math.abs(depth - by - schematic), allowed),
    says: `the mandrel ${part} at ${write("length", depth - by)} by the corrected counter, ${apart(context, schematic, depth - by)} of the schematic's ${write("length", schematic)}`,
  }));
  const off = found.filter(({ agrees }) => !agrees);
  const words = (off.length > 0 ? off : found).map(({ says }) => says).join("; ");
  const result =
    off.length === 0
      ? finding("passes", `Tagged: ${words}.`, readings, ["counter-correction"])
      : finding(
          "fails",
          `Tagged: ${words}; at most ${write("length", allowed)} is allowed. This may be another pocket: tag them again, and the known point.`,
          readings,
          ["counter-correction"],
        );
  const known = [measured["known counter"], measured["known depth"]].flatMap((each) =>
    each ? [each.event] : [],
  );
  return { ...result, basis: [...new Set([...result.basis, ...known])] };
};

/** The new valve stands in the pocket that the old one came out of: the same depth along hole, to the policy's distance. */
export const sameDepthAsPulled: Check = (context) => {
  const { policy } = context.programme;
  const pulled = depthOf(context, "pulled");
  const set = depthOf(context, "set");
  const readings = [pulled.reading, set.reading];
  if (pulled.depth === undefined || set.depth === undefined || !policy) {
    return finding("not known", "Not known yet: needs the depth in the pocket.", readings);
  }
  const allowed = toSI("length", policy.pocketAgreement.value);
  const { write } = context.writer;
  const words = `It stands at ${write("length", set.depth)}; the pocket was found at ${write("length", pulled.depth)}, ${apart(context, pulled.depth, set.depth)}`;
  return atMost(Math.abs(set.depth - pulled.depth), allowed)
    ? finding("passes", `${words}.`, readings)
    : finding(
        "fails",
        `${words}; at most ${write("length", allowed)} is allowed. Is it in the pocket, and in this one? Do not jar: come up and find it again.`,
        readings,
      );
};
