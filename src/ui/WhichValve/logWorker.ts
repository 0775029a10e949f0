import { lookAtLog } from "../../jobs/diagnosis/logTable.ts";
import { readLog } from "../../jobs/diagnosis/readLog.ts";
import type { Sheet } from "../../jobs/tables/cell.ts";
import { openBytes, openText } from "../../jobs/tables/openFile.ts";
import { answering } from "../workerClient.ts";
import type { LogOpened, LogRequest } from "./logClient.ts";

/** Reads logs beside the screen and holds their rows: a day at a reading a second is 86,400 of them. */
let sheets: readonly Sheet[] = [];

const sheetAt = (index: number): Sheet => {
  const sheet = sheets[index];
  if (!sheet) throw new RangeError(`there is no sheet ${index + 1}`);
  return sheet;
};

answering<LogRequest>(async (asked, onProgress) => {
  switch (asked.do) {
    case "open": {
      const { source } = asked;
      const opened =
        source.is === "file"
          ? await openBytes(source.bytes, source.name)
          : openText(source.text, "what was pasted");
      sheets = opened.ok ? opened.sheets : [];
      return (
        opened.ok ? { ok: true, sheets: opened.sheets.map(({ name }) => name) } : opened
      ) satisfies LogOpened;
    }
    case "look":
      return lookAtLog(asked.kind, sheetAt(asked.sheet), asked.told);
    case "read":
      return readLog(
        asked.kind,
        sheetAt(asked.sheet),
        asked.mapping,
        onProgress,
        new Date().toISOString(),
      );
  }
});
