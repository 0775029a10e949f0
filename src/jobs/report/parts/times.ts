import { durationInWords } from "../../durationInWords.ts";
import { timesOf } from "../../state/times.ts";
import type { Block, Part } from "../document.ts";
import type { Reported } from "../reported.ts";

/** Where the run's time went. */
export function timesPart({ state, now }: Reported): Part | undefined {
  if (!state.started) return undefined;
  const times = timesOf(state, now);
  const rows = [
    ...times.phases.map(({ phase, worked, attempts }) => ({
      title: attempts > 1 ? `${phase.title}, made ${attempts} times` : phase.title,
      spent: worked,
    })),
    { title: "Dealing with what went wrong", spent: times.contingencies },
    { title: "Standby", spent: times.standby },
  ].filter(({ spent }) => spent > 0);
  const blocks: Block[] = [
    {
      kind: "table",
      columns: [
        { title: "Phase", share: 3 },
        { title: "Time spent", align: "right" },
      ],
      rows: [
        ...rows.map(({ title, spent }) => [title, durationInWords(spent)]),
        [
          {
            text: state.closed ? "From start to close" : "Since the start",
            tone: "strong" as const,
          },
          { text: durationInWords(times.whole), tone: "strong" as const },
        ],
      ],
    },
  ];
  if (times.clockMoved) {
    blocks.push({
      kind: "words",
      tone: "problem",
      text: "A clock was set back between two entries: the times around it say nothing. The order of the log does not hang on clocks.",
    });
  }
  return { id: "times", title: "Times by phase", blocks };
}
