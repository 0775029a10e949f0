import { describe, expect, it } from "vitest";
import { library } from "../../../demo-data/emberMesa.ts";
import { LibraryIndex } from "../../../src/jobs/library/libraryIndex.ts";
import { placesOf, stateOf, whereInWords } from "../../../src/jobs/library/places.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import { memoryStore } from "../memoryStore.ts";

const [first, second] = library.wells as [Well, Well];
const [pattern] = library.valves;
const spare = (id: string, changed: Partial<Valve> = {}) =>
  ({ ...pattern, id, serial: id, ...changed }) as Valve;

/** A well whose first mandrel holds a valve. */
const holding = (well: Well, valve: string): Well => ({
  ...well,
  mandrels: well.mandrels.map((mandrel, index) =>
    index === 0 ? { ...mandrel, valve, pocketState: "holds a valve" as const } : mandrel,
  ),
});

async function problemsIn(records: { wells?: readonly Well[]; valves?: readonly Valve[] }) {
  const store = memoryStore();
  await store.receive({ records, events: [] });
  const { problems } = await new LibraryIndex(store).upToDate();
  return problems;
}

describe("where a valve is", () => {
  const places = placesOf([holding(first, "A")]);

  it.each([
    { valve: spare("A", { state: "scrapped" }), is: "installed", says: /^in EM-\d+, mandrel 1$/ },
    { valve: spare("B"), is: "in stock", says: /^in stock$/ },
    { valve: spare("B", { state: "pulled" }), is: "pulled", says: /^pulled$/ },
    { valve: spare("B", { state: "scrapped" }), is: "scrapped", says: /^scrapped$/ },
  ])("is $is", ({ valve, is, says }) => {
    expect(stateOf(valve, places)).toBe(is);
    expect(whereInWords(valve, places)).toMatch(says);
  });
});

describe("what cannot be so in a library", () => {
  it("is nothing in the demonstration", async () => {
    expect(await problemsIn(library)).toEqual([]);
  });

  it("is a valve in two pockets before all else, each well a tap away", async () => {
    const wells = [holding(first, "A"), holding(second, "A")].map((well) => ({
      ...well,
      mandrels: well.mandrels.slice(0, 1),
    }));
    const valves = [spare("A"), spare("B", { serial: "x-1" }), spare("C", { serial: "X 1" })];
    const [worst, next, ...rest] = await problemsIn({ wells, valves });
    expect(worst?.says).toContain(
      `Valve A sits in 2 pockets: ${first.name}, mandrel 1 and ${second.name}, mandrel 1`,
    );
    expect(worst?.mend.map(({ kind, id }) => [kind, id])).toEqual([
      ["wells", first.id],
      ["wells", second.id],
    ]);
    expect(next?.says).toContain("2 records of one serial: valves x-1, X 1");
    expect(next?.mend.map(({ id }) => id).sort()).toEqual(["B", "C"]);
    expect(rest).toEqual([]);
  });

  it("is a valve marked scrapped that sits in a pocket, and a pocket that names one nobody has", async () => {
    const one = { ...holding(first, "A"), mandrels: holding(first, "A").mandrels.slice(0, 1) };
    expect(
      (await problemsIn({ wells: [one], valves: [spare("A", { state: "scrapped" })] }))[0],
    ).toMatchObject({ says: expect.stringContaining("marked scrapped and sits in") });
    expect((await problemsIn({ wells: [one], valves: [] }))[0]).toMatchObject({
      says: expect.stringContaining("names a valve that is not in the library"),
      mend: [{ kind: "wells", id: first.id }],
    });
  });

  it("is two wells of one name in one field, and not in two", async () => {
    const bare = { ...first, mandrels: first.mandrels.map(({ valve: _, ...rest }) => rest) };
    const twin = { ...bare, id: "twin", name: bare.name.replace("-", " ") };
    expect(await problemsIn({ wells: [bare, twin] })).toHaveLength(1);
    expect(await problemsIn({ wells: [bare, { ...twin, field: "Dry Fork" }] })).toEqual([]);
  });
});
