import { closeOutOf } from "../../closeOut/closeOut.ts";
import type { CloseOutLine } from "../../closeOut/line.ts";
import type { Block, Cell, Part } from "../document.ts";
import { entryNumber, type Reported } from "../reported.ts";

/** What the record says at the end, line by line, each with the entries it comes from; gaps among them. */
export function closeOutPart(of: Reported): Part {
  return {
    id: "close-out",
    title: "Close-out",
    newPage: true,
    blocks: closeOutOf(of.state, of.now, of.writer)
      .filter(({ lines }) => lines.length > 0)
      .flatMap(({ title, lines }): Block[] => [
        { kind: "heading", text: title },
        {
          kind: "table",
          columns: [
            { title: "What", share: 2.4 },
            { title: "Answer", share: 5 },
            { title: "Entries", share: 1 },
          ],
          rows: lines.map((line) => [line.label, answerOf(line), entriesOf(line, of)]),
        },
      ]),
  };
}

/** The answer of a line; a gap stands out. */
export const answerOf = ({ says, gap }: CloseOutLine): Cell =>
  gap ? { text: says, tone: "problem" } : says;

const entriesOf = ({ events }: CloseOutLine, { state }: Reported) =>
  events.map((event) => entryNumber(state, event)).join(", ");
