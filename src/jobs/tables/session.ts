import { readWitsml, type Trajectory } from "../files/witsml.ts";
import { cellText, type Sheet } from "./cell.ts";
import type { Change, TableLibrary } from "./changes.ts";
import { type Column, type Table, tableOf } from "./columns.ts";
import { guessHeader, type Header } from "./header.ts";
import {
  columnQuestions,
  guessMapping,
  hasGapsInWells,
  type Mapping,
  type Question,
} from "./mapping.ts";
import { openBytes, openText } from "./openFile.ts";
import { preview, readTable, type TableRead } from "./readTable.ts";
import { type Remembered, recall, remember } from "./remembered.ts";
import type { OnProgress } from "./rowValues.ts";
import type { TableKindId } from "./tableKinds.ts";

export type Source =
  | { readonly is: "file"; readonly name: string; readonly bytes: Uint8Array }
  | { readonly is: "pasted"; readonly text: string };

export type SourceOpened =
  | { readonly is: "tables"; readonly sheets: readonly SheetSummary[] }
  | { readonly is: "surveys"; readonly trajectories: readonly Trajectory[] }
  | { readonly is: "refused"; readonly why: string };

export interface SheetSummary {
  readonly name: string;
  readonly rows: number;
  /** the first rows, in letters, for whoever chooses the header */
  readonly top: readonly (readonly string[])[];
}

/** A sheet under its header, and how it is most likely to be read. */
export interface SheetLook {
  readonly header: Header;
  readonly columns: readonly Column[];
  readonly rows: number;
  readonly mapping: Mapping;
  /** mapped as the last time a table with these columns was checked */
  readonly isRemembered: boolean;
}

export interface Study {
  readonly questions: readonly Question[];
  readonly preview: ReturnType<typeof preview>;
  readonly gapsInWells: boolean;
}

/** What a table makes of the library, with as many changes as anybody reads. */
export type Outcome = (
  | Extract<TableRead, { ok: false }>
  | (Omit<Extract<TableRead, { ok: true }>, "changes"> & {
      readonly counts: Readonly<Record<Change["is"], number>>;
      readonly changes: readonly Change[];
    })
) & {
  /** how tables are mapped, this one first: to be kept for the next one with its columns */
  readonly remembered: readonly Remembered[];
};

const TOP_ROWS = 30;
const TOP_COLUMNS = 30;
const MOST_LISTED = 300;
const SHORT = 200;

/** One source of tables from opening to records: holds the rows, so that they are handed from nobody to nobody. */
export class TableSession {
  private sheets: readonly Sheet[] = [];
  private looked: { sheet: number; table: Table } | undefined;

  async open(source: Source): Promise<SourceOpened> {
    this.looked = undefined;
    this.sheets = [];
    if (source.is === "file" && isXml(source.bytes)) {
      const read = readWitsml(source.bytes);
      return read.state === "read"
        ? { is: "surveys", trajectories: read.trajectories }
        : { is: "refused", why: read.why };
    }
    const opened =
      source.is === "file"
        ? await openBytes(source.bytes, source.name)
        : openText(source.text, "what was pasted");
    if (!opened.ok) return { is: "refused", why: opened.why };
    this.sheets = opened.sheets;
    return {
      is: "tables",
      sheets: opened.sheets.map(({ name, rows }) => ({
        name,
        rows: rows.length,
        top: rows
          .slice(0, TOP_ROWS)
          .map((row) => row.slice(0, TOP_COLUMNS).map((cell) => cellText(cell).slice(0, SHORT))),
      })),
    };
  }

  /**
   * @param header where the planner says the names stand; found when not said
   * @param kind what the planner says the table is
   */
  look(sheet: number, kept: readonly Remembered[], header?: Header, kind?: TableKindId): SheetLook {
    const of = this.sheets[sheet];
    if (!of) throw new RangeError(`there is no sheet ${sheet}`);
    const table = tableOf(of, header ?? guessHeader(of.rows, kind && [kind]));
    this.looked = { sheet, table };
    const recalled = recall(kept, table);
    const before =
      recalled && (kind === undefined || recalled.kind === kind) ? recalled : undefined;
    return {
      header: table.header,
      columns: table.columns,
      rows: table.rows.length,
      mapping: before ?? guessMapping(table, kind),
      isRemembered: before !== undefined,
    };
  }

  study(mapping: Mapping): Study {
    const { table } = this;
    return {
      questions: columnQuestions(table, mapping),
      preview: preview(table, mapping),
      gapsInWells: hasGapsInWells(table, mapping),
    };
  }

  read(
    mapping: Mapping,
    library: TableLibrary,
    kept: readonly Remembered[],
    options: { readonly newId: () => string; readonly onProgress?: OnProgress },
  ): Outcome {
    const { table } = this;
    const read = readTable(table, mapping, library, options);
    const remembered = remember(kept, table, mapping);
    if (!read.ok) return { ...read, remembered };
    const of = (is: Change["is"]) => read.changes.filter((change) => change.is === is);
    const [fresh, changed, same] = [of("new"), of("changed"), of("same")];
    const counts = { new: fresh.length, changed: changed.length, same: same.length };
    const changes = [fresh, changed, same].flatMap((each) => each.slice(0, MOST_LISTED));
    return { ...read, counts, changes, remembered };
  }

  private get table(): Table {
    if (!this.looked) throw new Error("no sheet was looked at");
    return this.looked.table;
  }
}

/** Whether a file is XML: by its first mark, whatever stands before it. */
function isXml(bytes: Uint8Array): boolean {
  const start = new TextDecoder("utf-8").decode(bytes.slice(0, 200)).replace(/^\ufeff/, "");
  return /^\s*<(\?xml|!--|[a-z])/i.test(start) || (bytes[0] === 0xff && bytes[2] === 0x3c);
}
