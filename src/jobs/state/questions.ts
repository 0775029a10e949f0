import { eventInWords, titleAt } from "../eventInWords.ts";
import { fieldById } from "../sheet/walk.ts";
import type { JobState, Question } from "./jobState.ts";

type About = Question["about"];

/** Questions that nobody has answered. */
export function openQuestions({ questions }: Pick<JobState, "questions">): Question[] {
  return questions.filter(({ answers }) => answers.length === 0);
}

/** Whether a record can be talked about: from its closing to its approval. */
export function isTalkedAbout({ stage }: Pick<JobState, "stage">): boolean {
  return stage === "closed" || stage === "sent back";
}

/** What a question is about, as a title. */
export function aboutInWords(state: JobState, about: About): string {
  switch (about.kind) {
    case "whole record":
      return "The whole record";
    case "line":
      return about.says;
    case "item":
      return titleAt(state, about.item) ?? about.item;
    case "event": {
      const sheet = state.programme?.sheet;
      const field = about.field !== undefined && sheet && fieldById(sheet, about.field);
      const event = state.events.find(({ hash }) => hash === about.event);
      const says = event ? eventInWords(event, state) : "an entry that is not here";
      return field ? `${field.label} (${says})` : says.charAt(0).toUpperCase() + says.slice(1);
    }
  }
}

/** Whether two questions are about one thing. */
export function sameAbout(a: About, b: About): boolean {
  return keyOf(a) === keyOf(b);
}

/** One name for what a question is about. */
export function keyOf(about: About): string {
  switch (about.kind) {
    case "whole record":
      return about.kind;
    case "line":
      return `line ${about.says}`;
    case "item":
      return `item ${about.item}`;
    case "event":
      return `event ${about.event} ${about.field ?? ""}`;
  }
}
