import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, finding, valuesOf } from "./check.ts";
import { atMost } from "./compare.ts";

function chosen(context: CheckContext, part: string) {
  const reading = context.reading(part);
  return { reading, choice: reading?.value.kind === "choice" ? reading.value.choice : undefined };
}

/** The pocket takes a valve: empty on record, by the feel of the block, and by its print. Any one alone deceives. */
export const pocketIsEmpty: Check = (context) => {
  const mandrel = targetMandrel(context.programme);
  const found = chosen(context, "found");
  const print = chosen(context, "print");
  const readings = [found.reading, print.reading];
  if (!mandrel || found.choice === undefined || print.choice === undefined) {
    return finding(
      "not known",
      "Not known yet: needs the pocket felt and the block's print.",
      readings,
    );
  }
  const problems = [
    mandrel.pocketState !== "empty" &&
      `the well's record ${mandrel.pocketState === "not known" ? "does not say what sits in it" : "has a valve in it"}`,
    found.choice !== "empty" && "the block did not go in freely",
    print.choice !== "open pocket" && "the print does not show an open pocket",
  ].filter((problem) => problem !== false);
  return problems.length === 0
    ? finding("passes", `Pocket of mandrel ${mandrel.number} found empty, as on record.`, readings)
    : finding(
        "fails",
        `Pocket of mandrel ${mandrel.number}: ${problems.join("; ")}. A valve is not driven onto something: look again, or the engineer decides.`,
        readings,
      );
};

/**
 * The catcher was tagged below the target, at a nipple of the well's record, by the counter less its correction at
 * the known point, within the policy's distance along hole.
 */
export const catcherBelowMandrel: Check = (context) => {
  const { programme, results, writer } = context;
  const { well, policy } = programme;
  const reading = context.reading("depth");
  const tagged = quantitySI(reading, results.context.atmosphere);
  const target = targetMandrel(programme);
  const correction = valuesOf(context, ["counter-correction"]);
  if (tagged === undefined || !well || !target || !policy || "missing" in correction) {
    const needs = "missing" in correction ? correction.missing : "the depth at which it was tagged";
    return finding("not known", `Not known yet: needs ${needs}.`, [reading]);
  }
  const { write } = writer;
  const depth = tagged - (correction.values[0] as number);
  const allowed = toSI("length", policy.depthAgreement.value);
  const mandrel = toSI("length", target.depthAlongHole);
  const words = `Tagged at ${write("length", depth)} by the corrected counter`;
  if (atMost(depth, mandrel)) {
    return finding(
      "fails",
      `${words}; mandrel ${target.number} is at ${write("length", mandrel)}. A catcher above it catches nothing: come out and set it below.`,
      [reading],
      ["counter-correction"],
    );
  }
  const nipple = well.restrictions.find(
    (each) =>
      each.kind === "nipple" &&
      atMost(Math.abs(toSI("length", each.depthAlongHole) - depth), allowed),
  );
  return nipple
    ? finding("passes", `${words}, in the ${nipple.name}.`, [reading], ["counter-correction"])
    : finding(
        "fails",
        `${words}; the well's record has no nipple within ${write("length", allowed)} of that. What holds it there? Tag it again, or the engineer decides.`,
        [reading],
        ["counter-correction"],
      );
};
