import readXlsxFile from "read-excel-file/node";
import { describe, expect, it } from "vitest";
import { recordJsonSchema } from "../../../scripts/recordSchema.ts";
import { observeLift } from "../../../src/jobs/commands/observe.ts";
import { csvOf, xlsxOf } from "../../../src/jobs/files/tabular.ts";
import { brokenLinks } from "../../../src/jobs/log/verify.ts";
import { eventsTable, readingsTable } from "../../../src/jobs/report/readingsTable.ts";
import { recordJson } from "../../../src/jobs/report/recordJson.ts";
import { jobRecord } from "../../../src/jobs/report/recordSchema.ts";
import { reviewRecord } from "../../../src/jobs/review/record.ts";
import { z } from "../../../src/jobs/schema.ts";
import { closingHash } from "../../../src/jobs/state/closingHash.ts";
import { foldJob } from "../../../src/jobs/state/jobState.ts";
import { demoText } from "../demo.ts";
import { eventfulRun } from "./eventfulRun.ts";

const tablet = eventfulRun();
const { state, writer } = tablet;
const record = reviewRecord(state, tablet.clock, writer);
const readings = readingsTable(state, record, writer.atmosphere);
const column = (name: string) => readings.columns.indexOf(name);
const rowOf = (field: string) => {
  const index = state.readings.findLastIndex((each) => each.field === field);
  return (name: string) => readings.rows[index]?.[column(name)];
};

describe("the table of readings", () => {
  it("has one row a reading, in the log's order, each leading to its event", () => {
    expect(readings.rows.map((row) => row[column("Event hash")])).toEqual(
      state.readings.map(({ event }) => event.hash),
    );
  });

  it("has value and unit as entered, and the same in SI", () => {
    const casing = rowOf("final-casing");
    expect(casing("Unit")).toBe("psig");
    // 1 psi is 6894.757 Pa, counted from standard atmosphere.
    expect(casing("Value, SI")).toBeCloseTo(Number(casing("Value")) * 6894.757 + 101_325, -1);
    expect(casing("SI unit")).toBe("Pa absolute");
  });

  it("has the expected value and the limit beside it, in both units", () => {
    const largest = rowOf("shear-largest");
    expect(largest("Value")).toBe(1200);
    expect(largest("At most, in the unit entered")).toBeCloseTo(1055, 0);
    // 1 lbf is 4.448222 N.
    expect(largest("At most, SI")).toBeCloseTo(
      Number(largest("At most, in the unit entered")) * 4.448222,
      2,
    );
    const weighed = rowOf("set-pick-up");
    expect(Number(weighed("Expected, in the unit entered"))).toBeGreaterThan(100);
  });

  it("has what was corrected, and why", () => {
    const cut = rowOf("line-cut");
    expect(cut("Value")).toBe(65);
    expect(cut("Corrected from")).toMatch(/^\d+ ft$/);
    expect(cut("Reason of correction")).toBe("Measured again (R. Tamsin)");
  });

  it("has every figure read on lift, later and by whomever, with its source and in SI", () => {
    const later = eventfulRun();
    later.actor = { name: "J. Corrow", role: "field operator" };
    const takenAt = later.clock;
    later.act((s) =>
      observeLift(s, {
        takenAt,
        source: "two-pen recorder",
        typed: {
          injectionAtSurface: { text: "868", unit: "psig" },
          wellhead: { text: "262", unit: "psig" },
          injectionRate: { text: "420", unit: "Mscf/d" },
        },
      }),
    );
    const { state } = later;
    const table = readingsTable(
      state,
      reviewRecord(state, later.clock, later.writer),
      later.writer.atmosphere,
    );
    expect(table.rows).toHaveLength(state.readings.length + 3);
    const rows = table.rows.slice(-3).map((row) => (name: string) => row[column(name)]);
    expect(rows.map((of) => [of("Field"), of("Value"), of("Unit")])).toEqual([
      ["Casing pressure at surface", 868, "psig"],
      ["Wellhead pressure", 262, "psig"],
      ["Injection gas rate", 420, "Mscf/d"],
    ]);
    for (const of of rows) {
      expect(of("Read at (UTC)")).toBe(takenAt);
      expect([of("By"), of("Role"), of("Source")]).toEqual([
        "J. Corrow",
        "field operator",
        "two-pen recorder",
      ]);
      expect(of("Event hash")).toBe(state.observed[0]?.event.hash);
    }
    expect(rows[0]?.("Value, SI")).toBeCloseTo(868 * 6894.757 + 101_325, -2);
    // A thousand standard cubic feet a day are 28.3168 m3 in 86 400 s.
    expect(rows[2]?.("Value, SI")).toBeCloseTo((420 * 28.3168) / 86_400, 5);
    expect(table.rows.every((row) => row.length === table.columns.length)).toBe(true);
  });

  it("has a reading on lift that was corrected, set aside, and beside it what stands and what it was", () => {
    const later = eventfulRun();
    const { writer: write } = later;
    const read = (psig: string, rate: string) => ({
      takenAt: later.clock,
      source: "recorder",
      typed: {
        injectionAtSurface: { text: psig, unit: "psig" },
        wellhead: { text: "262", unit: "psig" },
        injectionRate: { text: rate, unit: "Mscf/d" },
      },
    });
    const first = read("886", "");
    later.act((s) => observeLift(s, first));
    const wrong = later.state.observed[0];
    if (!wrong) throw new Error("not observed");
    later.wait(10);
    later.actor = { name: "J. Corrow", role: "field operator" };
    const corrects = { event: wrong.event.hash, reason: "Misread" };
    later.act((s) => observeLift(s, { ...read("868", "420"), corrects }));
    const { state, clock } = later;
    const table = readingsTable(state, reviewRecord(state, clock, write), write.atmosphere);
    const names = ["Field", "Value", "Corrected from", "Reason of correction", "Set aside"];
    const rows = table.rows.slice(-5).map((row) => names.map((name) => row[column(name)]));
    const aside = `corrected ${clock} by J. Corrow: Misread`;
    const instead = (was: string) => [`${was}, read ${first.takenAt}`, "Misread (J. Corrow)", ""];
    expect(rows).toEqual([
      ["Casing pressure at surface", 886, "", "", aside],
      ["Wellhead pressure", 262, "", "", aside],
      ["Casing pressure at surface", 868, ...instead("886 psig")],
      ["Wellhead pressure", 262, ...instead("262 psig")],
      ["Injection gas rate", 420, ...instead("nothing")],
    ]);
    const json = jobRecord.parse(JSON.parse(recordJson(state, clock, write)));
    const by = state.observed[1]?.event;
    expect(
      json.readings
        .filter(({ step }) => step === "on-lift")
        .map(({ hash, corrected }) => [hash, corrected]),
    ).toEqual([
      ...[1, 2].map(() => [
        wrong.event.hash,
        { at: clock, by: later.actor, hash: by?.hash, reason: "Misread" },
      ]),
      ...[1, 2, 3].map(() => [by?.hash, undefined]),
    ]);
  });

  it("leaves as a workbook of two sheets and as CSV, every reading in both", async () => {
    const bytes = xlsxOf(readings, eventsTable(state));
    const sheets = await readXlsxFile(Buffer.from(bytes));
    expect(sheets.map(({ sheet }) => sheet)).toEqual(["Readings", "Events"]);
    const [first, second] = sheets;
    expect(first?.data).toHaveLength(state.readings.length + 1);
    expect(second?.data).toHaveLength(state.events.length + 1);
    expect(second?.data.at(-1)?.at(-1)).toBe(state.events.at(-1)?.hash);
    expect(csvOf(readings).trimEnd().split("\r\n")).toHaveLength(state.readings.length + 1);
  });
});

describe("the record as JSON", () => {
  const text = recordJson(state, tablet.clock, writer);
  const read = jobRecord.parse(JSON.parse(text));

  it("fits the published schema, and what is bent does not", () => {
    const schema = z.fromJSONSchema(recordJsonSchema() as never);
    expect(schema.safeParse(JSON.parse(text)).error).toBeUndefined();
    const bent = JSON.parse(text);
    bent.readings[0].takenAt = "yesterday";
    expect(schema.safeParse(bent).success).toBe(false);
  });

  it("has every event whole, so that anybody can check the chain", () => {
    expect(read.events).toEqual(state.events);
    expect(brokenLinks(read.events)).toEqual([]);
    expect(read.chain.whole).toBe(true);
    expect(read.closingHash).toBe(closingHash(foldJob(read.events)));
  });

  it("has readings, holds, exceptions, corrections and questions of the log", () => {
    expect(read.readings.map(({ hash, field }) => `${hash} ${field}`)).toEqual(
      state.readings.map(({ event, field }) => `${event.hash} ${field}`),
    );
    expect(read.exceptions).toHaveLength(1);
    expect(read.corrections).toMatchObject([{ field: "line-cut", reason: "Measured again" }]);
    expect(read.questions[0]?.answers).toHaveLength(1);
    const released = read.holds.flatMap(({ releases }) => releases.map(({ hash }) => hash));
    expect([...released].sort()).toEqual(state.releases.map(({ event }) => event.hash).sort());
  });

  it("has what was read on lift among the readings, as the table has it", () => {
    const watched = eventfulRun();
    watched.act((s) =>
      observeLift(s, {
        takenAt: s.now,
        source: "gauges at the wellhead",
        typed: {
          injectionAtSurface: { text: "905", unit: "psig" },
          wellhead: { text: "266", unit: "psig" },
        },
      }),
    );
    const of = watched.state;
    const { readings: all } = jobRecord.parse(JSON.parse(recordJson(of, watched.clock, writer)));
    const rows = readingsTable(of, reviewRecord(of, watched.clock, writer), writer.atmosphere).rows;
    expect(all.map(({ label, hash }) => [label, hash])).toEqual(
      rows.map((row) => [row[column("Field")], row[column("Event hash")]]),
    );
    // 905 psi = 6.2398 MPa above the air.
    expect(all.filter(({ step }) => step === "on-lift")).toMatchObject([
      {
        field: "injectionAtSurface",
        source: "gauges at the wellhead",
        value: { kind: "quantity", value: 905, unit: "psig" },
        si: { unit: "Pa absolute" },
      },
      { field: "wellhead", value: { kind: "quantity", value: 266, unit: "psig" } },
    ]);
  });

  it("has results in SI with what went in", () => {
    const pressure = read.results.find(({ id }) => id === "tubing-at-mandrel");
    expect(pressure?.outcome).toMatchObject({ state: "known", unit: "Pa absolute" });
    expect(pressure?.givens.length).toBeGreaterThan(3);
  });

  it("is the same text for the same log, and the demonstration's is taken", () => {
    expect(recordJson(foldJob([...tablet.events]), tablet.clock, writer)).toBe(text);
    const events = JSON.parse(demoText()).content.events;
    for (const job of ["job-em-03-3", "job-em-07-3"]) {
      const of = foldJob(events.filter((each: { job: string }) => each.job === job));
      expect(jobRecord.safeParse(JSON.parse(recordJson(of, tablet.clock, writer))).error).toBe(
        undefined,
      );
    }
  });
});
