import { toSI } from "../quantity.ts";
import { bodyFigures, type OwnedTool } from "../records/equipment.ts";
import { plainSerial } from "../serial.ts";
import type { Draft } from "./changes.ts";
import { toolKinds, toolStates } from "./choices.ts";
import { byPlainName, type Reading } from "./reading.ts";
import { merged, type RowValues } from "./rowValues.ts";
import { tableKind } from "./tableKinds.ts";

const fields = tableKind("tools").fields.filter(({ id }) => id !== "toolSerial");
/** What a new tool cannot do without and no answer for the whole table can give. */
const own = ["toolName", "toolLength", "toolDiameter", "toolWeight"] as const;

/** A table of the tools that the office owns. */
export function toolDrafts(reading: Reading, rows: readonly RowValues[]): Draft[] {
  const known = byPlainName(reading.library.tools, (tool) => tool.serial, plainSerial);
  const rowOf = new Map<string, number>();
  return rows.flatMap((row): Draft[] => {
    const name = String(row.values.get("toolSerial") ?? "");
    const key = plainSerial(name);
    if (key === "") {
      reading.complain(
        [row.row],
        "toolSerial",
        "no serial",
        "Write the mark that is on the tool, or leave the row out.",
      );
      return [];
    }
    const earlier = rowOf.get(key);
    if (earlier !== undefined) {
      reading.complain(
        [earlier, row.row],
        "toolSerial",
        "is there twice (blanks, dashes and capitals do not count)",
        "Correct one of the serials, or leave out one of the rows.",
        name,
      );
      return [];
    }
    rowOf.set(key, row.row);
    if (known.twice.has(key)) {
      reading.complain(
        [row.row],
        "toolSerial",
        "is the serial of two tools here already",
        "Correct one of them in the library first.",
        name,
      );
      return [];
    }
    const before = known.found.get(key);
    const start = before ?? newTool(reading, row, name);
    if (!start) return [];
    const after = merged(start, fields, row);
    return hasBody(reading, row, after) ? [{ kind: "tools", before, after, rows: [row.row] }] : [];
  });
}

function newTool(reading: Reading, row: RowValues, serial: string): OwnedTool | undefined {
  const { values } = row;
  const lacking = own.filter((id) => !values.has(id));
  for (const id of lacking) {
    reading.complain(
      [row.row],
      id,
      "empty, and the tool is new here",
      "Measure the tool and write it, or leave the row out.",
    );
  }
  const forAll = (id: string, ask: string, choices: readonly { readonly value: string }[]) =>
    values.get(id) ??
    (row.bad.has(id)
      ? undefined
      : reading.answer({
          id,
          ask: `${ask}, where the table does not say`,
          means: "For tools that are new here.",
          answer: {
            kind: "choice",
            options: choices.map(({ value }) => ({ value, label: value })),
          },
        }));
  const kind = forAll("toolKind", "Kind of the tools", toolKinds);
  const state = forAll("toolState", "State of the tools", toolStates);
  if (lacking.length > 0 || kind === undefined || state === undefined) return undefined;
  return { id: reading.newId(), revision: 1, serial, kind, state } as OwnedTool;
}

/** What goes into a string has a length, a diameter and a weight, and none of them is nothing. */
function hasBody(reading: Reading, row: RowValues, tool: OwnedTool): boolean {
  let isWhole = true;
  const refuse = (field: string, what: string) => {
    isWhole = false;
    reading.complain([row.row], field, what, "Measure the part and correct the figure.");
  };
  for (const figure of bodyFigures) {
    const field = fields.find(({ path }) => path === figure);
    if (!(tool[figure].value > 0)) refuse(field?.id ?? figure, "has to be above 0");
  }
  if (tool.lengthExtended && toSI("length", tool.lengthExtended) < toSI("length", tool.length)) {
    refuse("toolExtended", "less than the length closed");
  }
  return isWhole;
}
