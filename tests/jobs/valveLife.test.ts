import { describe, expect, it } from "vitest";
import { library } from "../../demo-data/emberMesa.ts";
import { befellIn } from "../../src/jobs/library/history.ts";
import { isPulledCondition, pulledConditions } from "../../src/jobs/pulledConditions.ts";
import type { Valve } from "../../src/jobs/records/valve.ts";
import { fieldById } from "../../src/jobs/sheet/walk.ts";
import { FEW, fieldPicture } from "../../src/jobs/valveLife/fieldPicture.ts";
import { runsOf, type ValveRun } from "../../src/jobs/valveLife/runs.ts";
import {
  besideInWords,
  chanceInWords,
  daysInWords,
  daysWithin,
  medianInWords,
} from "../../src/jobs/valveLife/words.ts";
import { Tablet } from "./demo.ts";

const TODAY = "2026-11-25";
const well = library.wells.find(({ id }) => id === "em-12");
if (!well) throw new Error("no EM-12");

type History = NonNullable<Valve["history"]>;
const valveWith = (serial: string, history: History, more: Partial<Valve> = {}) => ({
  id: serial,
  serial,
  kind: "injection-operated" as const,
  history,
  ...more,
});
const set = (day: string, where = "EM-12, mandrel 5") => ({ day, what: "set" as const, where });
const pulled = (day: string, condition?: ValveRun["condition"], where = "EM-12, mandrel 5") => ({
  day,
  what: "pulled" as const,
  where,
  ...(condition && { condition }),
});

describe("stays of valves in pockets", () => {
  it("run from a set to the next pull, with how the valve was found", () => {
    const valve = valveWith("A", [
      set("2024-01-01"),
      pulled("2024-03-01", "port cut"),
      set("2024-04-01"),
      pulled("2024-04-01", "good"),
      set("2024-05-01"),
      pulled("2024-05-31"),
    ]);
    const { runs, uncounted } = runsOf([valve], [well], [], TODAY);
    expect(runs.map(({ days, end, condition }) => [days, end, condition])).toEqual([
      // February 2024 had 29 days.
      [60, "failed", "port cut"],
      [0, "good", "good"],
      [30, "not said", undefined],
    ]);
    expect(runs[0]).toMatchObject({
      serial: "A",
      well: { name: "EM-12" },
      pocket: "EM-12, mandrel 5",
    });
    expect(runs[0]?.depth).toBeCloseTo(5640 * 0.3048, 6);
    expect(uncounted).toEqual([]);
  });

  it("last until today where the well's record has the valve in that pocket", () => {
    const installed = library.valves.find(({ serial }) => serial === "EM-1212");
    if (!installed) throw new Error("no EM-1212");
    const { runs } = runsOf([installed], [well], [], TODAY);
    // from 26 Aug 2024: 365 days to 26 Aug 2025, 91 to 25 Nov 2025, 365 to today
    expect(runs).toMatchObject([{ end: "in service", to: undefined, days: 821 }]);
  });

  it.each([
    {
      when: "pulled and never set",
      history: [pulled("2024-03-01", "plugged")],
      why: "pulled, and no day",
    },
    {
      when: "set twice",
      history: [set("2024-01-01"), set("2024-06-01"), pulled("2024-07-01", "good")],
      why: "set again",
    },
    {
      when: "set, and in no pocket now",
      history: [set("2024-01-01")],
      why: "no longer in a pocket",
    },
  ])("are left out and named when $when", ({ history, why }) => {
    const { runs, uncounted } = runsOf([valveWith("B", history)], [well], [], TODAY);
    expect(uncounted).toHaveLength(1);
    expect(uncounted[0]?.why).toContain(why);
    expect(runs).toHaveLength(history.length > 1 ? 1 : 0);
  });

  it("are left out where the wells' records say otherwise, or say only that it is there", () => {
    const [first] = well.mandrels;
    const there = (history: History) => [valveWith("C", history, { id: first?.valve ?? "" })];
    const says = (history: History) => runsOf(there(history), [well], [], TODAY).uncounted[0]?.why;
    expect(says([set("2024-01-01")])).toContain("the wells' records have it in EM-12, mandrel 1");
    expect(says([])).toContain("in service, and no day");
    expect(says([set("2027-01-01", "EM-12, mandrel 1")])).toContain("has not come yet");
  });

  it("take what a job's log says, also of a serial that has no record", () => {
    const tablet = new Tablet().start().runTo(undefined);
    const befell = befellIn(tablet.state);
    const { runs, uncounted } = runsOf([], library.wells, befell, TODAY);
    const replacement = tablet.state.programme?.replacement;
    expect(runs).toMatchObject([
      { serial: replacement?.serial, end: "in service", kind: undefined },
    ]);
    expect(runs[0]?.setPressure).toEqual(replacement?.card?.testRackOpening60F);
    // What came out was set on a day that only its record tells.
    expect(uncounted).toHaveLength(1);
    const all = runsOf(library.valves, library.wells, befell, TODAY).runs;
    const ended = all.find(({ serial, to }) => serial === uncounted[0]?.serial && to);
    const found = befell.find(({ what }) => what === "pulled")?.condition;
    expect(found).toBeDefined();
    expect(ended).toMatchObject({ condition: found, end: found === "good" ? "good" : "failed" });
  });

  it("are found in the ways that the run sheet asks for", () => {
    const sheet = new Tablet().start().state.programme?.sheet;
    const field = sheet && fieldById(sheet, "pulled-condition");
    const asked = field?.kind === "choice" ? field.choices.map(({ value }) => value) : [];
    expect(asked).toEqual(pulledConditions);
    expect(asked.every(isPulledCondition)).toBe(true);
  });
});

const run = (of: Partial<ValveRun>): ValveRun => ({
  serial: "X",
  kind: "injection-operated",
  pocket: "EM-99, mandrel 1",
  well: undefined,
  depth: 1000,
  from: "2024-01-01",
  to: undefined,
  days: 100,
  end: "in service",
  condition: undefined,
  setPressure: undefined,
  ...of,
});

describe("a field's picture", () => {
  it("counts what still lasts, where a plain mean of what failed would not", () => {
    const runs = [
      ...[100, 200].map((days) => run({ days, end: "failed" })),
      ...[900, 900, 900].map((days) => run({ days })),
    ];
    const { all } = fieldPicture(runs, "field");
    // S: 1 to 100, 4/5 to 200, 3/5 to 900; by hand 100 + 80 + 420 = 600 days, not the 150 of the two that failed.
    expect(all?.mean).toMatchObject({ days: 600, to: 900 });
    expect(all).toMatchObject({ runs: 5, failures: 2, inService: 3, median: undefined });
  });

  it("tells groups apart over the same span, and says where there are few", () => {
    const runs = [
      ...[50, 60, 70, 80, 90, 100].map((days) => run({ days, end: "failed", depth: 300 })),
      ...[500, 600, 700, 800, 900, 950].map((days) => run({ days, end: "failed", depth: 1500 })),
      run({ kind: "orifice", days: 5000 }),
      run({ kind: "dummy", days: 9999 }),
    ];
    const { byDepth, byKind } = fieldPicture(runs, "field");
    expect(byDepth.map(({ title, mean }) => [title, mean?.to])).toEqual([
      ["0 to 2000 ft", 100],
      ["2000 to 4000 ft", undefined],
      ["4000 to 6000 ft", 100],
    ]);
    expect(byDepth[0]?.mean?.days).toBeCloseTo(75, 10);
    expect(byDepth[2]?.mean?.days).toBe(100);
    expect(byDepth[0]?.beside?.chance).toBeLessThan(0.01);
    expect(byKind.map(({ title, isFew }) => [title, isFew])).toEqual([
      ["Injection-operated", false],
      ["Orifice", true],
    ]);
    expect(FEW).toBe(5);
  });

  it("finds the pocket that keeps failing, against what the field would have had in as many days", () => {
    const { pockets, pocketsLookedAt, modes } = fieldPicture(
      [
        ...[90, 100, 110].map((days) =>
          run({ days, end: "failed", condition: "charge lost", pocket: "EM-99, mandrel 3" }),
        ),
        ...[700, 800, 900, 1000, 1100, 1200].map((days, index) =>
          run({
            days,
            end: index < 2 ? "failed" : "in service",
            pocket: `EM-98, mandrel ${index}`,
          }),
        ),
      ],
      "field",
    );
    expect(pockets).toHaveLength(1);
    // expected by hand: at risk 9, 8, 7: 90 days 1/9, 100 days 1/9 + 1/8, 110 days 1/9 + 1/8 + 1/7
    expect(pockets[0]?.expected).toBeCloseTo(3 / 9 + 2 / 8 + 1 / 7, 10);
    expect(pockets[0]).toMatchObject({ pocket: "EM-99, mandrel 3", failures: 3 });
    expect(pockets[0]?.chance).toBeLessThan(0.05);
    expect(pocketsLookedAt).toBe(7);
    expect(modes).toEqual([{ condition: "charge lost", count: 3 }]);
  });

  it("is empty where nothing is known", () => {
    expect(fieldPicture([], "metric")).toMatchObject({ all: undefined, byKind: [], pockets: [] });
  });
});

describe("a life in words", () => {
  it.each([
    [1, "1 day"],
    [99, "99 days"],
    [100, "3 months"],
    [365, "12 months"],
    [730, "24 months"],
    [731, "2.0 years"],
    [1461, "4.0 years"],
  ])("%d days", (days, words) => expect(daysInWords(days)).toBe(words));

  it("keeps one unit for a figure and how far it may be off", () => {
    expect(daysWithin(1461, 365.25)).toBe("4.0 ± 1.0 years");
    expect(daysWithin(50, 7)).toBe("50 ± 7 days");
  });

  it("says no more of a chance than there is", () => {
    expect(chanceInWords(0.7)).toContain("as likely as not");
    expect(chanceInWords(0.05)).toBe("by chance 1 time in 20");
    expect(chanceInWords(1e-9)).toContain("fewer than 1 time in 1,000");
  });

  it("says when half have failed, when fewer have, and when none has", () => {
    const of = (...runs: ValveRun[]) => {
      const { all } = fieldPicture(runs, "field");
      return all ? medianInWords(all) : "";
    };
    expect(of(run({ days: 40, end: "failed" }), run({ days: 90 }))).toBe(
      "Half have failed by 40 days.",
    );
    expect(of(run({ days: 90 }))).toBe("None has failed in up to 90 days.");
    expect(of(run({ days: 40, end: "failed" }), run({}), run({}))).toContain("Fewer than half");
  });

  it("holds a group against the others only where there are enough", () => {
    const short = [50, 60, 70, 80, 90].map((days) => run({ days, end: "failed", depth: 300 }));
    const long = [500, 600, 700, 800, 900].map((days) => run({ days, end: "failed", depth: 900 }));
    const [one, other] = fieldPicture([...short, ...long], "field").byDepth;
    expect(one && besideInWords(one)).toContain("Fails sooner than the others");
    expect(other && besideInWords(other)).toContain("Lasts longer than the others");
    // Between groups that last about alike a test finds a difference as large by chance more often than 1 time in 20.
    const alike = [60, 75, 85, 95, 130].map((days) => run({ days, end: "failed", depth: 900 }));
    const [same] = fieldPicture([...short, ...alike], "field").byDepth;
    expect(same?.beside?.chance).toBeGreaterThan(0.05);
    expect(same?.beside?.chance).toBeLessThan(0.5);
    expect(same && besideInWords(same)).toBe("No different from the others by more than chance.");
    const [few] = fieldPicture([...short.slice(1), ...long], "field").byDepth;
    expect(few && besideInWords(few)).toBe("Too few to say.");
  });
});
