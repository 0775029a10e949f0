import { strFromU8, unzipSync } from "fflate";
import Papa from "papaparse";
import readXlsxFile from "read-excel-file/node";
import { describe, expect, it } from "vitest";
import { csvOf, neutral, type Table, xlsxOf } from "../../src/jobs/files/tabular.ts";
import { zipProblem } from "../../src/jobs/files/zipGuard.ts";

const table = (rows: Table["rows"], columns = ["Item", "Count"]): Table => ({
  name: "Load-out 2026-11-26",
  columns,
  rows,
});

const parsedCsv = (text: string) =>
  Papa.parse<string[]>(text.replace(/^\ufeff/, ""), { skipEmptyLines: true }).data;

/** What another reader finds in the workbook's sheet, and its name. */
async function parsedXlsx(bytes: Uint8Array) {
  const [found] = await readXlsxFile(Buffer.from(bytes));
  return found;
}

const hostile = [
  '=HYPERLINK("http://example.invalid","EM-1")',
  "+cmd|' /C calc'!A0",
  "-2+3+cmd",
  "@SUM(A1:A9)",
  "\t=1+1",
  "\r=1+1",
  "\n=1+1",
  "   =1+1",
  "\u00a0=1+1",
  "\uff1d1+1",
  '","=1+1',
  '"\r\n=1+1',
];

describe("words that a spreadsheet would run", () => {
  it.each(hostile.slice(0, 10))("%j gets an apostrophe ahead of it", (words) => {
    expect(neutral(words)).toBe(`'${words}`);
  });

  it.each(["EM-14", "1-1/2 in", "a = b", "", "-12.5", "+4", " -3 ", "-0,5"])(
    "%j stays as it is",
    (words) => {
      expect(neutral(words)).toBe(words);
    },
  );

  it.each([0, -12.5, 1e21, 3])("the number %d stays a number", (value) => {
    expect(neutral(value)).toBe(value);
  });

  it("what is not there, and what is no number, is empty", () => {
    expect([neutral(undefined), neutral(Number.NaN), neutral(1 / 0)]).toEqual(["", "", ""]);
  });

  it("signs that no letter is are left out", () => {
    expect(neutral("EM\u0000-\u001b1\ud800\ufffe")).toBe("EM-1");
  });
});

describe("as CSV", () => {
  it("reads back as it was given", () => {
    const rows = [
      ['Stem, 1-1/2 in "heavy"', 2],
      ["two\nlines", -12.5],
      ["Brønn — ½″", undefined],
    ];
    const text = csvOf(table(rows));
    expect(text.startsWith("\ufeff")).toBe(true);
    expect(parsedCsv(text)).toEqual([
      ["Item", "Count"],
      ['Stem, 1-1/2 in "heavy"', "2"],
      ["two\nlines", "-12.5"],
      ["Brønn — ½″", ""],
    ]);
  });

  it("has no field that begins as a formula, quoted or not", () => {
    const read = parsedCsv(
      csvOf(
        table(
          hostile.map((words) => [words, -1]),
          [...hostile.slice(0, 2)],
        ),
      ),
    );
    expect(read).toHaveLength(hostile.length + 1);
    for (const [words, count] of read.slice(1)) {
      expect(words).not.toMatch(/^\s*[=+\-@\uff1d]/);
      expect(count).toBe("-1");
    }
    expect(read[0]?.every((name) => name.startsWith("'"))).toBe(true);
  });
});

describe("as a workbook", () => {
  it("reads back with numbers as numbers, by another reader", async () => {
    const rows = [
      ['Stem <1-1/2 in> & "heavy"', 2],
      ["two\nlines", -12.5],
      ["Brønn — ½″", undefined],
      [undefined, 0],
    ];
    const bytes = xlsxOf(table(rows));
    expect(zipProblem(bytes)).toBeUndefined();
    expect(await parsedXlsx(bytes)).toEqual({
      sheet: "Load-out 2026-11-26",
      data: [
        ["Item", "Count"],
        ['Stem <1-1/2 in> & "heavy"', 2],
        ["two\nlines", -12.5],
        ["Brønn — ½″", null],
        [null, 0],
      ],
    });
  });

  it("has no formula in it, and its words begin as in CSV", async () => {
    const bytes = xlsxOf(table(hostile.map((words) => [words, 1])));
    const sheet = strFromU8(unzipSync(bytes)["xl/worksheets/sheet1.xml"] as Uint8Array);
    expect(sheet).not.toMatch(/<f[ >]/);
    const { data } = (await parsedXlsx(bytes)) ?? { data: [] };
    expect(data.slice(1).map(([words]) => words)).toEqual(hostile.map((words) => neutral(words)));
  });

  it("takes more columns than the alphabet has letters, and a name that no sheet may have", async () => {
    const columns = Array.from({ length: 60 }, (_, n) => `Column ${n}`);
    const row = columns.map((_, n) => n);
    const bytes = xlsxOf({ name: "'a/b:c*[d]?".repeat(5), columns, rows: [row] });
    expect(await parsedXlsx(bytes)).toEqual({
      sheet: expect.stringMatching(/^[^'[\]:*?/\\][^[\]:*?/\\]{0,30}$/),
      data: [columns, row],
    });
  });
});
