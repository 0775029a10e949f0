import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import writeXlsx from "write-excel-file/node";
import type { LogMapping } from "../../../src/jobs/diagnosis/logMapping.ts";
import type { LogKind } from "../../../src/jobs/diagnosis/logRoles.ts";
import { lookAtLog } from "../../../src/jobs/diagnosis/logTable.ts";
import { MOST_POINTS, readLog } from "../../../src/jobs/diagnosis/readLog.ts";
import { thinLog } from "../../../src/jobs/diagnosis/thinLog.ts";
import { evidence } from "../../../src/jobs/records/investigation.ts";
import type { Sheet } from "../../../src/jobs/tables/cell.ts";
import { openBytes, openText } from "../../../src/jobs/tables/openFile.ts";

function sheetOf(text: string): Sheet {
  const opened = openText(text, "pasted");
  if (!opened.ok || !opened.sheets[0]) throw new Error("no sheet");
  return opened.sheets[0];
}
const look = (text: string, kind: LogKind = "trend", told?: LogMapping) =>
  lookAtLog(kind, sheetOf(text), told);

/** Read as it is guessed, with what somebody answered. */
function read(text: string, answers: Partial<LogMapping> = {}, kind: LogKind = "trend") {
  const sheet = sheetOf(text);
  const { mapping } = lookAtLog(kind, sheet);
  const whole = { ...mapping, ...answers, units: { ...mapping.units, ...answers.units } };
  const done = readLog(kind, sheet, whole);
  if (!done.ok) throw new Error(done.why);
  return done;
}

describe("times of a recorder", () => {
  it.each([
    ["in one column, as ISO", "Time,Casing psig", "2026-11-20 09:00", "2026-11-20T09:00:00.000Z"],
    ["with seconds and a T", "Time,Casing psig", "2026-11-20T09:00:30", "2026-11-20T09:00:30.000Z"],
    [
      "with their zone",
      "Time,Casing psig",
      "2026-11-20T09:00:00-06:00",
      "2026-11-20T15:00:00.000Z",
    ],
    ["in UTC", "Time,Casing psig", "2026-11-20T09:00:00Z", "2026-11-20T09:00:00.000Z"],
    [
      "day first by its figures",
      "Date/Time,Casing psig",
      "20/11/2026 9:05",
      "2026-11-20T09:05:00.000Z",
    ],
    [
      "month first by its figures",
      "Timestamp,Casing psig",
      "11/20/2026 9:05 PM",
      "2026-11-20T21:05:00.000Z",
    ],
    [
      "noon and midnight in halves",
      "Timestamp,Casing psig",
      "11/20/2026 12:05 AM",
      "2026-11-20T00:05:00.000Z",
    ],
    ["with a short year", "Timestamp,Casing psig", "11/20/26 09:05", "2026-11-20T09:05:00.000Z"],
    ["with points", "Time,Casing psig", "20.11.2026 09:05", "2026-11-20T09:05:00.000Z"],
    [
      "with a named month",
      "Time,Casing psig",
      "20-Nov-2026 09:05:10.5",
      "2026-11-20T09:05:10.500Z",
    ],
    ["as a spreadsheet counts", "Time,Casing psig", "46346.375", "2026-11-20T09:00:00.000Z"],
    [
      "with a named month and a short year, as a spreadsheet shows it",
      "Time,Casing psig",
      "20-Nov-26 09:05",
      "2026-11-20T09:05:00.000Z",
    ],
    [
      "in two columns, the day with points",
      "Datum;Zeit;Casing psig",
      "20.11.2026;09:05",
      "2026-11-20T09:05:00.000Z",
    ],
    [
      "in two columns, the day with points and read either way",
      "Datum;Zeit;Casing psig",
      "03.11.2026;09:05",
      "2026-11-03T09:05:00.000Z",
    ],
    ["in two columns", "Date,Time,Casing psig", "2026-11-20,09:05", "2026-11-20T09:05:00.000Z"],
    [
      "in two columns, four figures",
      "Date,Time,Casing psig",
      "11/20/2026,0905",
      "2026-11-20T09:05:00.000Z",
    ],
  ])("are read %s", (_, header, time, at) => {
    const mark = header.includes(";") ? ";" : ",";
    const done = read(`${header}\n${time}${mark}742\n${time}${mark}743\n`);
    expect(done.points.map((point) => point.at)).toEqual([at, at]);
    expect(done.points[0]?.casing).toEqual({ value: 742, unit: "psig" });
  });

  it("whose day can be read both ways are asked about, and read as answered", () => {
    const text = "Time,Casing psig\n03/04/2026 09:00,742\n03/04/2026 10:00,743\n";
    expect(look(text).questions).toEqual([
      { part: "order", says: "03/04/2026: which number is the day?" },
    ]);
    expect(read(text, { order: "day first" }).points[0]?.at).toBe("2026-04-03T09:00:00.000Z");
    expect(read(text, { order: "month first" }).points[0]?.at).toBe("2026-03-04T09:00:00.000Z");
  });

  it("without a date, and cells that are not parted, are said by what is missing", () => {
    expect(look("Time,Casing psig\n09:00,742\n10:00,743\n").questions).toEqual([
      { part: "columns", says: expect.stringMatching(/^The times have no date\./) },
    ]);
    expect(
      look("Time  Casing(psig)\n2026-11-20 09:00  742\n2026-11-20 10:00  743\n").questions,
    ).toEqual([{ part: "columns", says: expect.stringMatching(/^Only one column was found\./) }]);
  });

  it("later than the tablet's clock are not taken: day and month were read the wrong way round", () => {
    const sheet = sheetOf("Time,Casing psig\n2026-12-10 09:00,742\n2026-12-11 09:00,743\n");
    const { mapping } = lookAtLog("trend", sheet);
    const at = (now: string) => readLog("trend", sheet, mapping, undefined, now);
    expect(at("2026-11-26T12:00:00.000Z")).toEqual({
      ok: false,
      why: expect.stringMatching(/^The last row is of 11 Dec 2026 .*order of day and month/),
    });
    expect(at("2026-12-11T08:50:00.000Z").ok).toBe(true);
  });

  it("run on through the night in which clocks are put back: a recorder's clock is not", () => {
    // 25 October 2026, the last Sunday; 24 hours by the recorder are 24 hours.
    const rows = Array.from(
      { length: 25 },
      (_, hour) =>
        `${hour < 24 ? "2026-10-25" : "2026-10-26"} ${String(hour % 24).padStart(2, "0")}:00,742`,
    );
    const { points } = read(`Time,Casing psig\n${rows.join("\n")}`, { offset: 60 });
    const steps = points.slice(1).map(({ at }, index) => {
      const before = points[index]?.at ?? "";
      return (Date.parse(at) - Date.parse(before)) / 3.6e6;
    });
    expect(points[0]?.at).toBe("2026-10-24T23:00:00.000Z");
    expect(new Set(steps)).toEqual(new Set([1]));
  });

  it("of a workbook keep their hours, in one cell and in two", async () => {
    const bytes = await writeXlsx(
      [
        [{ value: "Date time" }, { value: "Csg psig" }],
        ...[9, 10].map((hour) => [
          {
            value: new Date(Date.UTC(2026, 10, 20, hour, 30)),
            type: Date,
            format: "yyyy-mm-dd hh:mm",
          },
          { value: 740 + hour, type: Number },
        ]),
      ] as never,
      {},
    ).toBuffer();
    const opened = await openBytes(new Uint8Array(bytes), "log.xlsx");
    if (!opened.ok || !opened.sheets[0]) throw new Error("not opened");
    const [sheet] = opened.sheets;
    const { mapping, questions, first } = lookAtLog("trend", sheet);
    expect(questions).toEqual([]);
    expect(first).toBe("2026-11-20T09:30");
    const done = readLog("trend", sheet, mapping);
    expect(done.ok && done.points).toEqual([
      { at: "2026-11-20T09:30:00.000Z", casing: { value: 749, unit: "psig" } },
      { at: "2026-11-20T10:30:00.000Z", casing: { value: 750, unit: "psig" } },
    ]);
  });
});

describe("columns and units of a log", () => {
  const rows = "\n2026-11-20 09:00,742,128,0.55\n2026-11-20 10:00,741,129,0.54\n";

  it("are known by the words of the trade", () => {
    const { mapping, questions } = look(`Time,CSG (psig),TBG (psig),Inj. gas rate MMscf/d${rows}`);
    expect(questions).toEqual([]);
    expect(mapping.columns).toEqual({ time: 0, casing: 1, tubing: 2, rate: 3 });
    expect(read(`Time,CSG (psig),TBG (psig),Inj. gas rate MMscf/d${rows}`).points[0]).toEqual({
      at: "2026-11-20T09:00:00.000Z",
      casing: { value: 742, unit: "psig" },
      tubing: { value: 128, unit: "psig" },
      injectionRate: { value: 550, unit: "Mscf/d" },
    });
  });

  it("in a second row below their names are read, too", () => {
    const { mapping } = look(`Time,Casing,Tubing,Rate\n,psig,psia,Mscf/d${rows}`);
    expect(mapping.header).toEqual({ row: 0, rows: 2 });
    expect(mapping.units).toEqual({ casing: "psig", tubing: "psia", rate: "Mscf/d" });
  });

  it("that do not say gauge or absolute are asked about", () => {
    expect(look(`Time,Casing psi,Tubing psig,x${rows}`).questions).toEqual([
      {
        part: "unit",
        role: "casing",
        says: "Casing pressure: psi does not say whether it is counted from the air or from nothing.",
        choices: ["psig", "psia"],
      },
    ]);
  });

  it("behind every figure are read as those of the column, and another one is left out", () => {
    const rows =
      "Time,Csg,Tbg\n2026-11-20 09:00,742 psig,8.6 bar\n2026-11-20 10:00,743 psig,8.7 bar\n";
    const { mapping, questions } = look(rows);
    expect(mapping.units).toEqual({ casing: "psig" });
    expect(questions).toEqual([
      expect.objectContaining({ part: "unit", role: "tubing", choices: ["barg", "bara"] }),
    ]);
    const done = read(`${rows}2026-11-20 11:00,51.2 barg,8.7 bar\n`, {
      units: { casing: "psig", tubing: "barg" },
    });
    expect(done.points[1]).toMatchObject({
      casing: { value: 743, unit: "psig" },
      tubing: { value: 8.7, unit: "barg" },
    });
    expect(done.points[2]?.casing).toBeUndefined();
    expect(done.said).toEqual([
      '1 cell left out: row 4, Casing pressure: "51.2 barg" is no number in psig.',
    ]);
  });

  it("that are not named are asked about: nothing is guessed between two pens", () => {
    const { questions, mapping } = look(rows.trim());
    expect(mapping.columns).toEqual({ time: 0 });
    expect(questions[0]).toEqual({
      part: "columns",
      says: "Which columns hold casing pressure, tubing pressure and injection rate? One of them is needed.",
    });
    const told = look(rows.trim(), "trend", {
      columns: { time: 0, casing: 1 },
      units: { casing: "barg" },
    });
    expect(told.questions).toEqual([]);
    expect(told.rows).toBe(2);
  });

  it("with comma and point both possible are asked about", () => {
    const text = "Time;Casing barg\n2026-11-20 09:00;51,234\n2026-11-20 10:00;51,235\n";
    expect(look(text).questions.map(({ part }) => part)).toEqual([]);
    const either = "Time;Casing kPag\n2026-11-20 09:00;1,234\n2026-11-20 10:00;1,235\n";
    expect(look(either).questions.map(({ part }) => part)).toEqual(["decimals"]);
    expect(read(either, { decimals: "point" }).points[0]?.casing?.value).toBe(1234);
    expect(read(either, { decimals: "comma" }).points[0]?.casing?.value).toBe(1.234);
  });

  it("of a survey are depth along hole, pressure and temperature; vertical depths are not taken for them", () => {
    const text = "MD (ft)\tPressure (psig)\tTemp (degF)\n0\t128\t108\n1880\t316\t121\n";
    expect(read(text, {}, "survey").stops).toEqual([
      {
        depthAlongHole: { value: 0, unit: "ft" },
        pressure: { value: 128, unit: "psig" },
        temperature: { value: 108, unit: "degF" },
      },
      {
        depthAlongHole: { value: 1880, unit: "ft" },
        pressure: { value: 316, unit: "psig" },
        temperature: { value: 121, unit: "degF" },
      },
    ]);
    expect(look(text.replace("MD (ft)", "TVD (ft)"), "survey").questions[0]?.says).toBe(
      "Which column holds the depth along hole?",
    );
  });
});

describe("what cannot be read of a log", () => {
  it("is left out and counted, with the first of it: gaps, words, impossible figures, rows without a time", () => {
    const done = read(
      [
        "Time,Casing psig,Tubing psig",
        "2026-11-20 09:00,742,128",
        "2026-11-20 09:10,,129",
        "2026-11-20 09:20,-999.25,130",
        "2026-11-20 09:30,Bad,131",
        "someday,743,132",
        "2026-11-20 09:50,,",
        "2026-11-20 09:05,744,133",
      ].join("\n"),
    );
    expect(done.points.map(({ casing, tubing }) => [casing?.value, tubing?.value])).toEqual([
      [742, 128],
      [744, 133],
      [undefined, 129],
      [undefined, 130],
      [undefined, 131],
    ]);
    expect(done.said).toEqual([
      "2 cells left out: row 4, Casing pressure: -999.25 cannot be; a pressure lies between -14.7 and 50,000 psig, and others.",
      "1 row without a time that can be read left out, the first is row 6.",
      "1 row without any value left out.",
      "The rows were not in the order of their times; they are now.",
    ]);
  });

  it("leaves too little: it says what, where, and what to look at", () => {
    const sheet = sheetOf("Time,Casing psig\nsoon,742\nlater,743\n");
    const why = readLog("trend", sheet, {
      header: { row: 0, rows: 1 },
      columns: { time: 0, casing: 1 },
      units: { casing: "psig" },
    });
    expect(why).toEqual({
      ok: false,
      why: "No row has a time that can be read; the first is row 2. Look at which column holds the time, then read it again.",
    });
  });

  it("never breaks it, whatever stands in the cells", () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom('=HYPERLINK("http://x")', "__proto__", "constructor", "1e999", "#REF!", "‮12"),
      fc.double().map(String),
      fc.constantFrom("2026-11-20 09:00", "11/12/2026", "25:99", "46346.5"),
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 12 }), (rows) => {
        for (const kind of ["trend", "survey"] as const) {
          const sheet = { name: "hostile", rows };
          const { mapping } = lookAtLog(kind, sheet);
          const done = readLog(kind, sheet, mapping);
          if (!done.ok) {
            expect(done.why).toMatch(/\.$/);
            continue;
          }
          const base = { id: "x", at: "2026-11-20T09:00:00.000Z", source: "x", confidence: "fair" };
          const record =
            kind === "trend"
              ? { ...base, kind, points: done.points }
              : { ...base, kind, stops: done.stops };
          const unasked = lookAtLog(kind, sheet).questions.length === 0;
          if (unasked) expect(evidence.safeParse(record).error).toBeUndefined();
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe("a log of more points than a record keeps", () => {
  const rows = Array.from({ length: 100_000 }, (_, index) => ({
    at: index * 1000,
    values: [700 + Math.sin(index / 300) * 20, 120 + (index % 7), index % 3 ? 550 : undefined],
  }));
  const at = (index: number) => rows[index] as (typeof rows)[number];
  at(43_210).values[0] = 1200;
  at(71_003).values[1] = 5;

  it("keeps its peaks, its ends and its order", () => {
    const kept = thinLog(rows, MOST_POINTS);
    expect(kept.length).toBeLessThanOrEqual(MOST_POINTS);
    expect(kept.length).toBeGreaterThan(MOST_POINTS / 3);
    expect(kept[0]).toBe(rows[0]);
    expect(kept.at(-1)).toBe(rows.at(-1));
    expect(kept).toContain(at(43_210));
    expect(kept).toContain(at(71_003));
    expect(kept.every((row, index) => index === 0 || row.at > (kept[index - 1]?.at ?? 0))).toBe(
      true,
    );
    // Every short interval still reaches as high and as low as it did.
    const ends = (of: typeof kept, from: number) => {
      const within = of.filter((row) => row.at >= from && row.at < from + 100_000);
      const values = within.map(({ values: [value] }) => value as number);
      return [Math.min(...values), Math.max(...values)];
    };
    for (let from = 0; from < 1e8; from += 1e7) {
      const [low, high] = ends(rows, from) as [number, number];
      const [keptLow, keptHigh] = ends(kept, from) as [number, number];
      // An interval of the thinning is 30 s long: at the edges of this one its extreme may lie next door.
      expect(Math.abs(keptLow - low)).toBeLessThan(2);
      expect(Math.abs(keptHigh - high)).toBeLessThan(2);
    }
  });

  it("says so when it is read", () => {
    const text = rows
      .slice(0, 30_000)
      .map(({ at: ms, values }) => {
        const time = new Date(Date.UTC(2026, 10, 20) + ms).toISOString().slice(0, 19);
        return `${time},${values.map((value) => value ?? "").join(",")}`;
      })
      .join("\n");
    const done = read(`Time,Casing psig,Tubing psig,Rate Mscf/d\n${text}`);
    expect(done.points.length).toBeLessThanOrEqual(MOST_POINTS);
    expect(done.said).toEqual([
      expect.stringMatching(
        /^Of 30,000 rows [\d,]+ are kept: of every short interval the least and the most of each column, so that peaks stay\.$/,
      ),
    ]);
  });

  it("stays whole where it is short enough, and where nothing separates its times", () => {
    expect(thinLog(rows.slice(0, 10), 10)).toHaveLength(10);
    const alike = rows.slice(0, 50).map((row) => ({ ...row, at: 0 }));
    expect(thinLog(alike, 10).length).toBeLessThanOrEqual(10);
  });
});
