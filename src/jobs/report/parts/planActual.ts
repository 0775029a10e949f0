import {
  type Comparison,
  differenceOf,
  planAgainstActual,
  standingInWords,
} from "../../review/planActual.ts";
import type { Cell, Column, Part } from "../document.ts";
import { entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

const columns: readonly Column[] = [
  { title: "Entry", align: "right", share: 0.7 },
  { title: "Read at", share: 1.5 },
  { title: "Reading", share: 2.8 },
  { title: "Read", align: "right", share: 1.1 },
  { title: "Planned", align: "right", share: 1.1 },
  { title: "Expected", align: "right", share: 1.1 },
  { title: "At most", align: "right", share: 1.1 },
  { title: "Read less expected", align: "right", share: 1.1 },
  { title: "Lies", share: 1.8 },
];

/** Readings beside what the programme said and what was expected at their moment; what lies outside first. */
export function planActualPart(of: Reported): Part | undefined {
  const { out, phases, count, says } = planAgainstActual(of.record.comparisons);
  if (count === 0) return undefined;
  const groups = [...(out.length > 0 ? [{ title: "Outside", rows: out }] : []), ...phases];
  const lines = groups.flatMap(({ title, rows }) => [
    { title: true, cells: titled(title) },
    ...rows.map((each) => ({ title: false, cells: comparisonRow(each, of) })),
  ]);
  return {
    id: "plan-actual",
    title: "Plan against actual",
    blocks: [
      { kind: "words", text: says, ...(out.length > 0 && { tone: "strong" as const }) },
      {
        kind: "words",
        tone: "soft",
        text: "Planned: by the programme's figures alone. Expected: with what had been measured by then.",
      },
      {
        kind: "table",
        columns,
        rows: lines.map(({ cells }) => cells),
        titles: lines.flatMap(({ title }, index) => (title ? [index] : [])),
      },
    ],
  };
}

const titled = (title: string): Cell[] =>
  columns.map((_, index) => (index === 2 ? { text: title, tone: "strong" } : ""));

function comparisonRow(each: Comparison, { writer, state }: Reported): Cell[] {
  const { reading, label, dimension, actual, planned, expected, band, most, standing } = each;
  const calculated = (si: number | undefined): Cell =>
    si === undefined ? "" : { text: writer.write(dimension, si), tone: "calculated" };
  const isOut = standing === "over limit" || standing === "outside";
  const lies = `${standingInWords(each, writer)}${
    expected === undefined || band === undefined
      ? ""
      : `, band ± ${writer.write(differenceOf(dimension), band)}`
  }`;
  return [
    entryNumber(state, reading.event),
    when(reading.takenAt),
    label,
    writer.write(dimension, actual),
    calculated(planned),
    calculated(expected),
    calculated(most),
    expected === undefined ? "" : writer.write(differenceOf(dimension), actual - expected),
    isOut ? { text: lies, tone: "problem" } : lies,
  ];
}
