import { atMost } from "../checks/compare.ts";
import type { Writer } from "../display.ts";
import type { Entry } from "../log/event.ts";
import { toSI } from "../quantity.ts";
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
  step: Step,
  entries: readonly Entry[],
  programme: Programme,
  results: Results,
  writer: Writer,
): Doubt[] {
  return entries.flatMap(({ field: id, value }): Doubt[] => {
    const field = step.fields.find((each) => each.id === id);
    if (field?.kind !== "quantity" || value.kind !== "quantity") return [];
    const si = toSI(value.dimension, value as never, writer.atmosphere);
    return [overLimit, overExpected, belowTheWell, pushing].flatMap(
      (doubt) => doubt(field, si, programme, results, writer) ?? [],
    );
  });
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

const pushing: Look = (field, si, _, __, { write }) => {
  if (field.dimension !== "force" || si >= 0) return undefined;
  const says = `${field.label}: ${write("force", si)} is a push, and a line cannot push.`;
  return { field: field.id, says, needsReason: false };
};
