import { toSI } from "../quantity.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, type Finding, finding, valuesOf } from "./check.ts";

export const stackCoversTestPressure: Check = (context) => {
  const found = valuesOf(context, ["lowest-rating", "test-pressure"]);
  const results = ["lowest-rating", "test-pressure"] as const;
  if ("missing" in found) return finding("not known", `Not known: needs ${found.missing}.`);
  const [rating = 0, test = 0] = found.values;
  const { write } = context.writer;
  return rating >= test
    ? finding(
        "passes",
        `Lowest rating ${write("pressure", rating)}, test pressure ${write("pressure", test)}.`,
        [],
        results,
      )
    : finding(
        "fails",
        `The lowest rating in the stack is ${write("pressure", rating)}, below the test pressure of ${write("pressure", test)}. Change the weak item; the lowest rating rules.`,
        [],
        results,
      );
};

export const wireValvesInStack: Check = ({ programme }) => {
  if (!programme.stack) return finding("not known", "Not known: needs the pressure equipment.");
  return programme.stack.items.some((item) => item.kind === "wire valves")
    ? finding("passes", "Wire valves are part of the stack.")
    : finding(
        "fails",
        "No wire valves in the stack. They belong on every live well; put them in, or have the exception named.",
      );
};

/** A pressure test as read: start, end, minutes held. */
function testReadings(context: CheckContext) {
  const parts = ["start", "end", "held"].map((part) => context.reading(part));
  const [start, end, held] = parts.map((reading) =>
    quantitySI(reading, context.results.context.atmosphere),
  );
  return { parts, start, end, held };
}

function testFinding(
  context: CheckContext,
  name: string,
  least: number,
  most: number | undefined,
  hold: number,
): Finding {
  const { parts, start, end, held } = testReadings(context);
  if (start === undefined || end === undefined || held === undefined) {
    return finding("not known", `${name}: not known yet, needs start, end and time held.`, parts);
  }
  const { policy } = context.programme;
  const { write } = context.writer;
  const drop = ((start - end) / (start - context.results.context.atmosphere)) * 100;
  const allowed = policy?.testDropPercent.value ?? 0;
  const problems = [
    start < least &&
      `it started at ${write("pressure", start)}; test to at least ${write("pressure", least)}`,
    most !== undefined &&
      start > most &&
      `it started at ${write("pressure", start)}, above the lowest rating of ${write("pressure", most)}: bleed it off and have the stack looked at`,
    held < hold && `it was held ${write("duration", held)}; hold ${write("duration", hold)}`,
    drop > allowed &&
      `it fell ${drop.toFixed(1)} percent, more than the ${allowed} allowed: find the leak or the trapped air, then test again`,
    drop < -allowed &&
      `it rose ${(-drop).toFixed(1)} percent: something feeds it or it warms up; find out, then test again`,
  ].filter((problem) => problem !== false);
  return problems.length > 0
    ? finding("fails", `${name}: ${problems.join("; ")}.`, parts, ["test-pressure"])
    : finding(
        "passes",
        `${name}: ${write("pressure", start)} held ${write("duration", held)}, ended at ${write("pressure", end)}.`,
        parts,
        ["test-pressure"],
      );
}

export const lowTest: Check = (context) => {
  const { policy } = context.programme;
  const found = valuesOf(context, ["lowest-rating"]);
  if (!policy) return finding("not known", "Low test: not known, needs the policy.");
  return testFinding(
    context,
    "Low test",
    toSI("pressure", policy.lowTest.value, context.results.context.atmosphere),
    "values" in found ? found.values[0] : undefined,
    toSI("duration", policy.lowTestHold.value),
  );
};

export const highTest: Check = (context) => {
  const { policy } = context.programme;
  const found = valuesOf(context, ["test-pressure", "lowest-rating"]);
  if (!policy) return finding("not known", "High test: not known, needs the policy.");
  if ("missing" in found) {
    return finding("not known", `High test: not known, needs ${found.missing}.`);
  }
  const [test = 0, rating] = found.values;
  return testFinding(
    context,
    "High test",
    test,
    rating,
    toSI("duration", policy.highTestHold.value),
  );
};

export const lubricatorLength: Check = (context) => {
  const found = valuesOf(context, ["lubricator-spare"]);
  if ("missing" in found) return finding("not known", `Not known: needs ${found.missing}.`);
  const [spare = 0] = found.values;
  const { write } = context.writer;
  return spare >= 0
    ? finding(
        "passes",
        `${write("length", spare)} to spare above the margin.`,
        [],
        ["lubricator-spare"],
      )
    : finding(
        "fails",
        `The lubricator is ${write("length", -spare)} short for the longest string with the valve on. Add a section or shorten the string.`,
        [],
        ["lubricator-spare"],
      );
};

export const pushOutBeaten: Check = (context) => {
  const { policy } = context.programme;
  const found = valuesOf(context, ["push-out-ratio", "push-out", "weight-needed"]);
  const wellhead = context.results.context.measured["wellhead pressure"];
  if ("missing" in found || !policy) {
    return finding(
      "not known",
      `Not known: needs ${"missing" in found ? found.missing : "policy"}.`,
    );
  }
  const basis = wellhead ? [wellhead.event] : [];
  const [ratio = 0, force = 0, needed = 0] = found.values;
  const { write } = context.writer;
  const wanted = policy.pushOutRatio.value;
  const passes = ratio >= wanted;
  const says = passes
    ? `Push-out ${write("force", force)}; effective weight is ${write("ratio", ratio)} times push-out and packing friction (at least ${wanted}).`
    : `Push-out is not beaten: ${write("force", force)} at the packing, and effective weight is ${write("ratio", ratio)} times push-out and packing friction; at least ${wanted} is wanted. The lightest string needs ${write("weight", needed * wanted)} in air. Add stem, or bring the wellhead pressure down.`;
  return { ...finding(passes ? "passes" : "fails", says, [], ["push-out-ratio"]), basis };
};

export const clearBore: Check = (context) => {
  const found = valuesOf(context, ["drift-clearance"]);
  if ("missing" in found) return finding("not known", `Not known: needs ${found.missing}.`);
  const [clearance = 0] = found.values;
  const { write } = context.writer;
  return clearance > 0
    ? finding(
        "passes",
        `${write("diameter", clearance)} between the largest tool and the narrowest bore.`,
        [],
        ["drift-clearance"],
      )
    : finding(
        "fails",
        `The largest tool is ${write("diameter", -clearance)} too large for the narrowest bore on the way. It does not go in.`,
        [],
        ["drift-clearance"],
      );
};
