import { columnLetters } from "../files/columnLetters.ts";
import { cellText, isBlank, type Row, type Sheet } from "./cell.ts";
import { columnNames, type Header } from "./header.ts";

/** A column that has something in it. */
export interface Column {
  /** counted from 0 */
  readonly index: number;
  /** as the header has it, or the letter a spreadsheet gives it */
  readonly name: string;
  /** rows with something in this column, and rows without */
  readonly filled: number;
  readonly gaps: number;
  /** the first few different things in it */
  readonly samples: readonly string[];
}

/** A sheet under one header. */
export interface Table {
  readonly header: Header;
  readonly columns: readonly Column[];
  readonly rows: readonly DataRow[];
}

export interface DataRow {
  /** as the file counts it, from 1 */
  readonly row: number;
  readonly cells: Row;
}

const SAMPLES = 4;

/** The rows below a header, empty ones and repeats of the header left out, and the columns that have something in them. */
export function tableOf({ rows }: Sheet, header: Header): Table {
  const names = columnNames(rows, header);
  const first = header.row + header.rows;
  const heads = rows.slice(header.row, first).map(wordsOf);
  const data: DataRow[] = [];
  for (let index = first; index < rows.length; index += 1) {
    const cells = rows[index] as Row;
    if (cells.every(isBlank)) continue;
    if (heads.includes(wordsOf(cells))) continue;
    data.push({ row: index + 1, cells });
  }
  const columns = names.flatMap((name, index): Column[] => {
    const samples = new Set<string>();
    let filled = 0;
    for (const { cells } of data) {
      const text = cellText(cells[index]);
      if (text === "") continue;
      filled += 1;
      if (samples.size < SAMPLES) samples.add(text);
    }
    if (filled === 0 && name === "") return [];
    return [
      {
        index,
        name: name || `Column ${columnLetters(index)}`,
        filled,
        gaps: data.length - filled,
        samples: [...samples],
      },
    ];
  });
  return { header, columns, rows: data };
}

const wordsOf = (row: Row) => row.map(cellText).join("\t").trim();
