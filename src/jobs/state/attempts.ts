import type { JobEvent } from "../log/event.ts";
import { hadSeen } from "../log/seen.ts";
import { itemId, itemsOf } from "../sheet/walk.ts";
import type { JobState } from "./jobState.ts";

/**
 * The going back that puts an entry into the attempt before it: its tablet had not heard of it, whichever of the
 * two the log has first. Undefined for an entry of the attempt that is being made.
 *
 * @param item step or hold point that the entry is of
 */
export function wasAgainBy(
  event: JobEvent,
  item: string,
  { goneBack, programme }: Pick<JobState, "goneBack" | "programme">,
): JobEvent | undefined {
  if (goneBack.length === 0 || !programme) return undefined;
  const ids = itemsOf(programme.sheet).map(itemId);
  const place = ids.indexOf(item);
  return goneBack.find(({ event: again, to }) => ids.indexOf(to) <= place && !hadSeen(event, again))
    ?.event;
}
