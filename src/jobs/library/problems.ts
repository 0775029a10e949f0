import { type Entry, kindNames, type LibraryKind } from "./entry.ts";
import { type Places, pocketInWords } from "./places.ts";
import { entriesOf, type Shelves } from "./search.ts";

/** Something in the library that cannot be so. */
export interface LibraryProblem {
  readonly key: string;
  readonly says: string;
  /** records of which one has to be mended */
  readonly mend: readonly {
    readonly kind: LibraryKind;
    readonly id: string;
    readonly label: string;
  }[];
}

/** What cannot be so, worst first: what would send a crew to the wrong pocket stands before what is only untidy. */
export function problemsOf(shelves: Shelves, places: Places): LibraryProblem[] {
  const all = entriesOf(shelves.valves);
  const valves = new Map(all.map((valve) => [valve.id, valve]));
  return [
    ...inTwoPockets(valves, places),
    ...scrappedInAPocket(valves, places),
    ...twice(all, "serial"),
    ...namedAndNotHere(valves, places),
    ...twice(entriesOf(shelves.tools), "mark"),
    ...twice(entriesOf(shelves.wells), "name"),
  ];
}

const ofWell = (well: string, name: string) => ({
  kind: "wells" as const,
  id: well,
  label: `Change ${name}`,
});

function inTwoPockets(valves: ReadonlyMap<string, Entry>, places: Places): LibraryProblem[] {
  return [...places].flatMap(([id, pockets]): LibraryProblem[] => {
    if (pockets.length < 2) return [];
    const named = pockets
      .map(({ wellName, number }) => pocketInWords(wellName, number))
      .join(" and ");
    const wells = new Map(pockets.map(({ well, wellName }) => [well, wellName]));
    return [
      {
        key: `pockets ${id}`,
        says: `Valve ${valves.get(id)?.name ?? id} sits in ${pockets.length} pockets: ${named}. It can be in one: put right what each of them holds.`,
        mend: [...wells].map(([well, name]) => ofWell(well, name)),
      },
    ];
  });
}

function scrappedInAPocket(valves: ReadonlyMap<string, Entry>, places: Places): LibraryProblem[] {
  return [...places].flatMap(([id, [pocket]]): LibraryProblem[] => {
    const valve = valves.get(id);
    if (valve?.state !== "scrapped" || !pocket) return [];
    const { well, wellName, number } = pocket;
    return [
      {
        key: `scrapped ${id}`,
        says: `Valve ${valve.name} is marked scrapped and sits in ${pocketInWords(wellName, number)}. One of the two is wrong.`,
        mend: [{ kind: "valves", id, label: `Change ${valve.name}` }, ofWell(well, wellName)],
      },
    ];
  });
}

function namedAndNotHere(valves: ReadonlyMap<string, Entry>, places: Places): LibraryProblem[] {
  return [...places].flatMap(([id, pockets]): LibraryProblem[] =>
    valves.has(id)
      ? []
      : pockets.map(({ well, wellName, mandrel, number }) => ({
          key: `not here ${mandrel}`,
          says: `${pocketInWords(wellName, number)} names a valve that is not in the library. Choose the valve again, or leave the pocket without one.`,
          mend: [ofWell(well, wellName)],
        })),
  );
}

function twice(shelf: readonly Entry[], what: "serial" | "mark" | "name"): LibraryProblem[] {
  return alike(shelf).map((entries): LibraryProblem => {
    const [first] = entries;
    const names = [...new Set(entries.map(({ name }) => name))].join(", ");
    const of = first ? kindNames[first.kind] : undefined;
    const differ =
      what === "name"
        ? "Give each a name of its own, or take one out."
        : "It is one thing or two: mend one of them, or take one out.";
    return {
      key: `twice ${first?.kind} ${first?.id}`,
      says: `${entries.length} records of one ${what}: ${of?.many.toLowerCase()} ${names}. ${differ}`,
      mend: entries.map(({ kind, id, name }) => ({ kind, id, label: `Open ${name}` })),
    };
  });
}

/** Entries whose names are alike without blanks, dashes and capitals. */
function alike(shelf: readonly Entry[]): Entry[][] {
  const first = new Map<string, Entry>();
  const more = new Map<string, Entry[]>();
  for (const entry of shelf) {
    const key = `${entry.plain} ${entry.within ?? ""}`;
    const before = first.get(key);
    if (!before) first.set(key, entry);
    else more.set(key, [...(more.get(key) ?? [before]), entry]);
  }
  return [...more.values()];
}
