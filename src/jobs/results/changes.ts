import type { Writer } from "../display.ts";
import type { Sheet } from "../sheet/sheet.ts";
import { stepsOf } from "../sheet/walk.ts";
import type { Results } from "./results.ts";
import type { ResultId } from "./traced.ts";

/** A figure that a reading moved, as it is written for a person. */
export interface Change {
  readonly id: ResultId;
  readonly label: string;
  /** undefined where it was not known */
  readonly before: string | undefined;
  readonly after: string | undefined;
}

/** Figures that stand on the screen all the time, whatever the sheet shows. */
const always = [
  "difference-at-mandrel",
  "casing-lowest",
  "casing-highest",
  "largest-pull",
  "push-out-ratio",
] as const satisfies readonly ResultId[];

/**
 * What a reading changed among the figures that the crew works to: those a sheet shows, expects or limits by.
 * A change that does not show in the digits as written is none.
 */
export function changesBetween(
  before: Results,
  after: Results,
  sheet: Sheet,
  writer: Writer,
): Change[] {
  const shown = stepsOf(sheet).flatMap((step) => [
    ...(step.figures ?? []),
    ...step.fields.flatMap((field) =>
      field.kind === "quantity" ? [field.expected, field.most] : [],
    ),
  ]);
  const ids = new Set<ResultId>([...always, ...shown.filter((id) => id !== undefined)]);
  const written = (results: Results, id: ResultId) => {
    const traced = results.get(id);
    return traced?.outcome.state === "known"
      ? writer.write(traced.dimension, traced.outcome.si)
      : undefined;
  };
  return [...ids].flatMap((id) => {
    const [was, is] = [written(before, id), written(after, id)];
    const label = after.get(id)?.label ?? before.get(id)?.label;
    return was === is || label === undefined ? [] : [{ id, label, before: was, after: is }];
  });
}
