import type { Entry, EventBody } from "../log/event.ts";
import type { Contingency, Sheet } from "../sheet/sheet.ts";
import { contingencyById, itemId, itemsOf } from "../sheet/walk.ts";
import { openBranch, openStandby } from "../state/jobState.ts";
import { progressOf } from "../state/progress.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import { understand } from "./entry.ts";
import { stepsBehind } from "./goBack.ts";
import type { TypedFields } from "./run.ts";
import { isCrew, notRunning, type Situation } from "./situation.ts";
import { MOST_LONG, tidy, tooLong } from "./text.ts";

/** Something went wrong: the sheet waits from here on. */
export function openContingency(situation: Situation, id: string): Decision {
  const { state, now, writer } = situation;
  const stopped = notRunning(state);
  if (stopped) return stopped;
  const sheet = state.programme?.sheet;
  if (!sheet || !contingencyById(sheet, id)) {
    return refuse(`The run sheet knows no contingency "${id}".`);
  }
  const before = openBranch(state);
  if (before) {
    const title = contingencyById(sheet, before.contingency)?.title ?? before.contingency;
    return refuse(`"${title}" is open. Note there what happens; close it before another.`);
  }
  const at = progressOf(state, now, writer).current?.id;
  const bodies: EventBody[] = openStandby(state) ? [{ type: "standby ended" }] : [];
  return accept(...bodies, {
    type: "branch opened",
    contingency: id,
    ...(at !== undefined && { at }),
  });
}

/** What is read while it is dealt with. Fields may stay empty; nobody waits for a form at such a moment. */
export function noteContingency(
  situation: Situation,
  typed: TypedFields,
  takenAt: string,
): Decision {
  const reach = openIn(situation);
  if ("stopped" in reach) return reach.stopped;
  const { contingency } = reach;
  const entries: Entry[] = [];
  for (const field of contingency.fields) {
    const understood = understand(
      { ...field, optional: true },
      typed[field.id],
      situation.writer.atmosphere,
    );
    if (!understood.ok) return refuse(understood.why, field.id);
    if (understood.value) entries.push({ field: field.id, value: understood.value });
  }
  if (entries.length === 0) return refuse("Nothing is entered yet.");
  if (takenAt > situation.now) {
    return refuse(
      "The readings would have been taken in the future. Correct the time, or the tablet's clock.",
    );
  }
  return accept({ type: "readings taken", step: contingency.id, entries, takenAt });
}

/** How a contingency was ended. */
export interface Ending {
  /** the way that was taken; undefined when it was another */
  readonly option: string | undefined;
  readonly outcome: string;
  /** the step at which the sheet goes on: the one that is next, or one that was done */
  readonly rejoin: string;
}

/**
 * Where the sheet may go on, in the order it is worked: the item that is next, and steps behind it. A way out that
 * names its steps leads to those of them that are next or done, and past none; where all of them lie ahead, or the
 * way names none, the place is chosen freely.
 */
export function placesAfter(
  { state, now, writer }: Pick<Situation, "state" | "now" | "writer">,
  rejoins: readonly string[],
): string[] {
  const { items, current } = progressOf(state, now, writer);
  const next = items.find((item) => item.type === "step" && !item.complete)?.id;
  const here = current ? [current.id] : [];
  const behind = stepsBehind(state).filter((id) => id !== current?.id);
  const named = [
    ...behind.filter((id) => rejoins.includes(id)),
    ...(next !== undefined && rejoins.includes(next) ? here : []),
  ];
  return named.length > 0 ? named : [...behind, ...here];
}

/** It is dealt with: what came of it, and where the sheet goes on. */
export function closeContingency(situation: Situation, ending: Ending): Decision {
  const reach = openIn(situation);
  if ("stopped" in reach) return reach.stopped;
  const { contingency, opened } = reach;
  const { state, now, writer, actor } = situation;
  const sheet = state.programme?.sheet;
  if (actor.role !== "wireline supervisor") {
    return refuse(
      `The wireline supervisor says how it goes on; ${actor.name} is here as ${actor.role}.`,
    );
  }
  const { option, rejoin } = ending;
  const way = contingency.options.find((each) => each.id === option);
  if (option !== undefined && !way) {
    return refuse(`"${contingency.title}" has no way out "${option}".`);
  }
  const outcome = tidy(ending.outcome);
  if (outcome === "") return refuse("Say what was done and what came of it.", "outcome");
  const long = tooLong("What came of it", outcome, MOST_LONG);
  if (long) return refuse(long, "outcome");
  const close: EventBody = {
    type: "branch closed",
    opened,
    outcome,
    ...(option !== undefined && { option }),
  };
  const current = progressOf(state, now, writer).current?.id;
  if (rejoin !== current && !stepsBehind(state).includes(rejoin)) {
    return refuse("The sheet goes on at a step that was done, or at the one that is next.");
  }
  const places = placesAfter(situation, way?.rejoins ?? []);
  if (!places.includes(rejoin)) {
    const titles = places.map((id) => sheet && titleOf(sheet, id));
    return refuse(
      `"${way?.label}" goes on at "${titles.join('" or at "')}". Choose that place, or say that something else was done.`,
    );
  }
  if (rejoin === current) return accept(close);
  const reason = `${contingency.title}: ${outcome}`.slice(0, MOST_LONG);
  return accept(close, { type: "went back", to: rejoin, reason });
}

function titleOf(sheet: Sheet, id: string): string | undefined {
  const item = itemsOf(sheet).find((each) => itemId(each) === id);
  return item?.type === "hold" ? item.hold.title : item?.step.title;
}

type Reach =
  | { readonly contingency: Contingency; readonly opened: string }
  | { readonly stopped: Decision };

function openIn({ state, actor }: Situation): Reach {
  const stopped = notRunning(state);
  if (stopped) return { stopped };
  if (!isCrew(actor)) {
    return {
      stopped: refuse(`The wireline crew enters this; ${actor.name} is here as ${actor.role}.`),
    };
  }
  const branch = openBranch(state);
  const contingency =
    branch && state.programme && contingencyById(state.programme.sheet, branch.contingency);
  return contingency
    ? { contingency, opened: branch.event.hash }
    : { stopped: refuse("No contingency is open.") };
}
