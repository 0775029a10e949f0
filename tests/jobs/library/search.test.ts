import { describe, expect, it } from "vitest";
import { library } from "../../../demo-data/emberMesa.ts";
import { LibraryIndex } from "../../../src/jobs/library/libraryIndex.ts";
import { stateOf } from "../../../src/jobs/library/places.ts";
import { type Asked, find } from "../../../src/jobs/library/search.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import { memoryStore } from "../memoryStore.ts";
import { manyRecords } from "./manyRecords.ts";

const [pattern] = library.valves;
const valve = (id: string, changed: Partial<Valve>) => ({ ...pattern, id, ...changed }) as Valve;

/** What is found in a store with the demonstration's records and some more. */
async function searching(more: readonly Valve[] = []) {
  const store = memoryStore();
  await store.receive({
    records: { ...library, jobs: [], valves: [...library.valves, ...more] },
    events: [],
  });
  const index = new LibraryIndex(store);
  await index.upToDate();
  const search = (query: string, asked: Partial<Asked> = {}) => {
    const { shelves, places } = index.view();
    return find(shelves, { query, most: 50, ...asked }, (each) => stateOf(each, places));
  };
  const names = (query: string, asked?: Partial<Asked>) =>
    search(query, asked).entries.map(({ name }) => name);
  return { store, index, search, names };
}

describe("a search in the library", () => {
  it.each(["EM-0313", "em 0313", "EM0313", "em-03 13", "e m 0 3 1 3", "0313"])(
    "finds a serial typed as %s first",
    async (typed) => {
      const { names } = await searching();
      expect(names(typed)[0]).toBe("EM-0313");
    },
  );

  it("finds a serial by its end, behind those that begin so", async () => {
    const more = [valve("a", { serial: "313-A" }), valve("b", { serial: "X-99313" })];
    const { names } = await searching(more);
    expect(names("313", { kind: "valves" })).toEqual(["313-A", "EM-0313", "X-99313"]);
  });

  it("takes words in any order, each as a beginning", async () => {
    const more = [
      valve("a", { serial: "Q-1", kind: "orifice", size: "1-1/2 in", remarks: "Seat polished." }),
    ];
    const { names } = await searching(more);
    for (const typed of ["q orif", "orif Q-1", "1-1/2 orifice", "polish orif", "1-1/2 IN seat"]) {
      expect(names(typed), typed).toContain("Q-1");
    }
    expect(names("orifice nowhere")).toEqual([]);
  });

  it("finds a valve by the well it sits in, and the well before it", async () => {
    const { names, search } = await searching();
    const found = names("em-07");
    expect(found[0]).toBe("EM-07");
    expect(search("em-07", { kind: "valves" }).total).toBeGreaterThanOrEqual(
      library.wells.find(({ id }) => id === "em-07")?.mandrels.filter((each) => each.valve)
        .length ?? 99,
    );
  });

  it("filters by kind and by where a valve is, and counts what each filter would leave", async () => {
    const more = [
      valve("a", { serial: "Q-1", state: "scrapped" }),
      valve("b", { serial: "Q-2", state: "pulled" }),
      valve("c", { serial: "Q-3" }),
    ];
    const { search, names } = await searching(more);
    const { kinds, states } = search("q");
    expect(kinds.valves).toBe(3);
    expect(states).toEqual({ installed: 0, "in stock": 1, pulled: 1, scrapped: 1 });
    expect(names("q", { state: "scrapped" })).toEqual(["Q-1"]);
    expect(names("", { kind: "wells" })).toEqual(["EM-03", "EM-07", "EM-12"]);
    const sits = new Set(library.wells.flatMap(({ mandrels }) => mandrels.map((m) => m.valve)));
    expect(search("", { state: "installed" }).total).toBe(
      library.valves.filter(({ id }) => sits.has(id)).length,
    );
  });

  it("gives the first by name and says how many there are", async () => {
    const { search } = await searching();
    const some = search("", { kind: "valves", most: 3 });
    expect(some.total).toBe(library.valves.length);
    expect(some.entries).toHaveLength(3);
  });

  it("follows what is written into the store", async () => {
    const { store, index, names } = await searching();
    const [well] = library.wells;
    if (!well || !pattern) throw new Error("no records");
    await store.put("wells", { ...well, revision: well.revision + 1, name: "EM-77 west" });
    await store.put("valves", valve("new", { serial: "NEW-1" }));
    await index.upToDate();
    expect(names("west 77")[0]).toBe("EM-77 west");
    expect(names("new1")).toEqual(["NEW-1"]);
    const sits = well.mandrels.find((each) => each.valve)?.valve;
    const serial = library.valves.find(({ id }) => id === sits)?.serial;
    expect(names("EM-77 west", { kind: "valves" })).toContain(serial);
    await store.remove({ valves: ["new"] });
    await index.upToDate();
    expect(names("new1")).toEqual([]);
  });

  it("finds one in thousands as it finds one in few", async () => {
    const store = memoryStore();
    const many = manyRecords(700);
    await store.receive({ records: { wells: many.wells, valves: many.valves }, events: [] });
    const index = new LibraryIndex(store);
    const shown: (number | undefined)[] = [];
    index.subscribe(() => shown.push(index.view().reading));
    await index.upToDate();
    const { shelves, places } = index.view();
    const wanted = many.valves.at(-7);
    const found = find(shelves, { query: wanted?.serial.toLowerCase() ?? "", most: 5 }, (each) =>
      stateOf(each, places),
    );
    expect(found.entries[0]?.id).toBe(wanted?.id);
    expect(find(shelves, { query: "", most: 5 }, () => "in stock").total).toBe(
      many.valves.length + many.wells.length,
    );
    // It says how far it is while it reads, and then no more.
    expect(shown.slice(0, -1).every((reading) => reading !== undefined)).toBe(true);
    expect(shown.at(-1)).toBeUndefined();
  });
});
