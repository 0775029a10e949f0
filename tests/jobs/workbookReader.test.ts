import { unzipSync } from "fflate";
import { expect, it, vi } from "vitest";
import writeXlsx from "write-excel-file/node";
import { openBytes } from "../../src/jobs/tables/openFile.ts";

/** What the reader of workbooks was handed. */
const handed: Uint8Array[] = [];
vi.mock("read-excel-file/universal", async (original) => {
  const { default: read } = await original<typeof import("read-excel-file/universal")>();
  return {
    default: (input: ArrayBuffer, options: object) => {
      handed.push(new Uint8Array(input));
      return read(input, options);
    },
  };
});

it("a workbook is handed to its reader without packing, which it would undo in a worker that the page forbids", async () => {
  const rows = Array.from({ length: 200 }, (_, index) => [`EM 1-${index}`, "orifice"]);
  const bytes = await writeXlsx(rows.map((row) => row.map((value) => ({ value })))).toBuffer();
  const opened = await openBytes(new Uint8Array(bytes), "register.xlsx");
  expect(opened.ok && opened.sheets[0]?.rows).toHaveLength(200);
  const [zip] = handed;
  const methods = new Set<number>();
  unzipSync(zip as Uint8Array, { filter: ({ compression }) => !methods.add(compression) });
  expect([...methods]).toEqual([0]);
});
