import type { Comparison } from "../../reviewRecord.ts";
import type { Cell, Part } from "../document.ts";
import { entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

/** Readings that the calculations had something to say about, each beside what they said at its moment. */
export function planActualPart(of: Reported): Part | undefined {
  const planned = of.record.comparisons.filter(
    ({ expected, most }) => expected !== undefined || most !== undefined,
  );
  if (planned.length === 0) return undefined;
  return {
    id: "plan-actual",
    title: "Plan against actual",
    blocks: [
      {
        kind: "table",
        columns: [
          { title: "Entry", align: "right", share: 0.6 },
          { title: "Read at", share: 1.1 },
          { title: "Reading", share: 3 },
          { title: "Read", align: "right", share: 1.2 },
          { title: "Expected", align: "right", share: 1.2 },
          { title: "Not more than", align: "right", share: 1.2 },
          { title: "Read less expected", align: "right", share: 1.2 },
        ],
        rows: planned.map((each) => comparisonRow(each, of)),
      },
    ],
  };
}

function comparisonRow(each: Comparison, { writer, state }: Reported): Cell[] {
  const { reading, label, dimension, actual, expected, most, exceedsMost } = each;
  const calculated = (si: number | undefined): Cell =>
    si === undefined ? "" : { text: writer.write(dimension, si), tone: "calculated" };
  const difference = dimension === "pressure" ? "pressure difference" : dimension;
  return [
    entryNumber(state, reading.event),
    when(reading.takenAt),
    exceedsMost ? { text: `${label} (over the limit)`, tone: "problem" } : label,
    writer.write(dimension, actual),
    calculated(expected),
    calculated(most),
    expected === undefined ? "" : writer.write(difference, actual - expected),
  ];
}
