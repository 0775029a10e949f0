/** A row of a log: where it stands, and its values; undefined where a pen wrote nothing. */
export interface LogRow {
  /** ms or m */
  readonly at: number;
  readonly values: readonly (number | undefined)[];
}

/**
 * A log with fewer rows whose peaks are still there: the span is cut into equal intervals, and of each interval the rows
 * with the least and the most of every value stay, as do the first and the last row of all.
 *
 * @param rows [n] by `at`
 * @param most how many may be left, at least 2 and twice the count of values
 * @returns rows of the given ones, in their order
 */
export function thinLog(rows: readonly LogRow[], most: number): readonly LogRow[] {
  if (rows.length <= most) return rows;
  const [first, last] = [rows[0] as LogRow, rows.at(-1) as LogRow];
  const pens = Math.max(1, first.values.length);
  const intervals = Math.max(1, Math.floor((most - 2) / (2 * pens)));
  const width = (last.at - first.at) / intervals;
  const kept = new Set<number>([0, rows.length - 1]);
  let interval = 0;
  let extremes = noExtremes(pens);
  const keep = () => {
    for (const { least, greatest } of extremes) {
      if (least !== undefined) kept.add(least);
      if (greatest !== undefined) kept.add(greatest);
    }
  };
  rows.forEach((row, index) => {
    const here = width > 0 ? Math.min(intervals - 1, Math.floor((row.at - first.at) / width)) : 0;
    if (here !== interval) {
      keep();
      interval = here;
      extremes = noExtremes(pens);
    }
    row.values.forEach((value, pen) => {
      const of = extremes[pen];
      if (value === undefined || !of) return;
      if (of.least === undefined || value < (rows[of.least]?.values[pen] as number)) {
        of.least = index;
      }
      if (of.greatest === undefined || value > (rows[of.greatest]?.values[pen] as number)) {
        of.greatest = index;
      }
    });
  });
  keep();
  return [...kept].sort((a, b) => a - b).map((index) => rows[index] as LogRow);
}

interface Extremes {
  least?: number;
  greatest?: number;
}
const noExtremes = (pens: number): Extremes[] => Array.from({ length: pens }, () => ({}));
