import { originInWords } from "../../results/originInWords.ts";
import type { Block, Cell, Part } from "../document.ts";
import type { Reported } from "../reported.ts";
import { type UsedResult, usedResults } from "../usedResults.ts";
import { when } from "../when.ts";
import { Methods } from "./methods.ts";
import { type Numbered, pocketInWords, usedForInWords, workingBlocks } from "./workings.ts";

/** Every result that was used, with its working: formula, what went in and where from, method, source, warnings. */
export function calculationsPart(of: Reported): Part {
  const { state, record, verdict, now, writer } = of;
  const comparisons = record.comparisons;
  const used = [...usedResults({ state, comparisons, verdict, now, writer })];
  const recorded = used.filter(([, each]) => isAsRecorded(each));
  const groups = grouped(used.filter(([, each]) => !isAsRecorded(each)));
  const inOrder = [...recorded, ...groups.flat()];
  const numbers = new Map(inOrder.map(([key], index) => [key, index + 1]));
  const numbered = ([key, used]: Keyed): Numbered => ({ ...used, number: numbers.get(key) ?? 0 });
  const methods = new Methods(writer);
  const workings = groups.flatMap((group) =>
    workingBlocks(group.map(numbered), numbers, methods, of),
  );
  return {
    id: "calculations",
    title: "Calculations with their working",
    newPage: true,
    dense: true,
    blocks: [
      {
        kind: "words",
        tone: "soft",
        text: "What readings were held against, what steps showed, what releases stood on and what the verdict goes by, as it was worked out at that moment, and what that is made from. A number in brackets leads to another of these, M with a number to a method with its source, at the end. What was worked out in the same way several times stands side by side.",
      },
      ...recordedBlocks(recorded.map(numbered), of),
      ...workings,
      ...methods.blocks(),
    ],
  };
}

type Keyed = readonly [key: string, used: UsedResult];

/** A figure of a record that is used as it stands has nothing to work out. */
const isAsRecorded = ({ traced }: UsedResult) => {
  const [only, more] = traced.givens;
  const { outcome, method } = traced;
  return (
    only !== undefined &&
    more === undefined &&
    only.origin.kind !== "calculated" &&
    method.formula === only.symbol &&
    outcome.state === "known" &&
    outcome.si === only.si &&
    traced.warnings.length === 0
  );
};

/** What is worked out in the same way, for one pocket, side by side; in the order in which each is met first. */
function grouped(all: readonly Keyed[]): Keyed[][] {
  const groups = new Map<string, Keyed[]>();
  for (const each of all) {
    const { pocket, traced } = each[1];
    const { method, givens } = traced;
    const names = givens.map(({ symbol }) => symbol);
    const key = JSON.stringify([pocket, method.name, method.formula, names]);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()];
}

function recordedBlocks(all: readonly Numbered[], of: Reported): Block[] {
  if (all.length === 0) return [];
  return [
    { kind: "heading", text: "Taken as recorded" },
    {
      kind: "table",
      columns: [
        { title: "No.", share: 0.5 },
        { title: "What", share: 2.6 },
        { title: "Value", align: "right", share: 1 },
        { title: "From", share: 2.2 },
        { title: "Used", share: 3.2 },
      ],
      rows: all.map((each) => recordedRow(each, of)),
    },
  ];
}

function recordedRow(used: Numbered, of: Reported): Cell[] {
  const { number, traced } = used;
  const { outcome, dimension, givens } = traced;
  const [given] = givens;
  return [
    `(${number})`,
    `${traced.label}${pocketInWords(used, of)}`,
    outcome.state === "known" ? of.writer.write(dimension, outcome.si) : "",
    given ? originInWords(given.origin, when) : "",
    usedForInWords(used, of),
  ];
}
