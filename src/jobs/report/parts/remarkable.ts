import type { Part } from "../document.ts";
import { byWhom, entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

/** Everything that an engineer has to look at, with the entry it comes from. */
export function remarkablePart({ record, state }: Reported): Part {
  const { remarkable } = record;
  return {
    id: "out-of-the-ordinary",
    title: "Out of the ordinary",
    blocks:
      remarkable.length === 0
        ? [
            {
              kind: "words",
              text: "Nothing: no exception, no correction, no step left out, no limit exceeded, nothing in doubt that was stood by.",
            },
          ]
        : [
            {
              kind: "table",
              columns: [
                { title: "Entry", align: "right", share: 0.7 },
                { title: "Time", share: 1.5 },
                { title: "Kind", share: 1.4 },
                { title: "What", share: 5 },
                { title: "By", share: 1.9 },
              ],
              rows: remarkable.map(({ kind, title, says, event }) => [
                event ? entryNumber(state, event) : "",
                event ? when(event.at) : "",
                { text: kind, tone: "strong" },
                `${title}: ${says}`,
                event ? byWhom(event) : "",
              ]),
            },
          ],
  };
}
