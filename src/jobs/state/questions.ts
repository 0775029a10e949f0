import { itemId, itemsOf } from "../sheet/walk.ts";
import type { JobState, Question } from "./jobState.ts";

/** Questions that nobody has answered. */
export function openQuestions({ questions }: Pick<JobState, "questions">): Question[] {
  return questions.filter(({ answers }) => answers.length === 0);
}

/** What a question is about, as a title. */
export function aboutInWords({ programme, readings }: JobState, about: Question["about"]): string {
  const items = programme ? itemsOf(programme.sheet) : [];
  const titleOf = (id: string) => {
    const item = items.find((each) => itemId(each) === id);
    return item && (item.type === "step" ? item.step.title : item.hold.title);
  };
  switch (about.kind) {
    case "whole record":
      return "The whole record";
    case "line":
      return about.says;
    case "item":
      return titleOf(about.item) ?? about.item;
    case "event": {
      const reading = readings.find(
        ({ event, field }) => event.hash === about.event && field === about.field,
      );
      return reading ? (titleOf(reading.step) ?? reading.step) : "An entry";
    }
  }
}
