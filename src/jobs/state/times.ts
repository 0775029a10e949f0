import { differenceInMilliseconds, parseISO } from "date-fns";
import type { JobEvent } from "../log/event.ts";
import { seenOf } from "../log/seen.ts";
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
  /** An entry is older by its clock than one its tablet had seen: a clock was set, the durations around it say nothing. */
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
  let [standby, contingencies] = [0, 0];
  // Two tablets may each have begun one: the time is back with the phases when the last of them has ended.
  let waits = 0;
  const deals = new Set<string>();
  let phase = first;
  let latest = started?.at ?? now;
  let closed = false;
  // Tablets that worked apart stand in the log by turns, each with its own clock: time goes on with the later one.
  const span = (to: string) => {
    const length = differenceInMilliseconds(parseISO(to), parseISO(latest));
    if (length > 0) latest = to;
    return Math.max(0, length);
  };
  const book = (length: number) => {
    if (waits > 0) standby += length;
    else if (deals.size > 0) contingencies += length;
    else if (phase) spent.set(phase.id, (spent.get(phase.id) ?? 0) + length);
  };
  let worked = 0;
  const from = started ? (state.position.get(started.hash) ?? -1) + 1 : events.length;
  for (const event of events.slice(from)) {
    const { body } = event;
    worked += 1;
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
      closed = true;
      break;
    }
  }
  const entries = events.slice(from - 1, from + worked);
  const clockMoved = started !== undefined && (clockRanBack(entries) || (!closed && now < latest));
  if (started && !closed) book(span(now));
  return {
    phases: phases.map((each) => ({
      phase: each,
      worked: spent.get(each.id) ?? 0,
      attempts: attemptsAt(state, each),
    })),
    standby,
    contingencies,
    whole: started ? differenceInMilliseconds(parseISO(latest), parseISO(started.at)) : 0,
    clockMoved,
  };
}

/** Whether an entry is older, by its clock, than one that its tablet had seen. */
function clockRanBack(events: readonly JobEvent[]): boolean {
  // The latest instant of a device up to each of its entries, and of the whole log so far.
  const upTo = new Map<string, string>();
  const key = (device: string, sequence: number) => `${device} ${sequence}`;
  let before = "";
  return events.some((event) => {
    const own = upTo.get(key(event.device, event.sequence - 1));
    const seen =
      event.format === 1
        ? [before]
        : [own, ...seenOf(event).map(([device, last]) => upTo.get(key(device, last)))];
    upTo.set(
      key(event.device, event.sequence),
      own !== undefined && own > event.at ? own : event.at,
    );
    before = event.at > before ? event.at : before;
    return seen.some((at) => at !== undefined && event.at < at);
  });
}

/** How often the steps of a phase were begun. */
function attemptsAt({ doneBefore, done }: JobState, { items }: Phase): number {
  const counts = items.map((item) => {
    const id = itemId(item);
    return doneBefore.filter(({ step }) => step === id).length + (done.has(id) ? 1 : 0);
  });
  return Math.max(0, ...counts);
}
