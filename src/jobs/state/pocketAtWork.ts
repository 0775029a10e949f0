import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";
import { fieldById } from "../sheet/walk.ts";
import type { JobState } from "./jobState.ts";

/** What the log says of the pocket at work: undefined until something was done to it. */
export function pocketHolds({
  programme,
  readings,
}: JobState): "nothing" | "replacement" | undefined {
  if (!programme) return undefined;
  for (const { field: id, value } of readings.toReversed()) {
    const field = fieldById(programme.sheet, id);
    if (field?.kind !== "choice" || value.kind !== "choice") continue;
    const holds = field.choices.find((each) => each.value === value.choice)?.pocketHolds;
    if (holds !== undefined) return holds;
  }
  return undefined;
}

/** The well with its pocket at work as the run has left it. */
export function wellNow(
  well: Well,
  { job, replacement }: Pick<Programme, "job" | "replacement">,
  state: JobState,
): Well {
  const holds = pocketHolds(state);
  if (holds === undefined) return well;
  const mandrels = well.mandrels.map((mandrel) => {
    if (mandrel.id !== job.mandrel) return mandrel;
    const { valve: _, ...pocket } = mandrel;
    return holds === "replacement" && replacement
      ? { ...pocket, pocketState: "holds a valve" as const, valve: replacement.id }
      : { ...pocket, pocketState: "empty" as const };
  });
  return { ...well, mandrels };
}

/** The valves that can stand in a well's pockets during a job. */
export function valvesOf({ installed, replacement }: Programme): readonly Valve[] {
  return replacement ? [...installed, replacement] : installed;
}
