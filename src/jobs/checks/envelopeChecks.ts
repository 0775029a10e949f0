import { toSI } from "../quantity.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, type Finding, finding, valuesOf } from "./check.ts";
import { atLeast, atMost } from "./compare.ts";

/** The lowest rating in the stack, hose and gauge included, is not below the test pressure (common practice). */
export const stackCoversTestPressure: Check = (context) => {
  const found = valuesOf(context, ["lowest-rating", "test-pressure"]);
  const results = ["lowest-rating", "test-pressure"] as const;
  if ("missing" in found) return finding("not known", `Not known: needs ${found.missing}.`);
  const [rating, test] = found.values as [number, number];
  const { write } = context.writer;
  return atLeast(rating, test)
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

/** Wire valves (blowout preventer for line) belong on every live well (common practice). */
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

interface TestLimits {
  readonly least: number;
  readonly most: number;
  readonly mostIs: string;
  readonly hold: number;
  readonly dropPercent: number;
}

function testFinding(context: CheckContext, name: string, limits: TestLimits): Finding {
  const { parts, start, end, held } = testReadings(context);
  if (start === undefined || end === undefined || held === undefined) {
    return finding("not known", `${name}: not known yet, needs start, end and time held.`, parts);
  }
  const { write } = context.writer;
  const { least, most, mostIs, hold, dropPercent } = limits;
  const drop = ((start - end) / (start - context.results.context.atmosphere)) * 100;
  const problems = [
    !atLeast(start, least) &&
      `it started at ${write("pressure", start)}; test to at least ${write("pressure", least)}`,
    !atMost(start, most) &&
      `it started at ${write("pressure", start)}, above ${mostIs} of ${write("pressure", most)}: bleed it off and have it looked at`,
    atLeast(start, least) &&
      !atLeast(end, least) &&
      `it ended at ${write("pressure", end)}; hold at least ${write("pressure", least)} to the end`,
    !atLeast(held, hold) &&
      `it was held ${write("duration", held)}; hold ${write("duration", hold)}`,
    !atMost(drop, dropPercent) &&
      `it fell ${drop.toFixed(1)} percent, more than the ${dropPercent} allowed: find the leak or the trapped air, then test again`,
    !atLeast(drop, -dropPercent) &&
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

/**
 * The low test of the stack held: between the policy's low pressures (200 to 500 psi, common practice) to the end of
 * the policy's time, and changed by no more than the policy's percentage of gauge pressure.
 */
export const lowTest: Check = (context) => {
  const { policy } = context.programme;
  if (!policy) return finding("not known", "Low test: not known, needs the policy.");
  const { atmosphere } = context.results.context;
  return testFinding(context, "Low test", {
    least: toSI("pressure", policy.lowTest.value, atmosphere),
    most: toSI("pressure", policy.lowTestMost.value, atmosphere),
    mostIs: "the largest low-test pressure",
    hold: toSI("duration", policy.lowTestHold.value),
    dropPercent: policy.testDropPercent.value,
  });
};

/**
 * The high test of the stack held: at least the test pressure to the end, never above the lowest rating, for the
 * policy's time, and changed by no more than the policy's percentage of gauge pressure (common practice).
 */
export const highTest: Check = (context) => {
  const { policy } = context.programme;
  const found = valuesOf(context, ["test-pressure", "lowest-rating"]);
  if (!policy) return finding("not known", "High test: not known, needs the policy.");
  if ("missing" in found) {
    return finding("not known", `High test: not known, needs ${found.missing}.`);
  }
  const [least, most] = found.values as [number, number];
  return testFinding(context, "High test", {
    least,
    most,
    mostIs: "the lowest rating in the stack",
    hold: toSI("duration", policy.highTestHold.value),
    dropPercent: policy.testDropPercent.value,
  });
};

/**
 * A union that was broken to change strings is tested again to at least the expected maximum surface pressure, and never
 * above the lowest rating (common practice; a permit or local rule may ask for the whole test again).
 */
export const unionCoversTheWell: Check = (context) => {
  const reading = context.reading("tested");
  const tested = quantitySI(reading, context.results.context.atmosphere);
  const found = valuesOf(context, ["expected-maximum", "lowest-rating"]);
  if (tested === undefined) {
    return finding("not known", "Not known yet: needs the pressure it was tested to.", [reading]);
  }
  if ("missing" in found) {
    return finding("not known", `Not known: needs ${found.missing}.`, [reading]);
  }
  const [least, most] = found.values as [number, number];
  const { write } = context.writer;
  const words = `The union was tested to ${write("pressure", tested)}`;
  const expected = `the well can put ${write("pressure", least)} on it`;
  if (!atLeast(tested, least)) {
    const wayOut = "Test it to that at least before it sees the well.";
    return finding("fails", `${words}; ${expected}. ${wayOut}`, [reading], ["expected-maximum"]);
  }
  return atMost(tested, most)
    ? finding("passes", `${words}; ${expected}.`, [reading], ["expected-maximum"])
    : finding(
        "fails",
        `${words}, above the lowest rating of ${write("pressure", most)}: bleed it off and have the stack looked at.`,
        [reading],
        ["lowest-rating"],
      );
};

/** Lengths are summed from feet and metres: a micron is equal. */
const MICRON = 1e-6;

/** The longest string, jars extended and valve on, stands above the closed valve with the policy's margin. */
export const lubricatorLength: Check = (context) => {
  const found = valuesOf(context, ["lubricator-spare"]);
  if ("missing" in found) return finding("not known", `Not known: needs ${found.missing}.`);
  const [spare] = found.values as [number];
  const { write } = context.writer;
  return spare >= -MICRON
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

/**
 * The lightest string goes down against push-out and packing friction with the policy's ratio, 1.3 to 1.5 (common
 * practice), at the wellhead pressure and friction measured last. Statics, see calc/pushOut.ts.
 */
export const pushOutBeaten: Check = (context) => {
  const { policy } = context.programme;
  const found = valuesOf(context, ["push-out-ratio", "push-out", "weight-needed"]);
  const { measured } = context.results.context;
  // The lightest of those that are chosen may not be the lightest of those that go in.
  const needs = [
    ...("missing" in found ? [found.missing] : []),
    ...(policy ? [] : ["policy"]),
    ...(["gauge", "pull", "set"] as const)
      .filter((purpose) => !context.programme.strings[purpose])
      .map((purpose) => `${purpose} string`),
  ];
  if ("missing" in found || !policy || needs.length > 0) {
    return finding("not known", `Not known: needs ${needs.join("; ")}.`);
  }
  const stands = [measured["wellhead pressure"], measured["packing friction"]];
  const basis = [...new Set(stands.flatMap((each) => (each ? [each.event] : [])))];
  const [ratio, force, needed] = found.values as [number, number, number];
  const { write } = context.writer;
  const wanted = policy.pushOutRatio.value;
  const passes = atLeast(ratio, wanted);
  const says = passes
    ? `Push-out ${write("force", force)}; effective weight is ${write("ratio", ratio)} times push-out and packing friction (at least ${wanted}).`
    : `Push-out is not beaten: ${write("force", force)} at the packing, and effective weight is ${write("ratio", ratio)} times push-out and packing friction; at least ${wanted} is wanted. The lightest string needs ${write("weight", needed * wanted)} in air. Add stem, or bring the wellhead pressure down.`;
  return { ...finding(passes ? "passes" : "fails", says, [], ["push-out-ratio"]), basis };
};

/** The largest tool of any string is smaller than the narrowest bore down to the mandrel. Arithmetic. */
export const clearBore: Check = (context) => {
  const found = valuesOf(context, ["drift-clearance"]);
  if ("missing" in found) return finding("not known", `Not known: needs ${found.missing}.`);
  const [clearance] = found.values as [number];
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
