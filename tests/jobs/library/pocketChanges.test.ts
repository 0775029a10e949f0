import { describe, expect, it } from "vitest";
import { library } from "../../../demo-data/emberMesa.ts";
import { entryOf } from "../../../src/jobs/library/entry.ts";
import { placesOf } from "../../../src/jobs/library/places.ts";
import { inOtherPockets, outOfPockets } from "../../../src/jobs/library/pocketChanges.ts";
import type { Mandrel, Well } from "../../../src/jobs/records/well.ts";

const wells: readonly Well[] = library.wells;
const [one, other] = wells.filter(({ mandrels }) => mandrels.some(({ valve }) => valve));
if (!one || !other) throw new Error("two wells with valves are needed");
const held = (well: Well) =>
  well.mandrels.find(({ valve }) => valve !== undefined) as Mandrel & { valve: string };
const places = placesOf(wells);
const entries = library.valves.map((valve) => entryOf("valves", valve).entry);
const serialOf = (id: string) => entries.find((entry) => entry.id === id)?.name;

/** The well with the pocket that holds a valve changed. */
const changed = (change: Partial<Mandrel>): Well => ({
  ...one,
  mandrels: one.mandrels.map((each) => (each === held(one) ? { ...each, ...change } : each)),
});
const at = one.mandrels.indexOf(held(one));

describe("a well's record that is saved", () => {
  it("takes no valve that sits in another well's pocket", () => {
    const problems = inOtherPockets(changed({ valve: held(other).valve }), places);
    expect(Object.keys(problems)).toEqual([`mandrels.${at}.valve`]);
    expect(Object.values(problems)[0]).toContain(`${other.name}, mandrel ${held(other).number}`);
  });

  it("takes no valve into two of its own pockets", () => {
    const copy = { ...held(one), id: "new", number: 99 };
    const twice = { ...one, mandrels: [...one.mandrels, copy] };
    expect(inOtherPockets(twice, places)).toEqual({
      [`mandrels.${one.mandrels.length}.valve`]: expect.stringContaining("of this well"),
    });
  });

  it("is kept as it is where two pockets named one valve before, and with a free valve", () => {
    const twin: Well = { ...one, id: "twin" };
    expect(inOtherPockets(one, placesOf([...wells, twin]))).toEqual({});
    expect(inOtherPockets(changed({ valve: "free" }), places)).toEqual({});
  });

  it("names the valve that is in no pocket any more, unless its record says where it is", () => {
    const emptied: Well = changed({ valve: undefined, pocketState: "empty" } as never);
    expect(outOfPockets(emptied, places, entries)).toEqual([serialOf(held(one).valve)]);
    const pulled = entries.map((entry) => ({ ...entry, state: "pulled" as const }));
    expect(outOfPockets(emptied, places, pulled)).toEqual([]);
    expect(outOfPockets(one, places, entries)).toEqual([]);
  });
});
