import { asEntered } from "../../display.ts";
import { correctedInWords } from "../../liftInWords.ts";
import type { MandrelNow } from "../../verdict/mandrelNow.ts";
import { bellowsFigure } from "../bellowsFigure.ts";
import type { Block, Cell, Part } from "../document.ts";
import { byWhom, entryNumber, type Reported } from "../reported.ts";
import { when, whenInFull } from "../when.ts";

/** What was read of the well on lift after the change-out, against what its valves should do at those pressures. */
export function verdictPart(of: Reported): Part | undefined {
  const { verdict, writer, state } = of;
  if (!verdict || !state.started) return undefined;
  const { says, nearEdge, words, read, checks, mandrels, needs, doubts } = verdict;
  const pressure = (si: number | undefined): Cell =>
    si === undefined ? "not known" : { text: writer.write("pressure", si), tone: "calculated" };
  const passes: Readonly<Record<MandrelNow["passes"], string>> = {
    yes: "passes gas",
    perhaps: "may pass gas",
    no: "passes nothing",
    "not known": "not known",
  };
  const blocks: Block[] = [
    {
      kind: "words",
      // The table below has the words of every question.
      text: `${says.charAt(0).toUpperCase()}${says.slice(1)}${nearEdge ? ", near the edge" : ""}.${checks.length > 0 ? "" : ` ${words}`}`,
      tone: says === "not consistent" ? "problem" : "strong",
    },
    ...(read
      ? [
          {
            kind: "words" as const,
            tone: "soft" as const,
            text: `Read ${whenInFull(read.takenAt)}, ${read.source}, recorded by ${byWhom(read.event)}, entry ${entryNumber(state, read.event)}.`,
          },
        ]
      : []),
    ...(checks.length > 0
      ? [
          {
            kind: "table" as const,
            columns: [
              { title: "Question", share: 1.2 },
              { title: "Answer", share: 1.2 },
              { title: "In words", share: 5 },
            ],
            rows: checks.map((each): Cell[] => [
              each.subject,
              each.nearEdge ? `${each.says}, and near the edge` : each.says,
              each.words,
            ]),
          },
        ]
      : []),
    ...(mandrels.length > 0
      ? [
          {
            kind: "table" as const,
            caption: "Mandrels at the pressures read",
            columns: [
              { title: "Mandrel", share: 0.8 },
              { title: "Valve", share: 1.2 },
              { title: "Injection", align: "right" as const },
              { title: "Production", align: "right" as const },
              { title: "Opens at", align: "right" as const },
              { title: "Shuts at", align: "right" as const },
              { title: "Good for", align: "right" as const },
              { title: "Gas", share: 1.2 },
            ],
            rows: mandrels.map((each): Cell[] => [
              String(each.mandrel),
              each.valve?.serial ?? each.state.mandrel.pocketState,
              pressure(each.injection),
              pressure(each.production),
              bellowsFigure(each.state, each.opening, writer),
              bellowsFigure(each.state, each.closing, writer),
              each.opening === undefined
                ? ""
                : `± ${writer.write("pressure difference", each.doubt)}`,
              passes[each.passes],
            ]),
          },
        ]
      : []),
    ...list("Missing to tell more", needs),
    ...list("How well the figures are taken to be known", doubts),
    ...observedBlocks(of),
  ];
  return { id: "verdict", title: "The well on lift", blocks };
}

function list(title: string, items: readonly string[]): Block[] {
  if (items.length === 0) return [];
  return [
    { kind: "heading", text: title },
    { kind: "list", items },
  ];
}

/** Every time somebody read the well on lift afterwards. */
function observedBlocks({ state }: Reported): Block[] {
  if (state.observed.length === 0) return [];
  return [
    {
      kind: "table",
      caption: "Read of the well on lift, at surface",
      columns: [
        { title: "Entry", align: "right", share: 0.7 },
        { title: "Read at", share: 1.2 },
        { title: "Injection", align: "right" },
        { title: "Production", align: "right" },
        { title: "Gas", align: "right" },
        { title: "Liquid", align: "right" },
        { title: "Where from", share: 1.6 },
        { title: "By", share: 1.6 },
      ],
      rows: state.observed.map(({ event, observed, corrected }): Cell[] => {
        const { injectionAtSurface, wellhead, injectionRate, liquidRate } = observed;
        return [
          entryNumber(state, event),
          when(observed.takenAt),
          asEntered(injectionAtSurface),
          asEntered(wellhead),
          injectionRate ? asEntered(injectionRate) : "",
          liquidRate ? asEntered(liquidRate) : "",
          corrected ? `${observed.source}; ${correctedInWords(corrected)}` : observed.source,
          byWhom(event),
        ].map((text): Cell => (corrected ? { text, tone: "soft" } : text));
      }),
    },
  ];
}
