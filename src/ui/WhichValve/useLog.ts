import { useCallback, useEffect, useRef, useState } from "react";
import type { LogMapping } from "../../jobs/diagnosis/logMapping.ts";
import type { LogKind } from "../../jobs/diagnosis/logRoles.ts";
import type { LogLook } from "../../jobs/diagnosis/logTable.ts";
import type { LogRead } from "../../jobs/diagnosis/readLog.ts";
import type { Source } from "../../jobs/tables/session.ts";
import { readTableFile, sourceInWords } from "../readTableFile.ts";
import { Cancelled } from "../workerClient.ts";
import { LogClient } from "./logClient.ts";

/** By how much this tablet's clock ran ahead of UTC at a moment of its own, minutes. @param at 2026-11-20T09:00 */
const offsetAt = (at: string | undefined): number =>
  -new Date(at ?? Date.now()).getTimezoneOffset();

type Read = Extract<LogRead, { ok: true }>;

/** From a file or pasted cells to points, with what has to be said of the columns on the way. */
export function useLog(kind: LogKind) {
  const client = useRef<LogClient>(undefined);
  client.current ??= new LogClient();
  const [sheets, setSheets] = useState<readonly string[]>([]);
  const [sheet, setSheet] = useState(0);
  const [name, setName] = useState("");
  const [look, setLook] = useState<LogLook>();
  const [read, setRead] = useState<Read>();
  const [busy, setBusy] = useState<{ readonly done: number; readonly of: number }>();
  const [problem, setProblem] = useState("");
  useEffect(() => () => client.current?.cancel(), []);

  const during = useCallback(async (work: (reader: LogClient) => Promise<void>) => {
    setBusy({ done: 0, of: 0 });
    setProblem("");
    try {
      await work(client.current as LogClient);
    } catch (error) {
      setProblem(
        error instanceof Cancelled
          ? "Stopped. Nothing was kept. Choose the file again, or paste the cells again."
          : `That did not work: ${(error as Error).message}. Nothing was kept. Try again.`,
      );
    }
    setBusy(undefined);
  }, []);

  /** Looks at a sheet as somebody told, and reads it as soon as nothing is left to ask. */
  const lookAt = useCallback(
    async (reader: LogClient, which: number, told?: LogMapping) => {
      const seen = await reader.look(kind, which, told);
      const mapping = { ...seen.mapping, offset: seen.mapping.offset ?? offsetAt(seen.first) };
      setSheet(which);
      setLook({ ...seen, mapping });
      setRead(undefined);
      if (seen.questions.length > 0) return;
      const done = await reader.read(kind, which, mapping, (at, of) => setBusy({ done: at, of }));
      if (done.ok) setRead(done);
      else setProblem(done.why);
    },
    [kind],
  );

  const open = useCallback(
    (source: Source) => {
      setLook(undefined);
      setRead(undefined);
      setName(sourceInWords(source));
      return during(async (reader) => {
        const opened = await reader.open(source);
        if (!opened.ok) {
          setProblem(opened.why);
          return;
        }
        setSheets(opened.sheets);
        await lookAt(reader, 0);
      });
    },
    [during, lookAt],
  );

  const openFile = useCallback(
    async (file: File) => {
      const found = await readTableFile(
        file,
        "Save only the days that are wanted in a file of its own.",
      );
      if (found.ok) await open(found.source);
      else setProblem(found.why);
    },
    [open],
  );

  return {
    sheets,
    sheet,
    name,
    look,
    read,
    busy,
    problem,
    open,
    openFile,
    chooseSheet: (which: number) => during((reader) => lookAt(reader, which)),
    tell: (told: LogMapping) => during((reader) => lookAt(reader, sheet, told)),
    cancel: () => client.current?.cancel(),
  };
}
export type Log = ReturnType<typeof useLog>;
