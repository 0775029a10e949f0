import { differenceInMilliseconds, parseISO } from "date-fns";
import type { JobEvent } from "../log/event.ts";
import type { Phase } from "../sheet/sheet.ts";
import { itemId } from "../sheet/walk.ts";
import type { JobState } from "./jobState.ts";

/** Time that went into a part of a job, ms. */
export interface TimeSpent {
  readonly phase: Phase;
  /** from the end of what was before it; what was done again counts each time */
  readonly worked: number;
  readonly attempts: number;
}
export interface Times {
  readonly phases: readonly TimeSpent[];
  readonly standby: number;
  /** while something that went wrong was dealt with */
  readonly contingencies: number;
  /** from the start of the run to its first close, or to now: what an engineer sends back is mended in the office */
  readonly whole: number;
  /** A clock was set back between two entries: the durations around it say nothing. */
  readonly clockMoved: boolean;
}

/**
 * Where a job's time went, by the clocks of the tablets. Every entry of the run ends a span that began with the
 * entry before it; a span belongs to standby or to a contingency while one is open, otherwise to the phase that
 * the entry is of.
 *
 * @param now instant at which the question is asked
 */
export function timesOf(state: JobState, now: string): Times {
  const { started, programme, events } = state;
  const phases = programme?.sheet.phases ?? [];
  const spent = new Map(phases.map((phase) => [phase.id, 0]));
  const [first] = phases;
  let [standby, contingencies, clockMoved] = [0, 0, false];
  // Two tablets may each have begun one: the time is back with the phases when the last of them has ended.
  let waits = 0;
  const deals = new Set<string>();
  let phase = first;
  let last = started?.at;
  let closed: JobEvent | undefined;
  const span = (to: string) => {
    const length = last === undefined ? 0 : differenceInMilliseconds(parseISO(to), parseISO(last));
    if (length < 0) clockMoved = true;
    last = to;
    return Math.max(0, length);
  };
  const book = (length: number) => {
    if (waits > 0) standby += length;
    else if (deals.size > 0) contingencies += length;
    else if (phase) spent.set(phase.id, (spent.get(phase.id) ?? 0) + length);
  };
  const from = started ? (state.position.get(started.hash) ?? -1) + 1 : events.length;
  for (const event of events.slice(from)) {
    const { body } = event;
    if (body.type === "review") continue;
    const length = span(event.at);
    const of = "step" in body ? body.step : "hold" in body ? body.hold : undefined;
    const own = phases.find(({ items }) => items.some((item) => itemId(item) === of));
    phase = own ?? phase;
    book(length);
    if (body.type === "standby started") waits += 1;
    if (body.type === "standby ended") waits = Math.max(0, waits - 1);
    if (body.type === "branch opened") deals.add(event.hash);
    if (body.type === "branch closed") deals.delete(body.opened);
    if (body.type === "run closed") {
      closed = event;
      break;
    }
  }
  if (started && !closed) book(span(now));
  return {
    phases: phases.map((each) => ({
      phase: each,
      worked: spent.get(each.id) ?? 0,
      attempts: attemptsAt(state, each),
    })),
    standby,
    contingencies,
    whole: started
      ? Math.max(0, differenceInMilliseconds(parseISO(closed?.at ?? now), parseISO(started.at)))
      : 0,
    clockMoved,
  };
}

/** How often the steps of a phase were begun. */
function attemptsAt({ doneBefore, done }: JobState, { items }: Phase): number {
  const counts = items.map((item) => {
    const id = itemId(item);
    return doneBefore.filter(({ step }) => step === id).length + (done.has(id) ? 1 : 0);
  });
  return Math.max(0, ...counts);
}
