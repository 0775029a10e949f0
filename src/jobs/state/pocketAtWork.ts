import { focus, pocketsOf } from "../pockets.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel, Well } from "../records/well.ts";
import { fieldById, pocketOfField } from "../sheet/walk.ts";
import type { JobState } from "./jobState.ts";

/**
 * What the log says of a pocket at work: undefined until something was done to it.
 *
 * @param pocket mandrel, by its id; undefined: the job's first
 */
export function pocketHolds(
  { programme, readings }: JobState,
  pocket?: string,
): "nothing" | "replacement" | undefined {
  if (!programme) return undefined;
  const { sheet, job } = programme;
  for (const { field: id, value } of readings.toReversed()) {
    const field = fieldById(sheet, id);
    if (field?.kind !== "choice" || value.kind !== "choice") continue;
    if ((pocketOfField(sheet, id) ?? job.mandrel) !== (pocket ?? job.mandrel)) continue;
    const holds = field.choices.find((each) => each.value === value.choice)?.pocketHolds;
    if (holds !== undefined) return holds;
  }
  return undefined;
}

/** The well with the pockets at work as the run has left them. */
export function wellNow(well: Well, state: JobState): Well {
  const { programme } = state;
  if (!programme) return well;
  const { mandrels } = well;
  return { ...well, mandrels: mandrels.map((mandrel) => mandrelNow(mandrel, programme, state)) };
}

function mandrelNow(mandrel: Mandrel, programme: Programme, state: JobState): Mandrel {
  if (!pocketsOf(programme.job).includes(mandrel.id)) return mandrel;
  const holds = pocketHolds(state, mandrel.id);
  if (holds === undefined) return mandrel;
  const { valve: _, ...pocket } = mandrel;
  const { replacement } = focus(programme, mandrel.id);
  return holds === "replacement" && replacement
    ? { ...pocket, pocketState: "holds a valve", valve: replacement.id }
    : { ...pocket, pocketState: "empty" };
}

/** The valves that can stand in a well's pockets during a job. */
export function valvesOf({ installed, replacement, replacements = [] }: Programme): Valve[] {
  return [...installed, ...(replacement ? [replacement] : []), ...replacements];
}
