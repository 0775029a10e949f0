import { differenceInMinutes, format, parseISO } from "date-fns";
import { fieldInWords } from "../entryInWords.ts";
import type { JobEvent } from "../log/event.ts";
import { contingencyById, fieldById, stepById } from "../sheet/walk.ts";
import type { Branch, JobState } from "../state/jobState.ts";
import type { Remarkable } from "./remarkable.ts";

/** Everything that went wrong, with what came of it. */
export function contingencyRemarks(state: JobState): Remarkable[] {
  const sheet = state.programme?.sheet;
  return state.branches.map((branch): Remarkable => {
    const { contingency, closed, event } = branch;
    const known = sheet && contingencyById(sheet, contingency);
    const way = known?.options.find(({ id }) => id === closed?.option)?.label;
    const outcome = closed ? `${way ? `${way}. ` : ""}${closed.outcome}` : "Not dealt with yet.";
    const noted = notedAt(state, branch);
    const says = noted.length > 0 ? `${outcome} Noted: ${noted.join("; ")}.` : outcome;
    return { kind: "contingency", title: known?.title ?? contingency, says, event };
  });
}

/** What the run did beside the sheet: went wrong, waited, was done again, changed hands. */
export function courseOf(state: JobState): Remarkable[] {
  const sheet = state.programme?.sheet;
  const titleOf = (id: string) => (sheet && stepById(sheet, id)?.title) ?? id;
  const again = state.goneBack.map(
    ({ to, reason, event }): Remarkable => ({
      kind: "done again",
      title: `From "${titleOf(to)}" on`,
      says: reason,
      event,
    }),
  );
  const apart = state.doneApart.map(
    ({ step, other, event }): Remarkable => ({
      kind: "done on two tablets",
      title: titleOf(step),
      says: `Recorded as done by ${whoAndWhen(other)}, and by ${whoAndWhen(event)}, on two tablets that did not know of each other. What each of them entered is kept.`,
      event,
    }),
  );
  const standby = state.standbys.map(({ reason, event, ended }): Remarkable => {
    const minutes = ended && differenceInMinutes(parseISO(ended.at), parseISO(event.at));
    const says = minutes === undefined ? "Not ended." : `${minutes} min.`;
    return { kind: "standby", title: reason, says, event };
  });
  const handed = state.crewChanges.map(
    ({ by, to, state: stands, event }): Remarkable => ({
      kind: "crew change",
      title: `${by.name} to ${to.name}`,
      says: stands,
      event,
    }),
  );
  const settled = state.events.flatMap((event): Remarkable[] => {
    const { body } = event;
    if (body.type !== "conflict settled") return [];
    const field = sheet && fieldById(sheet, body.field);
    const stands = state.readings.find(
      (each) => each.event.hash === body.stands && each.field === body.field,
    );
    const over = state.readings.filter(
      (each) => body.over.includes(each.event.hash) && each.field === body.field,
    );
    const says = `${stands ? fieldInWords(field, stands.value) : "?"} stands over ${over.map(({ value }) => fieldInWords(field, value)).join(", ")}: ${body.reason}`;
    return [{ kind: "tablets differed", title: field?.label ?? body.field, says, event }];
  });
  const open = [...state.conflicts].map(([id, readings]): Remarkable => {
    const field = sheet && fieldById(sheet, id);
    const says = `${readings.map(({ value, event }) => `${fieldInWords(field, value)} (${event.actor.name})`).join(" against ")}: nobody said which stands.`;
    return { kind: "tablets differed", title: field?.label ?? id, says, event: readings[0]?.event };
  });
  return [
    ...contingencyRemarks(state),
    ...again,
    ...apart,
    ...standby,
    ...handed,
    ...settled,
    ...open,
  ];
}

const whoAndWhen = ({ actor, at }: JobEvent) =>
  `${actor.name}, ${actor.role}, on ${format(parseISO(at), "d MMM")} at ${format(parseISO(at), "HH:mm")}`;

/** What was noted while something was dealt with, each with the time at which it was read. */
function notedAt(state: JobState, { contingency, closed, event }: Branch): string[] {
  const place = (of: JobEvent) => state.position.get(of.hash) ?? -1;
  const to = closed ? place(closed.event) : Number.POSITIVE_INFINITY;
  return state.readings
    .filter(
      (each) =>
        each.step === contingency && place(each.event) > place(event) && place(each.event) < to,
    )
    .map(({ field: id, value, takenAt }) => {
      const field = state.programme && fieldById(state.programme.sheet, id);
      return `${field?.label ?? id} ${fieldInWords(field, value)}, ${format(parseISO(takenAt), "d MMM HH:mm")}`;
    });
}
