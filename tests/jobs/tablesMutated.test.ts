import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { recordSchemas } from "../../src/jobs/records/library.ts";
import type { TableLibrary } from "../../src/jobs/tables/changes.ts";
import { tableOf } from "../../src/jobs/tables/columns.ts";
import { guessHeader } from "../../src/jobs/tables/header.ts";
import { columnQuestions, guessMapping, type Mapping } from "../../src/jobs/tables/mapping.ts";
import { openBytes, openText } from "../../src/jobs/tables/openFile.ts";
import { readTable, type TableRead } from "../../src/jobs/tables/readTable.ts";
import { type TableKindId, tableKinds } from "../../src/jobs/tables/tableKinds.ts";
import { valveRegister } from "../files/valveRegister.ts";
import { memoryStore } from "./memoryStore.ts";

/**
 * Tables that somebody or something spoilt: whatever is in them, they come in whole or with every reason, no reading
 * throws, and what comes in are records that every other screen can read.
 */
const seeds: Readonly<Record<TableKindId, string>> = {
  wells: readFileSync(new URL("../files/wells-messy.csv", import.meta.url), "utf8"),
  valves:
    "serial,type,size,Ptro psig,test date,port in,status\nEM-1,ipo,1,905,2026-02-01,3/16,in stock\nEM-2,orifice,1.5,,,1/4,stock\nEM-3,dummy,1,,,,pulled\n",
  survey: "Well;MD (m);Inc;Azi\nEM-21;0;0;0\nEM-21;300,5;2,5;118\nEM-21;610;11,5;121,4\n",
  tools:
    "Serial\tName\tType\tLength ft\tOD in\tWeight lb\tStatus\tExpiry\nT-1\tStem\tstem\t5\t1.5\t29\tok\t31/12/2026\nT-2\tJars\tjars\t4.2\t1.5\t24\trepair\t\n",
};

const RUNS = 500;
/** Each kind of table in parts, so that none takes long on a busy machine. */
const PARTS = [1, 2, 3, 4];
const parts = Object.entries(seeds).flatMap(([kind, seed]) =>
  PARTS.map((part) => [kind, part, seed] as const),
);

/** What files hold that nobody means. */
const oddCells = fc.oneof(
  fc.constantFrom(
    "",
    " ",
    "-",
    "n/a",
    "#N/A",
    "#REF!",
    "1,234",
    "1.234",
    "1e9",
    "-5",
    "99999999999",
    "0",
    "NaN",
    "Infinity",
    "TRUE",
    "EM-21",
    "em 21",
    "__proto__",
    "constructor",
    "toString",
    "<b>x</b>",
    "=1+1",
    "\u202eabc",
    "a\u0000b",
    "½",
    "3/0",
    "31/02/2026",
    "2026-13-45",
    "psi",
    "900 psi",
    "12 MPa",
    '"',
    "'",
    ";",
    "\t",
    "\r",
    "٣",
    "１２",
    "x".repeat(500),
  ),
  fc.string({ maxLength: 12, unit: "binary" }),
  fc.double().map(String),
  fc.integer().map(String),
);

type Spoil = (lines: string[][], at: number, with_: string) => void;
const cellOf = (lines: string[][], at: number) => {
  const line = lines[at % lines.length] as string[];
  return { line, column: line.length === 0 ? 0 : Math.floor(at / lines.length) % line.length };
};
const spoils: readonly Spoil[] = [
  (lines, at, with_) => {
    const { line, column } = cellOf(lines, at);
    line[column] = with_;
  },
  (lines, at) => void lines.splice(at % lines.length, 1),
  (lines, at) =>
    void lines.splice(at % lines.length, 0, [...(lines[(at * 7) % lines.length] as string[])]),
  (lines, at) => {
    const { line, column } = cellOf(lines, at);
    line.splice(column, 1);
  },
  (lines, at, with_) => {
    const { line, column } = cellOf(lines, at);
    line.splice(column, 0, with_);
  },
  (lines, at) => {
    const other = lines[(at * 13) % lines.length] as string[];
    lines[(at * 13) % lines.length] = lines[at % lines.length] as string[];
    lines[at % lines.length] = other;
  },
];

const mutation = fc.record({
  how: fc.nat(spoils.length - 1),
  at: fc.nat(10_000),
  with_: oddCells,
});

function spoilt(
  seed: string,
  mutations: readonly { how: number; at: number; with_: string }[],
): string {
  const mark = seed.includes("\t") ? "\t" : seed.includes(";") ? ";" : ",";
  const lines = seed
    .trimEnd()
    .split("\n")
    .map((line) => line.split(mark));
  for (const { how, at, with_ } of mutations) {
    if (lines.length > 1) spoils[how]?.(lines, at, with_);
  }
  return lines.map((line) => line.join(mark)).join("\n");
}

const answers = {
  field: "Ember Mesa",
  reference: "rotary table",
  aboveZero: "12.5 ft",
  injectionDown: "annulus",
  path: "vertical",
  construction: "side pocket",
  valveKind: "dummy",
  valveSize: "1 in",
  testDay: "2026-03-01",
  numbering: "by depth",
  noSerial: "leave out",
  valveState: "in stock",
  toolKind: "other",
  toolState: "in service",
  well: "well-21",
};

const library: TableLibrary = {
  wells: [
    {
      id: "well-21",
      revision: 4,
      name: "EM-21",
      field: "Ember Mesa",
      depthReference: { name: "rotary table", aboveWellheadZero: { value: 12, unit: "ft" } },
      injectionDown: "annulus",
      path: { kind: "vertical" },
      tubing: [],
      restrictions: [],
      mandrels: [
        {
          id: "m-1",
          number: 1,
          depthAlongHole: { value: 610, unit: "m" },
          construction: "side pocket",
          pocket: "1 in",
          orientingSleeve: "yes",
          pocketState: "holds a valve",
          valve: "valve-1",
        },
      ],
      temperatures: {},
      annulusLiquid: { state: "not known" },
      pressures: {},
    },
  ],
  valves: [{ id: "valve-1", revision: 1, serial: "EM-9", kind: "dummy", size: "1 in" }],
  tools: [],
};

/** A mapping with every question of the columns answered by its first or its last choice. */
function answered(
  table: ReturnType<typeof tableOf>,
  kind: TableKindId | undefined,
  last: boolean,
): Mapping {
  let mapping = { ...guessMapping(table, kind), fillDown: last, answers };
  for (const question of columnQuestions(table, mapping)) {
    if (question.about !== "column") continue;
    const { column, part, options } = question;
    const said = options.at(last ? -1 : 0)?.value;
    const map = mapping.columns[column];
    if (map && said)
      mapping = { ...mapping, columns: { ...mapping.columns, [column]: { ...map, [part]: said } } };
  }
  return mapping;
}

/** Whole or refused with reasons that name a place and a way out. */
async function expectClear(result: TableRead) {
  if (!result.ok) {
    expect(result.open.length + result.count).toBeGreaterThan(0);
    for (const { what, mend, rows } of result.problems) {
      expect(what).not.toBe("");
      expect(mend).not.toBe("");
      expect(rows.every((row) => row >= 1)).toBe(true);
    }
    return;
  }
  for (const kind of ["wells", "valves", "tools"] as const) {
    for (const record of result.records[kind]) {
      const checked = recordSchemas[kind].safeParse(record);
      expect(checked.success ? "" : JSON.stringify(checked.error.issues)).toBe("");
      const before = library[kind].find(({ id }) => id === record.id);
      expect(record.revision).toBe((before?.revision ?? 0) + 1);
    }
  }
  const changed = new Set(result.records.wells.map(({ id }) => id));
  const pockets = [...library.wells.filter(({ id }) => !changed.has(id)), ...result.records.wells]
    .flatMap(({ mandrels }) => mandrels)
    .flatMap(({ valve }) => valve ?? []);
  expect(new Set(pockets).size).toBe(pockets.length);
  const store = memoryStore();
  await store.receive({ records: library, events: [] });
  await store.receive({ records: result.records, events: [] });
}

describe("ten thousand spoilt tables", () => {
  it.each(parts)(`%s, part %s: ${RUNS} times`, async (kind, _, seed) => {
    let came = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(mutation, { maxLength: 6 }),
        fc.boolean(),
        fc.boolean(),
        async (mutations, last, told) => {
          const opened = openText(spoilt(seed, mutations), "spoilt");
          if (!opened.ok) {
            expect(opened.why).not.toBe("");
            return;
          }
          for (const sheet of opened.sheets) {
            const table = tableOf(sheet, guessHeader(sheet.rows));
            let count = 0;
            const newId = () => {
              count += 1;
              return `new-${count}`;
            };
            const mapping = answered(table, told ? (kind as TableKindId) : undefined, last);
            const result = readTable(table, mapping, library, { newId });
            if (result.ok) came += 1;
            await expectClear(result);
          }
        },
      ),
      { numRuns: RUNS },
    );
    // Both ways out were taken: a test that refuses everything shows nothing.
    expect(came).toBeGreaterThan(RUNS / 50);
    expect(came).toBeLessThan(RUNS);
  });

  it(`any mapping of any cells: ${2 * RUNS} times`, async () => {
    const ids = tableKinds.flatMap(({ fields }) => fields.map(({ id }) => id));
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(oddCells, { maxLength: 6 }), { maxLength: 8 }),
        fc.constantFrom(...tableKinds.map(({ id }) => id)),
        fc.array(fc.constantFrom(...ids), { maxLength: 6 }),
        fc.boolean(),
        async (cells, kind, fields, last) => {
          const rows = cells.map((row) => row.map((cell) => (cell.trim() === "" ? null : cell)));
          const table = tableOf({ name: "x", rows }, guessHeader(rows));
          const columns = Object.fromEntries(fields.map((field, index) => [index, { field }]));
          const guessed = answered(table, kind, last);
          const mapping = { ...guessed, columns: { ...columns, ...guessed.columns } };
          await expectClear(readTable(table, mapping, library, { newId: () => "new" }));
        },
      ),
      { numRuns: 2 * RUNS },
    );
  });

  it(`workbooks with bytes changed: ${2 * RUNS} times`, async () => {
    const whole = await valveRegister();
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 4 }),
        async (changes) => {
          const bytes = whole.slice();
          for (const [at, byte] of changes) bytes[at] = byte;
          const opened = await openBytes(bytes, "spoilt.xlsx");
          if (!opened.ok) {
            expect(opened.why).toMatch(/\. /);
            return;
          }
          for (const sheet of opened.sheets) {
            const table = tableOf(sheet, guessHeader(sheet.rows));
            await expectClear(
              readTable(table, answered(table, undefined, false), library, { newId: () => "new" }),
            );
          }
        },
      ),
      { numRuns: 2 * RUNS },
    );
  });
});
