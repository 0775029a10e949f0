import type { Entry, Shelved } from "./entry.ts";

export const byName = ({ order: a }: Entry, { order: b }: Entry) => (a < b ? -1 : a > b ? 1 : 0);

/** No record has this rank. */
export const NONE = 255;

/** A tag is often read from its end: within a name something has to be this long to count. */
const WITHIN = 3;

/**
 * Some thousand records of one kind with an index of their words: sorted, so that what begins with some letters is one
 * run of them. A library is many of these: each is made in a moment, and there is no long one to wait for.
 */
export class Segment {
  /** by name */
  readonly entries: readonly Entry[];
  readonly #words: readonly string[];
  /** where the records of each word begin in `#records` */
  readonly #starts: Uint32Array;
  /** place of a record, doubled, and one more where the word is its whole name */
  readonly #records: Uint32Array;
  /** every name after a line end, and where each begins */
  readonly #names: string;
  readonly #begins: Uint32Array;

  constructor(shelved: readonly Shelved[]) {
    const sorted = shelved.toSorted((a, b) => byName(a.entry, b.entry));
    this.entries = sorted.map(({ entry }) => entry);
    const known = new Map<string, number[]>();
    sorted.forEach(({ words }, place) => {
      words.forEach((word, index) => {
        const record = 2 * place + (index === 0 ? 1 : 0);
        const records = known.get(word);
        if (records) records.push(record);
        else known.set(word, [record]);
      });
    });
    this.#words = [...known.keys()].sort();
    this.#starts = new Uint32Array(this.#words.length + 1);
    const records = this.#words.map((word) => known.get(word) ?? []);
    records.forEach((each, index) => {
      this.#starts[index + 1] = (this.#starts[index] ?? 0) + each.length;
    });
    this.#records = Uint32Array.from(records.flat());
    this.#begins = new Uint32Array(this.entries.length);
    let names = "";
    this.entries.forEach(({ plain }, place) => {
      this.#begins[place] = names.length;
      names += `\n${plain}`;
    });
    this.#names = names;
  }

  /**
   * How well something typed fits each record: 0 its whole name, 1 the beginning of it, 2 one of its words, 3 the
   * beginning of a word, 4 something within its name.
   */
  ranksOf(typed: string): Uint8Array {
    const ranks = new Uint8Array(this.entries.length).fill(NONE);
    if (typed.length >= WITHIN) this.#within(typed, ranks);
    for (let at = this.#firstFrom(typed); this.#words[at]?.startsWith(typed); at += 1) {
      const whole = this.#words[at] === typed;
      const end = this.#starts[at + 1] ?? 0;
      for (let each = this.#starts[at] ?? 0; each < end; each += 1) {
        const record = this.#records[each] ?? 0;
        const rank = (record & 1 ? 0 : 2) + (whole ? 0 : 1);
        const place = record >> 1;
        if (rank < (ranks[place] ?? NONE)) ranks[place] = rank;
      }
    }
    return ranks;
  }

  #within(typed: string, ranks: Uint8Array): void {
    let place = 0;
    for (
      let at = this.#names.indexOf(typed);
      at >= 0;
      at = this.#names.indexOf(typed, at + typed.length)
    ) {
      while ((this.#begins[place + 1] ?? Number.POSITIVE_INFINITY) <= at) place += 1;
      ranks[place] = 4;
    }
  }

  /** Place of the first word that does not come before what was typed. */
  #firstFrom(typed: string): number {
    let low = 0;
    let high = this.#words.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.#words[middle] ?? "") < typed) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
