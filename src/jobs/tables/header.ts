import { type Cell, cellText, isBlank, type Row } from "./cell.ts";
import { plainWords } from "./field.ts";
import { type TableKindId, tableKinds } from "./tableKinds.ts";
import { withoutBrackets } from "./unitWords.ts";

/** Where the names of the columns stand: a row, and how many rows they take. */
export interface Header {
  /** counted from 0, as the file has its rows */
  readonly row: number;
  readonly rows: 1 | 2;
}

/** How far down a header is looked for. */
const DEEPEST = 40;

/** The columns' names. Of two rows, a name in the upper one spans the empty cells to its right, as merged cells do. */
export function columnNames(rows: readonly Row[], header: Header): string[] {
  const upper = rows[header.row] ?? [];
  const lower = header.rows === 2 ? (rows[header.row + 1] ?? []) : [];
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0);
  let over = "";
  return Array.from({ length: width }, (_, column) => {
    const [above, below] = [cellText(upper[column]), cellText(lower[column])];
    if (header.rows === 1) return above;
    if (above !== "") over = above;
    else if (below === "") over = "";
    if (below === "") return above;
    return over === "" ? below : `${over} ${below}`;
  });
}

const isNumber = (cell: Cell | undefined) =>
  typeof cell === "number" || /^[+-]?[\d.,\s]+$/.test(cellText(cell));

/** Longer words are no column's name; a file may have a cell of any length, and brackets are looked for in each. */
const LONGEST = 200;

type BestField = (name: string) => readonly (Scored | undefined)[];

/** The best field of each kind for a name, worked out once for each name. */
function bestFields(kinds: readonly TableKindId[]): BestField {
  const of = tableKinds.filter(({ id }) => kinds.includes(id));
  const known = new Map<string, readonly (Scored | undefined)[]>();
  return (name) => {
    const before = known.get(name);
    if (before) return before;
    const hasLetters = /\p{L}/u.test(name);
    const found = of.map(({ fields }) => (hasLetters ? fieldScores(name, fields)[0] : undefined));
    known.set(name, found);
    return found;
  };
}

/** How much a row of names looks like a header: the names that the best kind of table knows, each field once. */
function score(names: readonly string[], best: BestField): number {
  const sums = tableKinds.map(() => 0);
  const seen = tableKinds.map(() => new Set<string>());
  for (const name of names) {
    best(name).forEach((found, kind) => {
      if (!found || seen[kind]?.has(found.id)) return;
      seen[kind]?.add(found.id);
      sums[kind] = (sums[kind] ?? 0) + found.score;
    });
  }
  return Math.max(...sums);
}

const allKinds = tableKinds.map(({ id }) => id);

/** The header that is most likely, or the first row with two names where none is likely. */
export function guessHeader(all: readonly Row[], kinds: readonly TableKindId[] = allKinds): Header {
  const rows = all.slice(0, DEEPEST + 1);
  const fields = bestFields(kinds);
  let best: { header: Header; score: number } | undefined;
  const consider = (header: Header, points: number) => {
    if (points > (best?.score ?? 0)) best = { header, score: points };
  };
  rows.slice(0, DEEPEST).forEach((row, index) => {
    const filled = row.filter((cell) => !isBlank(cell));
    if (filled.length === 0) return;
    const numbers = row.filter((cell) => !isBlank(cell) && isNumber(cell)).length;
    const one = score(columnNames(rows, { row: index, rows: 1 }), fields) - numbers;
    consider({ row: index, rows: 1 }, one);
    const next = rows[index + 1] ?? [];
    const isWords =
      next.some((cell) => !isBlank(cell)) && !next.some((cell) => !isBlank(cell) && isNumber(cell));
    if (!isWords) return;
    const two = score(columnNames(rows, { row: index, rows: 2 }), fields) - numbers;
    // A row of data without numbers is not a second row of names: it makes names worse, not better.
    consider({ row: index, rows: 2 }, two - 0.5);
  });
  if (best) return best.header;
  const first = rows.findIndex((row) => row.filter((cell) => !isBlank(cell)).length > 1);
  return { row: Math.max(0, first), rows: 1 };
}

interface Scored {
  readonly id: string;
  readonly score: number;
}

/** How well a column's name says each field, best first. */
export function fieldScores(
  name: string,
  fields: readonly { readonly id: string; readonly synonyms: readonly string[] }[],
): Scored[] {
  if (name.length > LONGEST) return [];
  const forms = [plainWords(withoutBrackets(name)), plainWords(name)].filter((form) => form !== "");
  const words = forms.map((form) =>
    form
      .replace(/[()[\]{}]/g, " ")
      .replace(/\s+/g, " ")
      .trim(),
  );
  if (words.length === 0) return [];
  return fields
    .map(({ id, synonyms }) => ({
      id,
      score: Math.max(...synonyms.map((synonym) => alike(words, synonym))),
    }))
    .filter(({ score: points }) => points > 0)
    .sort((a, b) => b.score - a.score);
}

/** 10 for the very word; less where the synonym is a part of the name, the longer part the more. */
function alike(forms: readonly string[], synonym: string): number {
  let best = 0;
  for (const form of forms) {
    if (form === synonym) return 10;
    if (synonym.length >= 2 && form.includes(synonym) && ` ${form} `.includes(` ${synonym} `)) {
      best = Math.max(best, 2 + (6 * synonym.length) / form.length);
    }
  }
  return best;
}
