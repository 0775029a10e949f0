import { readFileSync } from "node:fs";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { recordSchemas } from "../../src/jobs/records/library.ts";
import type { TableLibrary } from "../../src/jobs/tables/changes.ts";
import { tableOf } from "../../src/jobs/tables/columns.ts";
import { dayIn, orderOf } from "../../src/jobs/tables/days.ts";
import { guessHeader } from "../../src/jobs/tables/header.ts";
import {
  type ColumnMap,
  columnQuestions,
  guessMapping,
  type Mapping,
} from "../../src/jobs/tables/mapping.ts";
import { decimalsOf, evidenceOf, fraction, numberIn } from "../../src/jobs/tables/numbers.ts";
import { openBytes, openText } from "../../src/jobs/tables/openFile.ts";
import { readTable, type TableRead } from "../../src/jobs/tables/readTable.ts";
import { recall, remember, rememberedIn } from "../../src/jobs/tables/remembered.ts";
import type { TableKindId } from "../../src/jobs/tables/tableKinds.ts";
import { unitInHeader } from "../../src/jobs/tables/unitWords.ts";
import { faultsOf } from "../../src/jobs/tables/workbookFaults.ts";
import { valveRegister } from "../files/valveRegister.ts";

const nothing: TableLibrary = { wells: [], valves: [], tools: [] };
/** What a planner says once for a table of wells that are new. */
const forNewWells = {
  field: "Ember Mesa",
  reference: "rotary table",
  aboveZero: "12.5 ft",
  injectionDown: "annulus",
  path: "vertical",
  construction: "side pocket",
  valveKind: "injection-operated",
  valveSize: "1 in",
  testDay: "2026-03-01",
};

let made = 0;
const newId = () => {
  made += 1;
  return `made-${made}`;
};

interface Told {
  readonly kind?: TableKindId;
  /** by the column's name, over what is guessed */
  readonly columns?: Readonly<Record<string, Partial<ColumnMap>>>;
  readonly answers?: Readonly<Record<string, string>>;
  readonly fillDown?: boolean;
}

function tableIn(text: string) {
  const opened = openText(text, "a table");
  if (!opened.ok) throw new Error(opened.why);
  const [sheet] = opened.sheets;
  if (!sheet) throw new Error("no sheet");
  return tableOf(sheet, guessHeader(sheet.rows));
}

function mapped(
  table: ReturnType<typeof tableIn>,
  { kind, columns = {}, answers = {}, fillDown = false }: Told,
): Mapping {
  const guessed = guessMapping(table, kind);
  const said = { ...guessed.columns };
  for (const { index, name } of table.columns) {
    if (columns[name]) said[index] = { ...said[index], ...columns[name] } as ColumnMap;
  }
  return { ...guessed, columns: said, answers, fillDown };
}

function read(text: string, told: Told = {}, library = nothing): TableRead {
  const table = tableIn(text);
  return readTable(table, mapped(table, told), library, { newId });
}

/** What is wrong, one line each, as the screen says it. */
const wrong = (result: TableRead) =>
  result.ok
    ? []
    : result.problems.map(
        ({ rows, column, found, what }) => `${rows.join("+")} ${column}: ${found ?? ""} ${what}`,
      );

/** @throws where the table does not come in */
function whole(result: TableRead) {
  if (!result.ok) throw new Error(JSON.stringify([wrong(result), result.open]));
  return result;
}

const libraryOf = (result: TableRead): TableLibrary => {
  const { wells, valves, tools } = whole(result).records;
  return { wells, valves, tools };
};

const messy = readFileSync(new URL("../files/wells-messy.csv", import.meta.url), "utf8");
const messyTold: Told = {
  fillDown: true,
  columns: { "Ptro psi": { unit: "psig" } },
  answers: forNewWells,
};

describe("a messy list of mandrels: title above, decimal commas, names in the first row of each well, the header repeated", () => {
  it("finds the header and what most columns are, and asks of psi whether it is gauge", () => {
    const table = tableIn(messy);
    expect(table.header).toEqual({ row: 3, rows: 1 });
    const mapping = guessMapping(table);
    expect(mapping.kind).toBe("wells");
    expect(Object.values(mapping.columns).map(({ field }) => field)).toEqual([
      "well",
      "number",
      "depth",
      "sleeve",
      "pocket",
      "serial",
      "valveKind",
      "testRack",
      "testDay",
      "port",
    ]);
    expect(columnQuestions(table, mapping)).toMatchObject([
      { about: "column", column: 7, part: "unit", ask: '"Ptro psi" says psi: gauge or absolute?' },
    ]);
  });

  it("makes wells, mandrels and valves of it, each figure as it was typed with its unit", () => {
    const { records, changes } = whole(read(messy, messyTold));
    expect(records.wells.map(({ name, mandrels }) => [name, mandrels.length])).toEqual([
      ["EM-21", 3],
      ["em 22", 2],
      ["EM-23", 1],
    ]);
    const [first] = records.wells;
    expect(first?.mandrels[1]).toMatchObject({
      number: 2,
      depthAlongHole: { value: 1104.8, unit: "m" },
      orientingSleeve: "yes",
      pocket: "1 in",
      pocketState: "holds a valve",
    });
    expect(first).toMatchObject({
      field: "Ember Mesa",
      depthReference: { aboveWellheadZero: { value: 12.5, unit: "ft" } },
    });
    expect(records.wells[1]?.mandrels[1]).toMatchObject({ pocketState: "empty" });
    expect(records.valves.find(({ serial }) => serial === "EM-IPO-3001")).toMatchObject({
      port: { value: 0.1875, unit: "in" },
      card: { testRackOpening60F: { value: 912.5, unit: "psig" }, day: "2026-03-12" },
    });
    expect(changes.every(({ is }) => is === "new")).toBe(true);
    for (const well of records.wells)
      expect(recordSchemas.wells.safeParse(well).success).toBe(true);
  });

  it("names every row without a well where the planner has not said to fill down", () => {
    const result = read(messy, { ...messyTold, fillDown: false });
    expect(wrong(result)).toEqual([6, 7, 10].map((row) => `${row} Well Name:  no name of a well`));
  });

  it("says the same of it when it is brought in twice, and nothing is to be written", () => {
    const library = libraryOf(read(messy, messyTold));
    const again = whole(read(messy, messyTold, library));
    expect(again.changes.map(({ is }) => is)).toEqual(again.changes.map(() => "same"));
    expect(again.records).toEqual({ wells: [], valves: [], tools: [] });
  });

  it("asks for what a new well needs and the table does not give, and makes nothing up", () => {
    const result = read(messy, { ...messyTold, answers: {} });
    expect(!result.ok && result.open.map((each) => "id" in each && each.id)).toEqual([
      "field",
      "reference",
      "aboveZero",
      "injectionDown",
      "path",
      "construction",
    ]);
  });

  it("gives a valve the size of the pocket it sits in, and asks where no pocket is said", () => {
    const { records } = whole(read(messy, messyTold));
    const sizeOf = (serial: string) => records.valves.find((each) => each.serial === serial)?.size;
    expect(sizeOf("EM-IPO-3001")).toBe("1 in");
    expect(sizeOf("EM-IPO-3010")).toBe("1-1/2 in");
    const unsaid = messy.replaceAll("Pocket size", "Remark");
    const result = read(unsaid, { ...messyTold, answers: {} });
    expect(!result.ok && result.open.map((each) => "id" in each && each.id)).toContain("valveSize");
  });

  it("takes a column of words under Mandrel for no number of a mandrel", () => {
    const table = tableIn(
      "Well;Mand #;MD [ft];Mandrel\nEM-31;1;1910;side pocket\n;2;3240;side pocket",
    );
    const mapping = guessMapping(table, "wells");
    expect(mapping.columns[1]?.field).toBe("number");
    expect(mapping.columns[3]?.field).not.toBe("number");
  });
});

describe("a workbook with names merged over two rows and units that change from cell to cell", () => {
  const open = async (more: Parameters<typeof valveRegister>[0] = []) => {
    const opened = await openBytes(await valveRegister(more), "register.xlsx");
    if (!opened.ok) throw new Error(opened.why);
    const sheet = opened.sheets.find(({ name }) => name === "Register");
    if (!sheet) throw new Error("no register");
    return { opened, table: tableOf(sheet, guessHeader(sheet.rows)) };
  };
  const told = (table: ReturnType<typeof tableOf>) =>
    mapped(table, {
      columns: { "Test rack Ptro psi": { unit: "psig" } },
      answers: { valveState: "in stock" },
    });

  it("joins the two rows of names", async () => {
    const { opened, table } = await open();
    expect(opened.sheets.map(({ name }) => name)).toEqual(["Read me", "Register"]);
    expect(table.header).toEqual({ row: 2, rows: 2 });
    expect(table.columns.map(({ name }) => name)).toEqual([
      "Serial No.",
      "Valve Type",
      "Valve Size",
      "Valve Latch",
      "Test rack Ptro psi",
      "Test rack Date tested",
      "Port (in)",
      "Remarks",
    ]);
  });

  it("takes a cell's own unit before the column's, fractions of an inch, and days as days", async () => {
    const { table } = await open();
    const { records } = whole(readTable(table, told(table), nothing, { newId }));
    expect(records.valves).toMatchObject([
      {
        serial: "EM-IPO-4001",
        size: "1 in",
        state: "in stock",
        card: { testRackOpening60F: { value: 905, unit: "psig" }, day: "2026-02-03" },
      },
      {
        serial: "EM-IPO-4002",
        size: "1 in",
        port: { value: 0.1875, unit: "in" },
        card: { testRackOpening60F: { value: 62.5, unit: "barg" } },
      },
      {
        serial: "EM-PPO-4003",
        size: "1-1/2 in",
        kind: "production-operated",
        port: { value: 6.35, unit: "mm" },
      },
      { serial: "EM-ORF-4004", kind: "orifice", size: "1-1/2 in" },
    ]);
  });

  it("names row, column, what was there and what is possible, and brings in nothing", async () => {
    const { table } = await open([
      ["EM-IPO-4005", "gizmo", '1"', "ring", "1,2,3", null, 0.1875, null],
      ["em ipo 4001", "IPO", '2"', "ring", 905, "yesterday", 0.1875, null],
    ]);
    const result = readTable(table, told(table), nothing, { newId });
    expect(wrong(result)).toEqual([
      "10 Valve Type: gizmo is not one of the choices",
      "10 Test rack Ptro psi: 1,2,3 is not a number",
      '11 Valve Size: 2" is not one of the choices',
      "11 Test rack Date tested: yesterday is not a day of the calendar",
      "5+11 Serial No.: em ipo 4001 is there twice (blanks, dashes and capitals do not count)",
    ]);
    expect(!result.ok && result.problems[0]?.mend).toBe(
      "Possible: injection-operated, production-operated, orifice, dummy.",
    );
  });

  it("takes the fault of a failed formula from its own cell, not from the next", () => {
    const part = (text: string) => strToU8(text);
    const book = zipSync({
      "xl/workbook.xml": part('<sheets><sheet name="S" r:id="rId1"/></sheets>'),
      "xl/_rels/workbook.xml.rels": part(
        '<Relationship Id="rId1" Target="worksheets/sheet1.xml"/>',
      ),
      "xl/worksheets/sheet1.xml": part(
        '<c r="A1" t="e"/><c r="B1"><v>5</v></c><c r="C2" t="e"><f>1/0</f><v>#DIV/0!</v></c>',
      ),
    });
    expect(faultsOf(book).get("S")).toEqual([{ row: 1, column: 2, fault: "#DIV/0!" }]);
  });

  it("names a formula that failed: it is not an empty cell", async () => {
    const parts = unzipSync(await valveRegister());
    const name = "xl/worksheets/sheet2.xml";
    const xml = strFromU8(parts[name] as Uint8Array);
    const failed = xml.replace(
      /<c r="E5"[^>]*><v>905<\/v><\/c>/,
      '<c r="E5" t="e"><v>#REF!</v></c>',
    );
    expect(failed).not.toBe(xml);
    const opened = await openBytes(zipSync({ ...parts, [name]: strToU8(failed) }), "failed.xlsx");
    const sheet = opened.ok ? opened.sheets[1] : undefined;
    if (!sheet) throw new Error("no register");
    const table = tableOf(sheet, guessHeader(sheet.rows));
    expect(wrong(readTable(table, told(table), nothing, { newId }))).toEqual([
      "5 Test rack Ptro psi: #REF! is a formula that failed",
    ]);
  });

  it("refuses what is no workbook, with a way out", async () => {
    const oldKind = await openBytes(new Uint8Array([0xd0, 0xcf, 0x11, 0xe0]), "old.xls");
    expect(oldKind).toMatchObject({
      ok: false,
      why: expect.stringContaining("save it as .xlsx or CSV"),
    });
    const broken = (await valveRegister()).slice(0, 900);
    expect(await openBytes(broken, "half.xlsx")).toMatchObject({ ok: false });
  });
});

describe("a table against what is here already", () => {
  const library = libraryOf(read(messy, messyTold));

  it("changes what it speaks of and keeps everything else; a name is found in any writing", () => {
    const text = "well,mandrel no,md (m),sleeve\nem21,2,1105.3,\nEM 22,1,,yes\n";
    const { records, changes } = whole(read(text, {}, library));
    expect(changes.map(({ name, fields }) => [name, fields])).toEqual([
      [
        "EM-21",
        [{ label: "Mandrel 2: Mandrel depth along hole", before: "1104.8 m", after: "1105.3 m" }],
      ],
      ["em 22", [{ label: "Mandrel 1: Orienting sleeve", before: "no", after: "yes" }]],
    ]);
    const before = library.wells.find(({ name }) => name === "EM-21");
    const after = records.wells[0];
    expect(after?.revision).toBe(2);
    expect(after?.mandrels[1]?.valve).toBe(before?.mandrels[1]?.valve);
    expect({ ...after, revision: 1, mandrels: [] }).toEqual({ ...before, mandrels: [] });
  });

  it("takes a figure in another unit that comes to the same as the same", () => {
    const feet = 612.4 / 0.3048;
    const text = `well,mandrel no,md (ft)\nEM-21,1,${feet}\n`;
    expect(whole(read(text, {}, library)).changes[0]?.is).toBe("same");
  });

  it("refuses a valve in two pockets, with both named, and lets it move where the table empties the old one", () => {
    const move = "well,mandrel,serial\nEM-23,1,EM-IPO-3001\n";
    expect(wrong(read(move, { kind: "wells" }, library))).toEqual([
      "2 serial: EM-IPO-3001 would be in two pockets: EM-21, mandrel 1 and EM-23, mandrel 1",
    ]);
    const emptied = `${move}EM-21,1,empty\n`;
    const told: Told = { kind: "wells", answers: { takenOut: "pulled" } };
    const whole2 = whole(read(emptied, told, library));
    expect(whole2.records.wells.map(({ mandrels }) => mandrels[0]?.pocketState)).toEqual([
      "holds a valve",
      "empty",
    ]);
  });

  it("asks where a valve is that comes out of its pocket: nobody has said that it is in stock", () => {
    const text = "well,mandrel,serial\nEM-23,1,EM-IPO-9001\nEM-21,1,empty\n";
    const told = { kind: "wells", answers: forNewWells } as const;
    const asked = read(text, told, library);
    expect(asked.ok || asked.open.map((each) => each.ask)).toEqual([
      "The table takes EM-DUM-3020, EM-IPO-3001 out of their pockets: where now?",
    ]);
    const answers = { ...forNewWells, takenOut: "pulled" };
    const { records } = whole(read(text, { ...told, answers }, library));
    const states = Object.fromEntries(records.valves.map(({ serial, state }) => [serial, state]));
    expect(states).toEqual({
      "EM-IPO-9001": undefined,
      "EM-DUM-3020": "pulled",
      "EM-IPO-3001": "pulled",
    });
    expect(records.valves.every((valve) => recordSchemas.valves.safeParse(valve).success)).toBe(
      true,
    );
  });

  it.each([
    ["a mandrel's number and its neighbour's depth", "EM-21,1,1104.8\n", ["2 mandrel no: 1"]],
    ["numbers counted from the bottom", "EM-21,3,612.4\nEM-21,1,1488.9\n", undefined],
  ])("gives no mandrel's record to its neighbour: %s", (_, rows, places) => {
    const result = read(`well,mandrel no,md (m)\n${rows}`, {}, library);
    expect(result.ok).toBe(false);
    const said = wrong(result);
    expect(said[0]).toContain("is another mandrel than EM-21 has at this depth");
    for (const place of places ?? []) expect(said[0]).toContain(place);
  });

  it.each([
    ["new, counted from the bottom", "EM-31,1,1500\nEM-31,2,900\n"],
    ["here, with one moved past the next", "EM-21,1,1200\n"],
  ])("refuses mandrels that are not counted from the top: %s", (_, rows) => {
    const text = `well,mandrel no,md (m)\n${rows}`;
    expect(wrong(read(text, { answers: forNewWells }, library))[0]).toMatch(
      /would stand at .* no deeper than mandrel/,
    );
  });

  it("keeps wells apart whose names differ in where the mark between their figures stands", () => {
    const rows = "well,mandrel no,md (m)\nEM 1-11,1,600\nEM 11-1,1,700\n";
    const two = whole(read(rows, { answers: forNewWells }));
    expect(two.records.wells.map(({ name }) => name)).toEqual(["EM 1-11", "EM 11-1"]);
    const survey = "well,md (m),inclination,azimuth\nem-1-11,0,0,0\n";
    const { records } = whole(read(survey, { kind: "survey" }, libraryOf(two)));
    expect(records.wells.map(({ name }) => name)).toEqual(["EM 1-11"]);
  });

  it("does not take a well of another field for the one of that name here", () => {
    const text = (field: string) => `well,field,mandrel no,sleeve\nEM-21,${field},1,yes\n`;
    expect(wrong(read(text("Dry Fork"), {}, library))).toEqual([
      "2 field: Dry Fork is another field than that of EM-21 here, which is in Ember Mesa",
    ]);
    expect(read(text("EMBER-MESA"), {}, library).ok).toBe(true);
  });

  it("refuses to put a valve in stock that a well's record has in a pocket", () => {
    const text = "serial,type,status\nem-ipo-3010,ipo,in stock\n";
    expect(wrong(read(text, { kind: "valves" }, library))).toEqual([
      "2 status: in stock does not fit: EM-IPO-3010 is in em 22, mandrel 1 by the well's record",
    ]);
  });

  it("reads wells only, without a column of mandrels", () => {
    const text = "Well;SITHP (barg)\nEM-21;61,5\nEM-23;58,0\n";
    const { records } = whole(read(text, { kind: "wells" }, library));
    expect(
      records.wells.map(({ pressures, mandrels }) => [
        pressures.maximumShutInWellhead,
        mandrels.length,
      ]),
    ).toEqual([
      [{ value: 61.5, unit: "barg" }, 3],
      [{ value: 58, unit: "barg" }, 1],
    ]);
    expect(
      wrong(
        read("Well;SITHP (barg)\nEM-99;61,5\n", { kind: "wells", answers: forNewWells }, library),
      ),
    ).toEqual([
      "2 Mandrel depth along hole:  EM-99 is new here, and no mandrel of it is in the table",
    ]);
  });

  it("counts mandrels without numbers from the top when the planner says so", () => {
    const text = "well,md (m)\nEM-30,900\nEM-30,500\n";
    const asked = read(text, { kind: "wells", answers: forNewWells });
    expect(!asked.ok && asked.open).toMatchObject([{ id: "numbering" }]);
    const { records } = whole(
      read(text, { kind: "wells", answers: { ...forNewWells, numbering: "by depth" } }),
    );
    expect(
      records.wells[0]?.mandrels.map(({ number, depthAlongHole }) => [
        number,
        depthAlongHole.value,
      ]),
    ).toEqual([
      [1, 500],
      [2, 900],
    ]);
  });
});

describe("a deviation survey", () => {
  const library = libraryOf(read(messy, messyTold));
  const [well] = library.wells;

  it("becomes the path of the well that is chosen", () => {
    const text = "MD (m)\tInc (deg)\tAzi (deg)\n0\t0\t0\n300,5\t2,25\t118\n610\t11,5\t121,4\n";
    const { records, changes } = whole(read(text, { answers: { well: well?.id ?? "" } }, library));
    expect(records.wells[0]?.path).toEqual({
      kind: "surveyed",
      stations: [
        {
          depthAlongHole: { value: 0, unit: "m" },
          inclination: { value: 0, unit: "deg" },
          azimuth: { value: 0, unit: "deg" },
        },
        {
          depthAlongHole: { value: 300.5, unit: "m" },
          inclination: { value: 2.25, unit: "deg" },
          azimuth: { value: 118, unit: "deg" },
        },
        {
          depthAlongHole: { value: 610, unit: "m" },
          inclination: { value: 11.5, unit: "deg" },
          azimuth: { value: 121.4, unit: "deg" },
        },
      ],
    });
    expect(changes[0]?.fields).toEqual([
      { label: "Path", before: "vertical", after: "3 stations to 610 m" },
    ]);
  });

  it("names a station that goes up the hole, an angle that cannot be, and a well that is not here", () => {
    const text =
      "Well,MD m,Inc,Azi\nEM-21,100,1,10\nEM-21,1000,2,400\nEM-21,300,3,10\nEM-21,1200,,12\nEM-98,100,1,10\n";
    expect(wrong(read(text, { kind: "survey" }, library))).toEqual([
      "3 Azi: 400 is 400 °, which cannot be: an azimuth lies between 0 and 360 °",
      "6 Well: EM-98 is no well that is here",
      "3+4 MD m: 300 m is less deep than the station before it (1000 m)",
      "5 Inc:  empty",
    ]);
  });
});

describe("tools that the office owns", () => {
  const text = [
    "Serial,Description,Type,Length ft,OD (in),Weight lb,Cert expiry,Status",
    'T-101,"Stem 1-1/2 in x 5 ft",stem,5,1-1/2,29,31/12/2026,ok',
    "T-102,Spang jars,jars,4.2,1.5,24,31/12/2026,workshop",
  ].join("\n");

  it("become records, each word of the list under the one that records keep", () => {
    const { records } = whole(read(text));
    expect(records.tools).toMatchObject([
      {
        serial: "T-101",
        kind: "stem",
        outsideDiameter: { value: 1.5, unit: "in" },
        state: "in service",
        certificateUntil: "2026-12-31",
      },
      { serial: "T-102", kind: "jars", state: "in repair" },
    ]);
    for (const tool of records.tools)
      expect(recordSchemas.tools.safeParse(tool).success).toBe(true);
  });

  it("have a length, a diameter and a weight, none of them nothing", () => {
    expect(wrong(read(text.replace(",24,", ",0,").replace(",5,1-1/2", ",,1-1/2")))).toEqual([
      "2 Length ft:  empty, and the tool is new here",
      "3 Weight lb:  has to be above 0",
    ]);
  });
});

describe("numbers as columns write them", () => {
  it.each([
    { texts: ["12.5", "1,234.5"], as: "point" },
    { texts: ["12,5", "1.234,5"], as: "comma" },
    { texts: ["1 234,56"], as: "comma" },
    { texts: ["1,234,567"], as: "point" },
    { texts: ["0.375", "1.031"], as: "point" },
    { texts: ["120", "44"], as: "point" },
    { texts: ["1,234"], as: "ask" },
    { texts: ["1.234", "2.500"], as: "ask" },
    { texts: ["12,5", "12.5"], as: "ask" },
  ])("$texts: $as", ({ texts, as }) => {
    expect(decimalsOf(evidenceOf(texts))).toBe(as);
  });

  it("does not ask where one of the two meanings cannot be: no bore is 1,031 in", () => {
    const table = tableIn("serial,port (in)\nEM-1,1.031\n");
    expect(columnQuestions(table, guessMapping(table, "valves"))).toEqual([]);
  });

  it("asks for 1,234 as part of the mapping, and reads it as it is told", () => {
    const text = "well;mandrel;md (m)\nEM-31;1;1,234\n";
    const asked = read(text, { kind: "wells" });
    expect(!asked.ok && asked.open).toMatchObject([{ column: 2, part: "decimals" }]);
    for (const [decimals, value] of [
      ["point", 1234],
      ["comma", 1.234],
    ] as const) {
      const result = read(text, {
        kind: "wells",
        columns: { "md (m)": { decimals } },
        answers: forNewWells,
      });
      expect(whole(result).records.wells[0]?.mandrels[0]?.depthAlongHole).toEqual({
        value,
        unit: "m",
      });
    }
  });

  it.each([
    ["3/16", 0.1875],
    ["1-1/2", 1.5],
    ["1 1/2", 1.5],
    ["1½", 1.5],
    ["12/64", 0.1875],
    ["5/4", undefined],
    ["3/0", undefined],
  ])("%s of an inch is %s", (text, value) => {
    expect(fraction(text)).toBe(value);
  });

  it("leaves what is neither as it is", () => {
    expect(["1,23,4", "1.2.3", "--5", "", "."].map((text) => numberIn(text, "point"))).toEqual(
      Array(5).fill(undefined),
    );
  });
});

describe("units as headers say them", () => {
  it.each([
    ["length", "Depth (m)", "m"],
    ["length", "MD ft", "ft"],
    ["length", "MD RKB [ft]", "ft"],
    ["pressure", "Ptro psig", "psig"],
    ["pressure", "TRO (psi(g))", "psig"],
    ["pressure", "Set pressure, bara", "bara"],
    ["diameter", "Port, in", "in"],
  ] as const)("%s: %s is in %s", (dimension, header, unit) => {
    expect(unitInHeader(dimension, header)).toEqual({ is: "unit", unit });
  });

  it("does not choose between gauge and absolute, and says which unit it does not read", () => {
    expect(unitInHeader("pressure", "Ptro (kPa)")).toMatchObject({
      is: "choice",
      units: ["kPag", "kPaa"],
    });
    expect(unitInHeader("pressure", "SITHP MPa")).toEqual({ is: "foreign", word: "MPa" });
    expect(unitInHeader("length", "Depth")).toBeUndefined();
  });

  it.each(["constructor", "__proto__", "valueOf"])("finds no unit in the word %s", (word) => {
    expect(unitInHeader("pressure", `Ptro (${word})`)).toBeUndefined();
    expect(unitInHeader("length", `Depth ${word}`)).toBeUndefined();
  });

  it("does not take a cell's psi for gauge in a column of bara", () => {
    const text = "serial,type,size,Ptro bara,test date\nEM-1,ipo,1,900 psi,2026-01-05\n";
    expect(wrong(read(text, { kind: "valves", answers: { valveState: "in stock" } }))).toEqual([
      "2 Ptro bara: 900 psi says psi and not whether it is gauge or absolute",
    ]);
  });
});

describe("days", () => {
  it.each([
    ["2026-11-25", undefined, "2026-11-25"],
    ["25.11.2026", undefined, "2026-11-25"],
    ["25 Nov 2026", undefined, "2026-11-25"],
    ["Nov 25, 2026", undefined, "2026-11-25"],
    ["46351", undefined, "2026-11-25"],
    ["3/4/2026", "day first", "2026-04-03"],
    ["3/4/2026", "month first", "2026-03-04"],
    ["3/4/2026", undefined, undefined],
    ["31.02.2026", undefined, undefined],
  ] as const)("%s, %s: %s", (text, order, day) => {
    expect(dayIn(text, order)).toBe(day);
  });

  it("are asked where a column does not show which number comes first", () => {
    expect(orderOf(["3/4/2026", "5/6/2026"])).toBe("ask");
    expect(orderOf(["3/4/2026", "25/6/2026"])).toBe("day first");
    expect(orderOf(["3/4/2026", "6/25/2026"])).toBe("month first");
  });
});

describe("a mapping that is remembered", () => {
  it("is asked for every table whether its mandrels are conventional", () => {
    const table = tableIn(messy);
    const [kept] = remember([], table, mapped(table, messyTold));
    expect(kept?.answers).not.toHaveProperty("construction");
  });

  it("comes back for the same set of columns in another order, answers included", () => {
    const table = tableIn(messy);
    const mapping = mapped(table, messyTold);
    const kept = rememberedIn(JSON.stringify(remember([], table, mapping)));
    const turned = tableIn(
      messy
        .split("\n")
        .map((line) => line.split(";").reverse().join(";"))
        .join("\n"),
    );
    const again = recall(kept, turned);
    expect(again).toMatchObject({
      kind: "wells",
      fillDown: true,
      answers: { reference: "rotary table" },
    });
    expect(again?.columns[2]).toEqual({ field: "testRack", unit: "psig" });
    const answers = { ...again?.answers, construction: "side pocket", testDay: "2026-03-01" };
    const mappedAgain = { ...mapped(turned, {}), ...again, answers };
    expect(whole(readTable(turned, mappedAgain, nothing, { newId })).records.wells).toHaveLength(3);
  });

  it("is forgotten where it cannot be read", () => {
    for (const text of [null, "", "{", "[1]", '[{"headers":"a","kind":"x"}]'])
      expect(rememberedIn(text)).toEqual([]);
  });
});

it("finds nothing in a column's name that is far too long", () => {
  const long = `depth ${"(".repeat(300)}`;
  expect(guessMapping(tableIn(`well,${long}\nEM-1,2\n`), "wells").columns).toEqual({
    0: { field: "well" },
  });
});
