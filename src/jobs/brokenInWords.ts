import { eventInWords } from "./eventInWords.ts";
import { type BrokenLink, describeBroken } from "./log/verify.ts";
import type { JobState } from "./state/jobState.ts";

/**
 * Where a log does not hold, so that somebody can find the place: what is wrong, on which tablet, in which step, and
 * the last entry before it that holds.
 *
 * @returns whole sentences
 */
export function brokenInWords(broken: BrokenLink, state: JobState): string {
  const { device, sequence } = broken;
  const what = describeBroken(broken);
  const sentence = `${what.charAt(0).toUpperCase()}${what.slice(1)}.`;
  if (device === undefined) return `${sentence} ${aroundTick(state, sequence)}`.trim();
  const own = state.events.filter((each) => each.device === device);
  const event = own.find((each) => each.sequence === sequence);
  const before = own.findLast((each) => each.sequence < sequence);
  const names = [...new Set(own.map(({ actor }) => actor.name))];
  const by = names.length > 0 ? ` that ${listed(names)} wrote on` : "";
  return [
    sentence,
    `It is on the tablet${by} (its mark begins with ${device.slice(0, 8)}).`,
    event && `The entry reads: ${eventInWords(event, state)}.`,
    before
      ? `The entry of that tablet before it is number ${before.sequence}: ${eventInWords(before, state)}.`
      : "No entry of that tablet comes before it.",
  ]
    .filter((each) => each !== undefined)
    .join(" ");
}

/** Where nobody can say whose event is gone: between which two it was. */
function aroundTick(state: JobState, tick: number): string {
  const before = state.events.findLast((each) => each.tick < tick);
  const after = state.events.find((each) => each.tick > tick);
  return [
    before && `Before it: ${eventInWords(before, state)}.`,
    after && `After it: ${eventInWords(after, state)}.`,
  ]
    .filter((each) => each !== undefined)
    .join(" ");
}

const listed = (names: readonly string[]) =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
