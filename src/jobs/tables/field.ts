import type { Dimension } from "../quantity.ts";

/** What a cell may say for one choice, in the letters that records keep and the words of lists. */
export interface Choice {
  readonly value: string;
  readonly words: readonly string[];
}

interface FieldBase {
  readonly id: string;
  readonly label: string;
  /** What it means, for the planner who maps a column to it. */
  readonly means: string;
  /** Without it there is no record. */
  readonly needed?: true;
  /** Headers of the trade that say this, small letters and blanks only. */
  readonly synonyms: readonly string[];
  /** Which of the row's records it belongs to, and where in that record. */
  readonly of: "well" | "mandrel" | "valve" | "station" | "tool";
  readonly path: string;
}

/** Something that a column of a table can hold. */
export type Field = FieldBase &
  (
    | { readonly kind: "text" | "long text" | "count" | "day" }
    | { readonly kind: "quantity"; readonly dimension: Dimension }
    | { readonly kind: "choice"; readonly choices: readonly Choice[] }
  );

/** A header or a word without what lists write in different ways: capitals, dots, dashes, double blanks. */
export const plainWords = (text: string) =>
  text
    .toLowerCase()
    .replace(/[\s._\-–—:;,#/\\|*?!'"“”]+/g, " ")
    .trim();
