import type { Evidence, Investigation } from "../records/investigation.ts";
import type { Ranking } from "./ranking.ts";
import { isDownhole } from "./work.ts";

type Found = NonNullable<Extract<Evidence, { kind: "supply" }>["found"]>;

export interface SurfaceFirst {
  readonly says: string;
  /** something is wrong there, and it is mended before anything else is measured */
  readonly found: boolean;
}

/** What was found at surface and has to be mended before anything is said of valves. */
const toMend: Partial<Record<Found, string>> = {
  frozen:
    "The choke was found frozen. Thaw it, let the well settle and read both gauges again: what was read until then tells little of the valves.",
  "choke changed":
    "The choke was found changed. Put it back as it is meant to be, or put the change on record, let the well settle and read both gauges again: what was read until then tells little of the valves.",
  "supply fell":
    "The gas supply was found fallen. Bring it back, let the well settle and read both gauges again: what was read until then tells little of the valves.",
};

/**
 * What the trade looks at before a valve is blamed: choke, meter and supply. In words where something was found there, and
 * where nobody has looked while the likeliest answer is in the hole.
 */
export function surfaceFirst(
  { evidence }: Pick<Investigation, "evidence">,
  { ranked }: Pick<Ranking, "ranked">,
): SurfaceFirst | undefined {
  const counted = evidence
    .flatMap((piece) => (piece.kind === "supply" && !piece.setAside ? [piece] : []))
    .sort((a, b) => b.at.localeCompare(a.at));
  const last = counted.find(({ found }) => found && found !== "not looked at");
  const found = last?.found && toMend[last.found];
  if (found) return { says: found, found: true };
  const isLookedAt = last !== undefined || counted.some(({ supplyPressure }) => supplyPressure);
  const first = ranked[0];
  return !isLookedAt && first && isDownhole(first.hypothesis.fault)
    ? {
        says: "Nobody has looked at choke, meter and supply yet. It costs little: look there before a valve is pulled, and enter what was found under gas supply and choke.",
        found: false,
      }
    : undefined;
}
