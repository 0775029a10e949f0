import { describe, expect, it } from "vitest";
import { catalogPartOf } from "../../../src/jobs/catalog/catalog.ts";
import { makeUpOf } from "../../../src/jobs/makeUp.ts";
import {
  lineToBeginWith,
  policyToBeginWith,
  type StackFigures,
  stackProblems,
  stackToBeginWith,
  stringsToBeginWith,
  usualWire,
  wires,
} from "../../../src/jobs/planning/fromNothing.ts";
import { enteredString, line, stack } from "../../../src/jobs/records/equipment.ts";
import { policy } from "../../../src/jobs/records/policy.ts";
import type { Mandrel } from "../../../src/jobs/records/well.ts";
import { emptyLibrary, type Library } from "../../../src/jobs/store/library.ts";
import { demo, lineOf, proposed, withMandrel } from "./office.ts";

/** Ids that count up, so that a failure can be read. */
function counting() {
  let count = 0;
  return () => `made-${++count}`;
}

/** An office that has the wells and nothing else. */
const bare = (change: Partial<Mandrel> = {}): Library => ({
  ...emptyLibrary,
  wells: withMandrel(2, change).wells,
});

const all = ["pull", "set", "gauge"] as const;

describe("a policy to begin with", () => {
  it("is one that can be kept, and counts where its limits come from", () => {
    const { record, sources } = policyToBeginWith(counting());
    expect(policy.parse(record)).toEqual(record);
    const counts = sources.map((says) => says.split(" ").map(Number));
    const total = counts[0]?.[2];
    expect(counts.reduce((sum, [count = 0]) => sum + count, 0)).toBe(total);
    expect(sources.join()).toContain("from memory");
  });
});

describe("a line to begin with", () => {
  it("is a generic wire whose strength says that it is unverified", () => {
    expect(wires).toContain(usualWire);
    const made = lineToBeginWith(usualWire, counting());
    expect(made && line.parse(made.record)).toMatchObject({
      strengthFrom: "from memory, unverified",
      diameter: { value: 0.108, unit: "in" },
    });
    expect(made?.sources.join()).toContain("from memory, unverified");
    expect(lineToBeginWith("no such wire", counting())).toBeUndefined();
  });
});

describe("strings to begin with", () => {
  const made = (change: Partial<Mandrel> = {}, purposes: readonly (typeof all)[number][] = all) =>
    stringsToBeginWith(purposes, proposed({}, bare(change)).programme, counting());

  it("can be kept, stand in working order, and are generic parts to measure", () => {
    const { strings, cannot, sources } = made();
    expect(cannot).toEqual([]);
    expect(strings.map(({ purpose }) => purpose)).toEqual([...all]);
    for (const string of strings) {
      expect(enteredString.parse(string)).toEqual(string);
      expect(makeUpOf(string)).toEqual({ wrong: [], remarks: [] });
      expect(string.name).toContain("to measure");
      for (const tool of string.tools) expect(catalogPartOf(tool), tool.name).toBeDefined();
    }
    expect(sources.join()).toContain("measure the part");
  });

  it.each([
    { sleeve: "yes", kickover: "orienting" },
    { sleeve: "no", kickover: "not orienting" },
  ] as const)("carry the kickover tool for the sleeve: $sleeve", ({ sleeve, kickover }) => {
    const { strings } = made({ orientingSleeve: sleeve });
    const tools = strings.flatMap((string) => string.tools.flatMap((tool) => tool.kickover ?? []));
    expect(tools).toEqual([kickover, kickover]);
  });

  it("take the tools of the pocket's size", () => {
    const { strings } = made({ pocket: "1-1/2 in" });
    expect(strings[0]?.tools.at(-1)?.name).toContain("1-1/2 in valve");
  });

  it("are then what the plan proposes", () => {
    const library = { ...bare(), strings: made().strings };
    const plan = proposed({}, library);
    for (const purpose of all) expect(lineOf(plan, purpose).source, purpose).toBe("only one");
  });

  it("have more stem where push-out asks for it", () => {
    const programme = proposed(
      {},
      {
        ...bare(),
        policies: [policyToBeginWith(counting()).record],
        lines: [lineToBeginWith(usualWire, counting())?.record as never],
      },
    ).programme;
    const stems = (psi: number) => {
      const expected = {
        ...programme.job.expected,
        wellheadPressure: { value: psi, unit: "psig" as const },
      };
      const { strings } = stringsToBeginWith(
        ["pull"],
        { ...programme, job: { ...programme.job, expected } },
        counting(),
      );
      return strings[0]?.tools.filter(({ kind }) => kind === "stem").length ?? 0;
    };
    expect(stems(12_000)).toBeGreaterThan(stems(300));
  });

  it.each([
    {
      when: "the sleeve is not known",
      change: { orientingSleeve: "not known" },
      says: "orienting sleeve",
    },
    {
      when: "the pocket's size is not known",
      change: { pocket: "not known" },
      says: "size is not known",
    },
  ] as const)("are not put together where $when", ({ change, says }) => {
    const { strings, cannot } = made(change, ["pull", "set"]);
    expect(strings).toEqual([]);
    expect(cannot.join()).toContain(says);
  });

  it.each([
    {
      when: "no tubing is on record",
      tubing: [],
      says: "drift of the tubing is not on the well's record",
    },
    {
      when: "the tubing is larger than any kickover tool of the catalog",
      tubing: [
        {
          name: "5-1/2 in",
          from: { value: 0, unit: "ft" },
          to: { value: 6380, unit: "ft" },
          drift: { value: 4.767, unit: "in" },
        },
      ],
      says: "no kickover tool (orienting) for this tubing",
    },
  ] as const)("are not put together where $when", ({ tubing, says }) => {
    const wells = demo.wells.map((well) => ({ ...well, restrictions: [], tubing: [...tubing] }));
    const plan = proposed({}, { ...emptyLibrary, wells });
    const { cannot } = stringsToBeginWith(["pull"], plan.programme, counting());
    expect(cannot.join()).toContain(says);
  });
});

describe("a stack to begin with", () => {
  const given: StackFigures = {
    name: "Stack A",
    rating: { value: 5000, unit: "psig" },
    hoseRating: { value: 3000, unit: "psig" },
    bore: { value: 3, unit: "in" },
    usableLength: { value: 32, unit: "ft" },
    certificateUntil: "2027-06-30",
  };

  it("has wire valves, and no figure but those that were given", () => {
    const made = stackToBeginWith(given, counting());
    expect(stack.parse(made)).toEqual(made);
    expect(made.items.map(({ kind }) => kind)).toContain("wire valves");
    const figures = made.items.flatMap(({ rating, bore, usableLength }) =>
      [rating, bore, usableLength].flatMap((each) => each ?? []),
    );
    const asked = [given.rating, given.hoseRating, given.bore, given.usableLength];
    for (const figure of figures) expect(asked).toContainEqual(figure);
    expect(made.items.find(({ kind }) => kind === "hose or gauge")?.rating.value).toBe(3000);
  });

  it.each([
    { key: "bore", value: { value: 0, unit: "in" } },
    { key: "rating", value: { value: 0, unit: "psig" } },
    { key: "usableLength", value: { value: 3200, unit: "ft" } },
  ] as const)("is refused where $key cannot be meant", ({ key, value }) => {
    expect(Object.keys(stackProblems({ ...given, [key]: value }))).toEqual([key]);
    expect(stackProblems(given)).toEqual({});
  });
});
