import { format, parseISO } from "date-fns";
import type { JobEvent } from "./log/event.ts";
import { contingencyById, itemId, itemsOf } from "./sheet/walk.ts";
import type { JobState } from "./state/jobState.ts";

type Known = Pick<JobState, "programme" | "readings">;

/** One entry of a log, so that it is found in the record: what it is, of which step, when, by whom. */
export function eventInWords(event: JobEvent, state: Known): string {
  const { body, at, actor } = event;
  const title = titleAt(state, itemOf(body) ?? stepOfCorrection(body, state));
  const of = title === undefined ? "" : ` in "${title}"`;
  return `${body.type}${of}, ${format(parseISO(at), "d MMM yyyy HH:mm")}, ${actor.name}`;
}

/** What the sheet calls a step, a hold point or a contingency. */
export function titleAt({ programme }: Known, id: string | undefined): string | undefined {
  if (id === undefined || !programme) return undefined;
  const { sheet } = programme;
  const item = itemsOf(sheet).find((each) => itemId(each) === id);
  if (!item) return contingencyById(sheet, id)?.title;
  return item.type === "step" ? item.step.title : item.hold.title;
}

function itemOf(body: JobEvent["body"]): string | undefined {
  if ("step" in body) return body.step;
  if ("hold" in body) return body.hold;
  if ("contingency" in body) return body.contingency;
  if (body.type === "went back") return body.to;
  return "at" in body ? body.at : undefined;
}

function stepOfCorrection(body: JobEvent["body"], { readings }: Known): string | undefined {
  if (body.type !== "correction") return undefined;
  return readings.find(({ event, field }) => event.hash === body.corrects && field === body.field)
    ?.step;
}
