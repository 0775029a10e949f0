import { bare, type Entry, type LibraryKind, libraryKinds } from "./entry.ts";
import type { ValveState } from "./places.ts";
import { byName, NONE, type Segment } from "./segment.ts";

/** The library as it is searched, by kind. */
export type Shelves = Readonly<Record<LibraryKind, readonly Segment[]>>;

export const emptyShelves: Shelves = {
  wells: [],
  valves: [],
  tools: [],
  strings: [],
  lines: [],
  stacks: [],
  policies: [],
};

export const entriesOf = (segments: readonly Segment[]): Entry[] =>
  segments.flatMap(({ entries }) => entries);

export interface Asked {
  readonly query: string;
  /** only this kind; every kind without it */
  readonly kind?: LibraryKind | undefined;
  /** only valves that are there */
  readonly state?: ValveState | undefined;
  /** how many are wanted */
  readonly most: number;
}

export interface Found {
  /** best first; those that fit alike by kind and name */
  readonly entries: readonly Entry[];
  /** how many there are of the kind and state asked for */
  readonly total: number;
  /** how many there are of each kind, whichever is asked for */
  readonly kinds: Readonly<Record<LibraryKind, number>>;
  /** how many valves there are in each state */
  readonly states: Readonly<Record<ValveState, number>>;
}

/**
 * What was typed, found: words in any order, each the beginning of one of a record's words; a serial may be typed with
 * blanks, dashes and capitals or without.
 *
 * @param stateOf where a valve is
 */
export function find(
  shelves: Shelves,
  { query, kind, state, most }: Asked,
  stateOf: (valve: Entry) => ValveState,
): Found {
  const words = wordsOf(query);
  const kinds = Object.fromEntries(libraryKinds.map((each) => [each, 0])) as Record<
    LibraryKind,
    number
  >;
  const states = { installed: 0, "in stock": 0, pulled: 0, scrapped: 0 };
  const found: { readonly entry: Entry; readonly rank: number; readonly shelf: number }[] = [];
  let total = 0;
  libraryKinds.forEach((each, shelf) => {
    const wanted =
      (kind === undefined || kind === each) && (state === undefined || each === "valves");
    for (const segment of shelves[each]) {
      const ranks = ranksIn(segment, words);
      // Never more of a rank than are shown: a first letter finds nearly everything.
      const taken = new Uint32Array(NONE);
      for (let place = 0; place < ranks.length; place += 1) {
        const rank = ranks[place] ?? NONE;
        const entry = segment.entries[place];
        if (rank === NONE || !entry) continue;
        kinds[each] += 1;
        const is = each === "valves" ? stateOf(entry) : undefined;
        if (is) states[is] += 1;
        if (!wanted || (state !== undefined && is !== state)) continue;
        total += 1;
        const before = taken[rank] ?? 0;
        taken[rank] = before + 1;
        if (before < most) found.push({ entry, rank, shelf });
      }
    }
  });
  found.sort((a, b) => a.rank - b.rank || a.shelf - b.shelf || byName(a.entry, b.entry));
  return { entries: found.slice(0, most).map(({ entry }) => entry), total, kinds, states };
}

/** What is typed beyond so many words is left out of account. */
const MOST_WORDS = 6;

const wordsOf = (query: string): string[] =>
  query
    .split(/\s+/)
    .map(bare)
    .filter((word) => word !== "")
    .slice(0, MOST_WORDS);

/**
 * How well the words fit each record of a segment, the smaller the better. Words that follow one another are tried as
 * one, too: "EM 07 31" is em0731.
 */
function ranksIn(segment: Segment, words: readonly string[]): Uint8Array {
  const count = segment.entries.length;
  /** for the words up to each */
  const best = [new Uint8Array(count), ...words.map(() => new Uint8Array(count).fill(NONE))];
  words.forEach((_, from) => {
    const before = best[from] ?? new Uint8Array();
    if (before.every((rank) => rank === NONE)) return;
    for (let to = from + 1; to <= words.length; to += 1) {
      const ranks = segment.ranksOf(words.slice(from, to).join(""));
      const after = best[to] ?? ranks;
      for (let place = 0; place < count; place += 1) {
        const b = before[place] ?? NONE;
        const r = ranks[place] ?? NONE;
        if (b !== NONE && r !== NONE && b + r < (after[place] ?? 0)) after[place] = b + r;
      }
    }
  });
  return best.at(-1) ?? new Uint8Array();
}
