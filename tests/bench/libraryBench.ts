import { LibraryIndex } from "../../src/jobs/library/libraryIndex.ts";
import { stateOf } from "../../src/jobs/library/places.ts";
import { find } from "../../src/jobs/library/search.ts";
import type { Store } from "../../src/jobs/store/store.ts";
import { manyRecords } from "../jobs/library/manyRecords.ts";
import { type Quantiles, quantilesOf } from "./quantiles.ts";

const WELLS = 5000;
/** What a planner types, each key a search. */
const typed = [
  "em-1042 orifice",
  "EM 107919",
  "injection 1-1/2 dry fork",
  "bellows shop",
  "919",
  "ring latch em 4999",
  "no such thing at all",
];

/** The library of a large office: reading it all, searching it at every key, and what it takes of memory. */
export async function benchLibrary(): Promise<{
  readonly times: readonly Quantiles[];
  readonly memory: string;
}> {
  const library = manyRecords(WELLS);
  const sorted = Object.fromEntries(
    Object.entries(library).map(([kind, records]) => [
      kind,
      [...records].sort((a, b) => (a.id < b.id ? -1 : 1)),
    ]),
  );
  const place = new Map(
    Object.values(sorted).flatMap((records) =>
      records.map(({ id }, index) => [id, index] as const),
    ),
  );
  const store: Pick<Store, "page" | "onRecords"> = {
    page: async (kind, after, count) => {
      const from = after === "" ? 0 : (place.get(after) ?? 0) + 1;
      return (sorted[kind] ?? []).slice(from, from + count) as never;
    },
    onRecords: () => () => {},
  };
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const index = new LibraryIndex(store);
  const { shelves, places } = await index.upToDate();
  globalThis.gc?.();
  const held = process.memoryUsage().heapUsed - before;
  const builds: number[] = [];
  for (let time = 0; time < 5; time += 1) {
    const begun = performance.now();
    await new LibraryIndex(store).upToDate();
    builds.push(performance.now() - begun);
  }
  const searches: number[] = [];
  for (let round = 0; round < 10; round += 1) {
    for (const words of typed) {
      for (let keys = 1; keys <= words.length; keys += 1) {
        const query = words.slice(0, keys);
        const begun = performance.now();
        find(shelves, { query, most: 50 }, (valve) => stateOf(valve, places));
        searches.push(performance.now() - begun);
      }
    }
  }
  const count = `${library.wells.length} wells, ${library.valves.length} valves`;
  return {
    times: [
      quantilesOf(`build the index, ${count}`, builds),
      quantilesOf("search at a key, all kinds", searches),
    ],
    memory: `the index holds ${(held / 2 ** 20).toFixed(0)} MB${globalThis.gc ? "" : " and what was not collected yet"}; ${index.view().problems.length} problems found`,
  };
}
