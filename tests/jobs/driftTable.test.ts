import { describe, expect, it } from "vitest";
import { fromInches, M_PER_FT, M_PER_IN } from "../../src/calc/units.ts";
import type { Tool, ToolString } from "../../src/jobs/records/equipment.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import { type DriftRow, driftTable } from "../../src/jobs/results/driftTable.ts";
import type { Measurements } from "../../src/jobs/results/measurements.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import { readyProgramme } from "./demo.ts";

/**
 * Two tools, 1.5 and 2.25 in, on each of three strings; a stack of 3 in; tubing with a drift of 2.347 in to
 * 6,380 ft, a safety valve of 2.313 in at 310 ft, a nipple of 2.313 in at 6,340 ft; the mandrel at 4,380 ft.
 * Every clearance below is a difference by hand.
 */
const ready = readyProgramme();
const tool = (name: string, inches: number): Tool => ({
  id: name,
  name,
  kind: "other",
  length: { value: 1, unit: "ft" },
  outsideDiameter: { value: inches, unit: "in" },
  weight: { value: 1, unit: "lb" },
});
const string = (purpose: ToolString["purpose"], ...tools: Tool[]): ToolString => ({
  id: purpose,
  revision: 1,
  name: purpose,
  purpose,
  tools,
});
const stem = tool("stem", 1.5);
const kickover = tool("kickover", 2.25);
const stack = ready.stack as NonNullable<Programme["stack"]>;
const programme: Programme = {
  ...ready,
  stack: { ...stack, items: stack.items.filter(({ kind }) => kind === "tool catcher") },
  strings: {
    gauge: string("gauge", stem, tool("gauge cutter", 2.3)),
    pull: string("pull", stem, kickover),
    set: string("set", stem, kickover),
  },
};

const measured = (si: number) => ({ si, at: "2026-11-25T08:00:00.000Z", by: "test", event: "e" });
const gauge = (inches: number, feet: number): Measurements => ({
  "gauge diameter": measured(fromInches(inches)),
  "gauge depth reached": measured(feet * M_PER_FT),
});
const tableOf = (what: Measurements = {}, of: Programme = programme) =>
  driftTable(resultsOf(of, what));
const withSet = (inches: number): Programme => ({
  ...programme,
  strings: { ...programme.strings, set: string("set", stem, tool("kickover", inches)) },
});

/** What a row says, clearance in thousandths of an inch. */
const said = ({ string: of, tool: name, restriction, clearance, passes }: DriftRow) =>
  `${of} ${name} in ${restriction}: ${Math.round((clearance / M_PER_IN) * 1000)} ${passes ? "passes" : "fails"}`;

describe("tools against bores", () => {
  it("are every tool of every string against every bore above its work, least clearance first", () => {
    const { rows, needs } = tableOf();
    // 3 strings x 2 tools x catcher, tubing and safety valve; the nipple lies below.
    expect(rows).toHaveLength(18);
    expect(needs).toEqual([]);
    expect(rows.slice(0, 4).map(said)).toEqual([
      "gauge gauge cutter in safety valve: 13 passes",
      "gauge gauge cutter in 2-7/8 in 6.4 lb/ft, drift: 47 passes",
      "pull kickover in safety valve: 63 passes",
      "set kickover in safety valve: 63 passes",
    ]);
    expect(rows.at(-1)?.clearance).toBeCloseTo(fromInches(1.5), 9);
    expect(rows.some(({ restriction }) => restriction === "landing nipple")).toBe(false);
  });

  it("put first what does not pass, the worst of it on top", () => {
    const { rows } = tableOf({}, withSet(2.35));
    expect(rows.slice(0, 3).map(said)).toEqual([
      "set kickover in safety valve: -37 fails",
      "set kickover in 2-7/8 in 6.4 lb/ft, drift: -3 fails",
      "gauge gauge cutter in safety valve: 13 passes",
    ]);
  });

  it("let nothing pass that is exactly as wide as the bore on record", () => {
    const [first] = tableOf({}, withSet(2.313)).rows;
    expect(first && said(first)).toBe("set kickover in safety valve: 0 fails");
  });

  it("reach 30 ft below the mandrel, where the string comes up into the sleeve from", () => {
    const well = programme.well as NonNullable<Programme["well"]>;
    const nipple = (feet: number): Programme => ({
      ...programme,
      well: {
        ...well,
        restrictions: [
          {
            name: "nipple",
            kind: "nipple",
            depthAlongHole: { value: feet, unit: "ft" },
            bore: { value: 2.2, unit: "in" },
          },
        ],
      },
    });
    const fails = (of: Programme) => tableOf({}, of).rows.filter(({ passes }) => !passes).length;
    expect(fails(nipple(4409))).toBe(3);
    expect(fails(nipple(4411))).toBe(0);
  });

  it("go through neither packing nor hose", () => {
    const narrow = stack.items
      .filter(({ kind }) => kind === "packing" || kind === "hose or gauge")
      .map((item) => ({ ...item, bore: { value: 0.25, unit: "in" } as const }));
    const of = { ...programme, stack: { ...stack, items: narrow } };
    expect(tableOf({}, of).rows.every(({ passes }) => passes)).toBe(true);
    expect(resultsOf(of, {}).value("drift-clearance")).toBeGreaterThan(0);
  });
});

describe("a gauge run", () => {
  const behind = (rows: readonly DriftRow[]) => rows.filter(({ byGauge }) => byGauge);

  it("counts in place of a wider bore on record, for the strings that follow it", () => {
    const { rows } = tableOf(gauge(2.2, 6360));
    expect(rows.slice(0, 4).map(said)).toEqual([
      "pull kickover in 2-7/8 in 6.4 lb/ft, drift: -50 fails",
      "pull kickover in safety valve: -50 fails",
      "set kickover in 2-7/8 in 6.4 lb/ft, drift: -50 fails",
      "set kickover in safety valve: -50 fails",
    ]);
    expect(behind(rows).map((row) => row.string)).not.toContain("gauge");
  });

  it("lets a tool of its own diameter pass", () => {
    const { rows } = tableOf(gauge(2.25, 6360));
    const [first] = behind(rows);
    expect(first && said(first)).toBe("pull kickover in 2-7/8 in 6.4 lb/ft, drift: 0 passes");
    expect(rows.every(({ passes }) => passes)).toBe(true);
  });

  it("says nothing of what lies deeper than it went", () => {
    const { rows } = tableOf(gauge(2.2, 200));
    const pulls = rows.filter((row) => row.string === "pull" && row.tool === "kickover");
    expect(pulls.map(said)).toEqual([
      "pull kickover in 2-7/8 in 6.4 lb/ft, drift: -50 fails",
      "pull kickover in safety valve: 63 passes",
      "pull kickover in 2-7/8 in 6.4 lb/ft, drift below the gauge: 97 passes",
      "pull kickover in Tool catcher: 750 passes",
    ]);
    const below = pulls.find(({ restriction }) => restriction.endsWith("below the gauge"));
    expect(below?.depth).toBeCloseTo(200 * M_PER_FT, 9);
  });

  it("never widens a bore", () => {
    expect(behind(tableOf(gauge(2.4, 6360)).rows)).toEqual([]);
    // Wider than the safety valve, narrower than the drift.
    const names = behind(tableOf(gauge(2.32, 6360)).rows).map(({ restriction }) => restriction);
    expect([...new Set(names)]).toEqual(["2-7/8 in 6.4 lb/ft, drift"]);
  });

  it("needs both its diameter and how deep it went", () => {
    const { "gauge diameter": diameter } = gauge(2.2, 6360);
    expect(behind(tableOf(diameter ? { "gauge diameter": diameter } : {}).rows)).toEqual([]);
  });
});

describe("what is missing", () => {
  const { well: _, ...noWell } = programme;
  const { stack: __, ...noStack } = programme;
  const well = programme.well as NonNullable<Programme["well"]>;
  const feet = (value: number) => ({ value, unit: "ft" as const });
  const [joint] = well.tubing as [(typeof well.tubing)[number]];
  const [catcher] = stack.items.filter(({ kind }) => kind === "tool catcher");
  const { bore: ___, ...unmeasured } = catcher as NonNullable<typeof catcher>;
  it.each([
    { what: "a well", of: noWell, needs: ["well"] },
    { what: "a stack", of: noStack, needs: ["pressure equipment"] },
    {
      what: "the mandrel at work",
      of: { ...programme, job: { ...programme.job, mandrel: "none" } },
      needs: ["mandrel at work"],
    },
    {
      what: "two strings",
      of: { ...programme, strings: { pull: programme.strings.pull } },
      needs: ["gauge string", "set string"],
    },
    {
      what: "a bore in the stack",
      of: { ...programme, stack: { ...stack, items: [unmeasured] } },
      needs: ["bore of Tool catcher"],
    },
    {
      what: "tubing",
      of: { ...programme, well: { ...well, tubing: [] } },
      needs: ["drift of the tubing"],
    },
    {
      what: "tubing further down",
      of: { ...programme, well: { ...well, tubing: [{ ...joint, to: feet(1000) }] } },
      needs: ["drift of the tubing below 1000 ft"],
    },
    {
      what: "tubing at the top",
      of: { ...programme, well: { ...well, tubing: [{ ...joint, from: feet(300) }] } },
      needs: ["drift of the tubing above 300 ft"],
    },
    {
      what: "tubing in between, whatever the order of the joints",
      of: {
        ...programme,
        well: {
          ...well,
          tubing: [
            { ...joint, from: feet(3000) },
            { ...joint, to: feet(1000) },
          ],
        },
      },
      needs: ["drift of the tubing from 1000 ft to 3000 ft"],
    },
    {
      what: "nothing, where the joints meet in other units and end below the work",
      of: {
        ...programme,
        well: {
          ...well,
          tubing: [
            { ...joint, to: feet(1000) },
            { ...joint, from: { value: 304.8, unit: "m" as const }, to: feet(4410) },
          ],
        },
      },
      needs: [],
    },
  ])("is named: $what", ({ of, needs }) => {
    expect(tableOf({}, of as Programme).needs).toEqual(needs);
    const strings = needs.filter((need) => need.endsWith("string"));
    const outcome = resultsOf(of as Programme, {}).get("drift-clearance")?.outcome;
    // One figure for all strings asks for bores only.
    expect(outcome?.state === "missing" ? outcome.needs : []).toEqual(
      strings.length > 0 ? [] : needs,
    );
  });

  it("does not hide that a bore which is known is too narrow", () => {
    const of = { ...withSet(2.35), well: { ...well, tubing: [] } };
    const results = resultsOf(of, {});
    expect((results.value("drift-clearance") as number) / M_PER_IN).toBeCloseTo(2.313 - 2.35, 9);
    expect(results.get("drift-clearance")?.warnings).toEqual([
      { kind: "note", text: "not all bores are known: needs drift of the tubing" },
    ]);
  });
});
