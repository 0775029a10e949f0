import { itemId, itemsOf } from "../../sheet/walk.ts";
import type { Question } from "../../state/jobState.ts";
import type { Part } from "../document.ts";
import { labelOf } from "../readingInWords.ts";
import { byWhom, entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

/** What the engineer asked, and every answer to it. */
export function questionsPart(of: Reported): Part | undefined {
  const { questions } = of.state;
  if (questions.length === 0) return undefined;
  return {
    id: "questions",
    title: "Questions and answers",
    blocks: questions.map((question) => ({
      kind: "table",
      caption: `About ${aboutInWords(question.about, of)}`,
      columns: [
        { title: "", share: 1 },
        { title: "Time", share: 1.1 },
        { title: "Says", share: 5.5 },
        { title: "By", share: 1.9 },
      ],
      rows: [
        [
          { text: "Question", tone: "strong" },
          when(question.event.at),
          question.text,
          byWhom(question.event),
        ],
        ...(question.answers.length === 0
          ? [[{ text: "No answer yet", tone: "problem" as const }, "", "", ""]]
          : question.answers.map(({ event, text }) => [
              "Answer",
              when(event.at),
              text,
              byWhom(event),
            ])),
      ],
    })),
  };
}

function aboutInWords(about: Question["about"], { state, programme }: Reported): string {
  switch (about.kind) {
    case "whole record":
      return "the whole record";
    case "line":
      return `"${about.says}"`;
    case "item": {
      const item = itemsOf(programme.sheet).find((each) => itemId(each) === about.item);
      if (!item) return `"${about.item}"`;
      return `"${item.type === "step" ? item.step.title : item.hold.title}"`;
    }
    case "event": {
      const entry = `entry ${entryNumber(state, { hash: about.event })}`;
      return about.field === undefined ? entry : `"${labelOf(state, about.field)}", ${entry}`;
    }
  }
}
