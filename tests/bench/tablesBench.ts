import writeWorkbook from "write-excel-file/node";
import { type Source, TableSession } from "../../src/jobs/tables/session.ts";
import { memoryStore } from "../jobs/memoryStore.ts";

const ROWS = 40_000;
const NAMES = ["Serial", "Type", "Size", "Ptro psig", "Test date", "Port in", "Status", "Remarks"];
const row = (at: number) => [
  `EM-L-${at}`,
  at % 3 ? "ipo" : "orifice",
  "1",
  800 + (at % 200),
  `2026-02-${10 + (at % 18)}`,
  0.1875,
  "stock",
  "rebuilt",
];

interface Timed {
  readonly what: string;
  readonly ms: number;
  /** of the heap in use, above what it was before the file was opened */
  readonly "MB more": number;
}

/** A large list of valves from its file to records and into a store: what each part takes, and the heap it leaves in use. */
export async function benchTables(): Promise<Timed[]> {
  const rows = Array.from({ length: ROWS }, (_, at) => row(at));
  const text = [NAMES, ...rows].map((cells) => cells.join(",")).join("\n");
  const workbook = await writeWorkbook([NAMES, ...rows] as never).toBuffer();
  return [
    ...(await timed("CSV", {
      is: "file",
      name: "large.csv",
      bytes: new TextEncoder().encode(text),
    })),
    ...(await timed("workbook", {
      is: "file",
      name: "large.xlsx",
      bytes: new Uint8Array(workbook),
    })),
  ];
}

async function timed(kind: string, source: Source): Promise<Timed[]> {
  const session = new TableSession();
  const results: Timed[] = [];
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const part = async <T>(what: string, work: () => T | Promise<T>): Promise<T> => {
    const begun = performance.now();
    const result = await work();
    results.push({
      what: `${kind} of ${ROWS.toLocaleString("en-US")} rows: ${what}`,
      ms: Math.round(performance.now() - begun),
      "MB more": Math.round((process.memoryUsage().heapUsed - before) / 1e6),
    });
    return result;
  };
  await part("open", () => session.open(source));
  const { mapping } = await part("find header and columns", () => session.look(0, []));
  await part("questions of the columns and first rows", () => session.study(mapping));
  const library = { wells: [], valves: [], tools: [] };
  const read = await part("read into records", () =>
    session.read(mapping, library, [], { newId: () => crypto.randomUUID() }),
  );
  if (!read.ok) throw new Error(`the table was refused: ${JSON.stringify(read.problems[0])}`);
  const store = memoryStore();
  await part("write into a store in memory", () =>
    store.receive({ records: read.records, events: [] }),
  );
  return results;
}
