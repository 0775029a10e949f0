import { aboutInWords } from "../../state/questions.ts";
import type { Part } from "../document.ts";
import { byWhom, type Reported } from "../reported.ts";
import { when } from "../when.ts";

/** What the engineer asked, and every answer to it. */
export function questionsPart({ state }: Reported): Part | undefined {
  const { questions } = state;
  if (questions.length === 0) return undefined;
  return {
    id: "questions",
    title: "Questions and answers",
    blocks: questions.map((question) => ({
      kind: "table",
      caption: `About: ${aboutInWords(state, question.about)}`,
      columns: [
        { title: "", share: 1 },
        { title: "Time", share: 1.5 },
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
