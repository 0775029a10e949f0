import { format, parseISO } from "date-fns";
import type { JobEvent } from "./log/event.ts";
import { type BrokenLink, describeBroken } from "./log/verify.ts";
import { contingencyById, holdPointsOf, stepById } from "./sheet/walk.ts";
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
    event && `The entry reads: ${entryIn(event, state)}.`,
    before
      ? `The entry of that tablet before it is number ${before.sequence}: ${entryIn(before, state)}.`
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
    before && `Before it: ${entryIn(before, state)}.`,
    after && `After it: ${entryIn(after, state)}.`,
  ]
    .filter((each) => each !== undefined)
    .join(" ");
}

/** One entry, so that it is found in the record: what it is, of which step, when, by whom. */
function entryIn({ body, at, actor }: JobEvent, { programme, readings }: JobState): string {
  const sheet = programme?.sheet;
  const id = itemOf(body) ?? stepOfCorrection(body, readings);
  const title =
    id === undefined || !sheet
      ? undefined
      : (stepById(sheet, id)?.title ??
        holdPointsOf(sheet).find((hold) => hold.id === id)?.title ??
        contingencyById(sheet, id)?.title);
  const of = title === undefined ? "" : ` in "${title}"`;
  return `${body.type}${of}, ${format(parseISO(at), "d MMM yyyy HH:mm")}, ${actor.name}`;
}

function itemOf(body: JobEvent["body"]): string | undefined {
  if ("step" in body) return body.step;
  if ("hold" in body) return body.hold;
  if ("contingency" in body) return body.contingency;
  if ("to" in body && typeof body.to === "string") return body.to;
  return "at" in body ? body.at : undefined;
}

function stepOfCorrection(
  body: JobEvent["body"],
  readings: JobState["readings"],
): string | undefined {
  if (body.type !== "correction") return undefined;
  return readings.find(({ event, field }) => event.hash === body.corrects && field === body.field)
    ?.step;
}

const listed = (names: readonly string[]) =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
