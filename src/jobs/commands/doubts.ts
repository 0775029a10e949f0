import { atMost } from "../checks/compare.ts";
import type { Writer } from "../display.ts";
import type { Entry } from "../log/event.ts";
import { toSI } from "../quantity.ts";
import type { Policy } from "../records/policy.ts";
import type { Programme } from "../records/programme.ts";
import type { Results } from "../results/results.ts";
import type { Step } from "../sheet/sheet.ts";
import type { Doubt } from "./decision.ts";

type QuantityFieldOf = Extract<Step["fields"][number], { kind: "quantity" }>;

/**
 * What of a step's entries somebody should look at twice: over a limit, or beyond what the well's own figures
 * allow. A doubt prompts and does not block; the figures may be right and the records wrong.
 */
export function doubtsOf(
  step: Pick<Step, "fields">,
  entries: readonly Entry[],
  programme: Programme,
  results: Results,
  writer: Writer,
): Doubt[] {
  const read = entries.flatMap(({ field: id, value }) => {
    const field = step.fields.find((each) => each.id === id);
    if (field?.kind !== "quantity" || value.kind !== "quantity") return [];
    return [{ field, si: toSI(value.dimension, value as never, writer.atmosphere) }];
  });
  const disorder = outOfOrder(read);
  return read.flatMap(({ field, si }): Doubt[] => {
    const found = looks.map((look) => look(field, si, programme, results, writer));
    const own = disorder?.field === field.id ? disorder : undefined;
    return [found.find((doubt) => doubt !== undefined) ?? own ?? []].flat();
  });
}

/** At one depth slacking off pulls less than hanging, and picking up more: otherwise two figures are swapped. */
function outOfOrder(
  read: readonly { readonly field: QuantityFieldOf; readonly si: number }[],
): Doubt | undefined {
  const rising = (["in-", "hanging-", "out-"] as const).flatMap(
    (of) => read.find(({ field }) => field.expected?.startsWith(of)) ?? [],
  );
  const index = rising.findIndex(({ si }, at) => at > 0 && si < (rising[at - 1]?.si ?? si));
  const [before, after] = [rising[index - 1], rising[index]];
  if (!before || !after) return undefined;
  const says = `${after.field.label} is less than ${before.field.label.toLowerCase()}. Are the two swapped, or does the string stand on something?`;
  return { field: after.field.id, says, needsReason: false };
}

type Look = (
  field: QuantityFieldOf,
  si: number,
  programme: Programme,
  results: Results,
  writer: Writer,
) => Doubt | undefined;

const overLimit: Look = (field, si, _, results, { write }) => {
  const limit = field.most && results.value(field.most);
  if (limit === undefined || atMost(si, limit)) return undefined;
  const { dimension } = field;
  const over =
    dimension === "pressure"
      ? write("pressure difference", si - limit)
      : write(dimension, si - limit);
  const says = `${field.label}: ${write(dimension, si)} is ${over} over the limit of ${write(dimension, limit)}.`;
  return { field: field.id, says, needsReason: true };
};

/** Off what the calculations say, by more than the policy's band: it may be right, and then the plan is not. */
const offExpected: Look = (field, si, { policy }, results, { write }) => {
  const expected = field.expected && results.value(field.expected);
  const band = field.band && bandOf(policy, field.band);
  if (expected === undefined || band === undefined || atMost(Math.abs(si - expected), band))
    return undefined;
  const { dimension } = field;
  const apart = dimension === "pressure" ? "pressure difference" : dimension;
  const more = si > expected ? "more" : "less";
  const says = `${field.label}: ${write(dimension, si)} is ${write(apart, Math.abs(si - expected))} ${more} than the ${write(dimension, expected)} expected; up to ${write(apart, band)} is usual.`;
  return { field: field.id, says, needsReason: false };
};

/** How far from the expected value is usual, SI; undefined where the policy does not say. */
export function bandOf(
  policy: Policy | undefined,
  of: "pull" | "pressure" | "depth",
): number | undefined {
  const band = policy?.expectedBand;
  switch (of) {
    case "pull":
      return band?.pull && toSI("force", band.pull.value);
    case "pressure":
      return band?.pressure && toSI("pressure difference", band.pressure.value);
    case "depth":
      return band?.depth && toSI("length", band.depth.value);
  }
}

const overExpected: Look = (field, si, _, results, { write }) => {
  const most = results.value("expected-maximum");
  // A pressure with a limit of its own, as the test's, is not the well's.
  if (field.dimension !== "pressure" || field.most || field.channel === undefined) return undefined;
  if (most === undefined || field.channel === "card set pressure" || atMost(si, most))
    return undefined;
  const says = `${field.label}: ${write("pressure", si)} is more than the ${write("pressure", most)} that this well should show at surface.`;
  return { field: field.id, says, needsReason: false };
};

const belowTheWell: Look = (field, si, { well }, _, { write }) => {
  if (!field.alongHole || !well) return undefined;
  const foot = Math.max(
    ...well.tubing.map((joint) => toSI("length", joint.to)),
    ...well.mandrels.map((mandrel) => toSI("length", mandrel.depthAlongHole)),
  );
  if (atMost(si, foot)) return undefined;
  const says = `${field.label}: ${write("length", si)} lies below the end of this well's tubing at ${write("length", foot)}.`;
  return { field: field.id, says, needsReason: false };
};

/** Lines at a hay pulley make 30° to 150° (common practice); outside of that a digit is missing or too many. */
const unlikelyAngle: Look = (field, si, _, __, { write }) => {
  if (field.channel !== "line angle") return undefined;
  const degrees = (si * 180) / Math.PI;
  if (degrees >= 30 && degrees <= 150) return undefined;
  const says = `${field.label}: ${write("angle", si)} is unlikely at a hay pulley, and it moves every expected reading and the limit.`;
  return { field: field.id, says, needsReason: false };
};

const pushing: Look = (field, si, _, __, { write }) => {
  if (field.dimension !== "force" || si >= 0) return undefined;
  const says = `${field.label}: ${write("force", si)} is a push, and a line cannot push.`;
  return { field: field.id, says, needsReason: false };
};

/** What weighs most first: of a reading one thing is asked. */
const looks: readonly Look[] = [
  overLimit,
  pushing,
  belowTheWell,
  overExpected,
  unlikelyAngle,
  offExpected,
];
