import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, finding } from "./check.ts";
import { atMost } from "./compare.ts";

/** A turn more than the record says may be the slack of the stem or a hand that counts the first half (common practice). */
const ONE_TURN = 1;

/**
 * The crown valve closed or opened by its full number of turns: a short count can mean that the string hangs across it,
 * or comes up against a gate that is half in its way. Far too many are another valve, or counted wrong.
 */
export const fullTurns: Check = (context) => {
  // A sheet issued before it said which way the valve is turned is judged on the turns alone, as it was.
  const part = (["opened", "closed"] as const).find((each) => context.asks(each));
  const reading = context.reading(part ?? "turns");
  const turns = reading?.value.kind === "count" ? reading.value.count : undefined;
  const full = context.programme.well?.crownValveTurns;
  if (turns === undefined)
    return finding("not known", "Not known yet: needs the turns.", [reading]);
  if (full === undefined) {
    return finding(
      "not known",
      "Not known: needs the turns of the crown valve on the well's record.",
      [reading],
    );
  }
  if (part && turns > full + ONE_TURN) {
    return finding(
      "fails",
      `${turns} turns, and the crown valve has ${full}: counted wrong, or not this valve. Look which valve it is, and count again.`,
      [reading],
    );
  }
  if (turns >= full) {
    const words =
      turns > full ? `${turns} turns; there are ${full}.` : `${turns} turns, all there are.`;
    return finding("passes", words, [reading]);
  }
  return finding(
    "fails",
    part === "opened"
      ? `Not fully open: ${turns} of ${full} turns. Open it to ${full}, and count again.`
      : `${full - turns} of ${full} turns are missing: something may hang across the valve. Open it again in full, look where the string is, and close it anew.`,
    [reading],
  );
};

/** "None in this well" is believed only where the well's record has none either. */
export const safetyValvesAsRecorded: Check = (context) => {
  const reading = context.reading("answer");
  const answer = reading?.value.kind === "choice" ? reading.value.choice : undefined;
  const valve = context.programme.well?.restrictions.find((each) => each.kind === "safety valve");
  if (answer === undefined) return finding("not known", "Not known yet.", [reading]);
  if (answer === "held") return finding("passes", "Held open and guarded.", [reading]);
  if (answer === "none" && !valve) {
    return finding("passes", "None in this well, nor on its record.", [reading]);
  }
  const { value, unit } = valve?.depthAlongHole ?? { value: "", unit: "" };
  return finding(
    "fails",
    valve
      ? `The well's record has a safety valve at ${value} ${unit} along hole. One that closes cuts the wire: hold it open and guard it, or have the record mended.`
      : "A safety valve that closes cuts the wire. Hold it open and guard it first.",
    [reading],
  );
};

/**
 * Neither wellhead nor casing stands above what the stack was tested to: with the valve out they are one. Proved is
 * what stood on the stack all the while, the lower of the test's start and end. Where the well was let in with the
 * string in the lubricator, it is shut out first; with the wire across the valve that is no way out.
 */
export const insideWhatWasTested: Check = (context) => {
  const { results, writer } = context;
  // A sheet issued before the end of the test was asked for is judged on the start, as it was.
  const parts = ["tested", "ended"].filter((part) => context.asks(part));
  const readings = parts.map((part) => context.reading(part));
  const stood = readings.map((reading) => quantitySI(reading, results.context.atmosphere));
  const { measured } = results.context;
  const wellhead = measured["wellhead pressure"];
  const casing = measured["casing pressure"];
  if (stood.length === 0 || !stood.every((each) => each !== undefined) || !wellhead || !casing) {
    return finding("not known", "Not known yet: needs the test and both gauges.", readings);
  }
  const tested = Math.min(...stood);
  const highest = wellhead.si > casing.si ? wellhead : casing;
  const tests = readings.flatMap((reading) => (reading ? [reading.standsOn] : []));
  const basis = [...new Set([...tests, wellhead.event, casing.event])];
  const name = highest === casing ? "Casing" : "Wellhead";
  const words = `${name} stands at ${writer.write("pressure", highest.si)}, the stack was tested to ${writer.write("pressure", tested)}`;
  const wayOut = context.asks("let in")
    ? "Shut the crown valve now, with the string counted in the lubricator; then bring the pressure down, or test the stack higher."
    : "Bring the pressure down first, or come out and test the stack higher.";
  const found = atMost(highest.si, tested)
    ? finding("passes", `${words}.`)
    : finding("fails", `${words}. ${wayOut}`);
  return { ...found, basis };
};
