import { describeWarning } from "../../../calc/describeWarning.ts";
import type { Writer } from "../../display.ts";
import { pocketsOf } from "../../pockets.ts";
import { originInWords } from "../../results/originInWords.ts";
import type { Given, Traced } from "../../results/traced.ts";
import type { Block, Cell, Part } from "../document.ts";
import type { Reported } from "../reported.ts";
import { type UsedResult, usedResults } from "../usedResults.ts";
import { when } from "../when.ts";

/** Every result that was used, with its working: formula, what went in and where from, method, source, warnings. */
export function calculationsPart(of: Reported): Part {
  const used = usedResults(of.state, of.record.comparisons, of.now, of.writer);
  const numbers = new Map([...used.keys()].map((key, index) => [key, index + 1]));
  return {
    id: "calculations",
    title: "Calculations with their working",
    newPage: true,
    blocks: [
      {
        kind: "words",
        tone: "soft",
        text: "What readings were held against, what steps showed and what releases stood on, as it was worked out at that moment, and what that is made from. A number in brackets leads to another of these.",
      },
      ...[...used].flatMap(([key, each]) => resultBlocks(each, numbers.get(key) ?? 0, numbers, of)),
    ],
  };
}

type Numbers = ReadonlyMap<string, number>;

function resultBlocks(used: UsedResult, number: number, numbers: Numbers, of: Reported): Block[] {
  const { traced, usedFor, at } = used;
  const { method, warnings, givens } = traced;
  const { writer, state } = of;
  const moment = (of: string) => (state.started ? `, ${when(of)}` : "");
  const where =
    usedFor.length === 0
      ? `Made for another of these${moment(at)}.`
      : `Used for ${usedFor.map((use) => `${use.what}${moment(use.at)}`).join("; ")}.`;
  return [
    { kind: "heading", text: `(${number}) ${traced.label}${pocketInWords(used, of)}` },
    { kind: "words", ...outcomeInWords(traced, writer) },
    { kind: "words", text: method.formula },
    ...(givens.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            columns: [
              { title: "Symbol", share: 0.7 },
              { title: "What went in", share: 2.6 },
              { title: "Value", align: "right" as const, share: 1.5 },
              { title: "From", share: 3 },
            ],
            rows: givens.map((given) => givenRow(given, used, numbers, writer)),
          },
        ]),
    ...warnings.map((warning): Block => {
      const says = describeWarning(warning, writer.measure);
      return { kind: "words", tone: "strong", text: `Note: ${says}` };
    }),
    {
      kind: "words",
      tone: "soft",
      text: `${methodInWords(traced, writer)} ${where}`,
    },
  ];
}

/** Which pocket it is for, where the job has several. */
function pocketInWords({ pocket, traced }: UsedResult, { programme }: Reported): string {
  if (pocketsOf(programme.job).length === 1 || / of mandrel \d/.test(traced.id)) return "";
  const id = pocket ?? programme.job.mandrel;
  const mandrel = programme.well?.mandrels.find((each) => each.id === id);
  return mandrel ? `, mandrel ${mandrel.number}` : "";
}

function outcomeInWords({ outcome, dimension }: Traced, writer: Writer): Exclude<Cell, string> {
  switch (outcome.state) {
    case "known":
      return { text: writer.write(dimension, outcome.si), tone: "calculated" };
    case "missing":
      return { text: `Not known. It needs: ${outcome.needs.join("; ")}.`, tone: "problem" };
    case "no answer":
      return { text: `No answer: ${outcome.why}.`, tone: "problem" };
  }
}

function givenRow(given: Given, { needs }: UsedResult, numbers: Numbers, writer: Writer): Cell[] {
  const { symbol, name, dimension, si, origin, shown } = given;
  const key = origin.kind === "calculated" ? needs.get(origin.result) : undefined;
  const number = key === undefined ? undefined : numbers.get(key);
  const value: Cell =
    si === undefined
      ? { text: "not known", tone: "problem" }
      : {
          text: shown ?? writer.write(dimension, si),
          ...(origin.kind === "calculated" && { tone: "calculated" as const }),
        };
  return [
    symbol,
    name,
    value,
    number === undefined ? originInWords(origin) : `${originInWords(origin)} (${number})`,
  ];
}

function methodInWords({ method }: Traced, writer: Writer): string {
  const ranges = method.validity.map(
    ({ quantity, measure, from, to, basis }) =>
      ` Range, ${quantity}: ${writer.measure(measure, from)} to ${writer.measure(measure, to)} (${basis}).`,
  );
  return `Method: ${method.name}. Source: ${method.source}.${ranges.join("")}`.replaceAll(
    "..",
    ".",
  );
}
