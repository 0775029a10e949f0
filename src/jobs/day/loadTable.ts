import type { Table } from "../files/tabular.ts";
import { loadGroups } from "./loadLine.ts";
import type { Loaded, LoadOut } from "./loadOut.ts";

const states: Readonly<Record<Loaded["state"], string>> = {
  open: "",
  loaded: "loaded",
  changed: "changed since it was ticked",
};

/** The load-out list as a table that leaves the program. */
export function loadTable(day: string, { lines, notNeeded }: LoadOut): Table {
  return {
    name: `Load-out ${day}`,
    columns: [
      "Part",
      "Count",
      "What",
      "Details",
      "For",
      "Common practice",
      "Look at",
      "Why",
      "Loaded",
      "By",
      "At (UTC)",
    ],
    rows: [
      ...lines.map(({ group, count, what, detail, wells, practice, ask, why, loaded }) => [
        loadGroups[group],
        count,
        what,
        detail,
        wells.join(", "),
        practice ? "common practice" : undefined,
        ask,
        why,
        states[loaded.state],
        ...(loaded.state === "open" ? [undefined, undefined] : [loaded.by, loaded.at]),
      ]),
      ...notNeeded.map(({ read, by, at }) => [
        "No longer needed",
        undefined,
        read,
        undefined,
        undefined,
        undefined,
        undefined,
        undefined,
        "was loaded",
        by,
        at,
      ]),
    ],
  };
}
