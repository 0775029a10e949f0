import { useCallback, useEffect, useRef, useState } from "react";
import type { Trajectory } from "../../jobs/files/witsml.ts";
import type { Well } from "../../jobs/records/well.ts";
import { Outdated } from "../../jobs/store/store.ts";
import type { Header } from "../../jobs/tables/header.ts";
import type { Mapping } from "../../jobs/tables/mapping.ts";
import type { Outcome, SheetLook, SheetSummary, Source, Study } from "../../jobs/tables/session.ts";
import type { TableKindId } from "../../jobs/tables/tableKinds.ts";
import { readTableFile, sourceInWords } from "../readTableFile.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { Cancelled } from "../workerClient.ts";
import { keepMappings, rememberedMappings } from "./rememberedMappings.ts";
import { TableClient } from "./tableClient.ts";

export interface Opened {
  readonly name: string;
  readonly source: Source;
  readonly sheets: readonly SheetSummary[];
}

/** What is under way, with how far it is where that is known. */
export interface Busy {
  readonly what: string;
  readonly done?: number;
  readonly of?: number;
}

export interface Written {
  readonly name: string;
  readonly new: number;
  readonly changed: number;
  readonly same: number;
  /** the wells of it that are new or changed */
  readonly wells: readonly Well[];
}

/** The one flow from a source to records: what was mapped stays until it is in, whatever is refused on the way. */
export function useBringIn() {
  const store = useStore();
  const client = useRef<TableClient>(undefined);
  client.current ??= new TableClient();
  const [opened, setOpened] = useState<Opened>();
  const [surveys, setSurveys] = useState<{ name: string; trajectories: readonly Trajectory[] }>();
  const [sheet, setSheet] = useState<number>();
  const [look, setLook] = useState<SheetLook>();
  const [mapping, setMapping] = useState<Mapping>();
  const [study, setStudy] = useState<Study>();
  const [outcome, setOutcome] = useState<Outcome>();
  const [busy, setBusy] = useState<Busy>();
  const [problem, setProblem] = useState("");
  const [said, setSaid] = useState("");
  const [written, setWritten] = useState<Written>();

  /** Settles when the rows are held again after something was given up. */
  const reopened = useRef<Promise<void>>(Promise.resolve());

  useEffect(() => () => client.current?.cancel(), []);

  /** Does one thing at a time, and says why it did not come about. */
  const during = useCallback(async (what: string, work: (reader: TableClient) => Promise<void>) => {
    setBusy({ what });
    setProblem("");
    setSaid("");
    try {
      await reopened.current;
      await work(client.current as TableClient);
    } catch (error) {
      if (error instanceof Cancelled) setSaid("Stopped. Nothing was written.");
      else
        setProblem(
          `That did not work: ${(error as Error).message}. Nothing was written. Try again.`,
        );
    }
    setBusy(undefined);
  }, []);

  const forget = useCallback(() => {
    setLook(undefined);
    setMapping(undefined);
    setStudy(undefined);
    setOutcome(undefined);
  }, []);

  const lookAt = useCallback(
    async (reader: TableClient, which: number, header?: Header, kind?: TableKindId) => {
      const seen = await reader.look(which, rememberedMappings(), header, kind);
      setSheet(which);
      setLook(seen);
      setMapping(seen.mapping);
      setOutcome(undefined);
      setStudy(await reader.study(seen.mapping));
    },
    [],
  );

  const openSource = useCallback(
    (source: Source) => {
      const name = sourceInWords(source);
      setWritten(undefined);
      setSurveys(undefined);
      setOpened(undefined);
      setSheet(undefined);
      forget();
      return during(`Opening ${name}`, async (reader) => {
        const result = await reader.open(source);
        if (result.is === "refused") setProblem(`${name}: ${result.why}`);
        else if (result.is === "surveys") setSurveys({ name, trajectories: result.trajectories });
        else {
          setOpened({ name, source, sheets: result.sheets });
          if (result.sheets.length === 1) await lookAt(reader, 0);
        }
      });
    },
    [during, forget, lookAt],
  );

  const openFile = useCallback(
    async (file: File) => {
      const found = await readTableFile(
        file,
        "Save only the sheet that is wanted in a file of its own.",
      );
      if (found.ok) await openSource(found.source);
      else setProblem(found.why);
    },
    [openSource],
  );

  const chooseSheet = (which: number) => {
    forget();
    setSheet(which);
    void during("Looking at the sheet", (reader) => lookAt(reader, which));
  };

  const chooseHeader = (header: Header, kind?: TableKindId) => {
    if (sheet === undefined) return;
    void during("Looking at the sheet", (reader) => lookAt(reader, sheet, header, kind));
  };

  /** A change of the mapping: what was found out under the old one no longer holds. */
  const map = (changed: Mapping) => {
    setMapping(changed);
    setWritten(undefined);
    setProblem("");
    // Questions for the whole table stay, so that one answer after the other can be given.
    setOutcome((before) =>
      before && changed.columns === mapping?.columns ? asked(before) : undefined,
    );
    reopened.current.then(() => client.current?.study(changed)).then(setStudy, () => {});
  };

  const check = () => {
    if (!mapping) return;
    void during("Reading the table", async (reader) => {
      const { wells, valves, tools } = await store.recordsFor({
        whole: ["wells", "valves", "tools"],
      });
      const read = await reader.read(
        mapping,
        { wells, valves, tools },
        rememberedMappings(),
        (done, of) => setBusy({ what: "Reading the table", done, of }),
      );
      // Refused or not, the next table with these columns begins with what was said of this one.
      keepMappings(read.remembered);
      setOutcome(read);
    });
  };

  const write = () => {
    if (!outcome?.ok || !opened) return;
    const { records, counts } = outcome;
    void during("Writing", async () => {
      try {
        const copy = {
          made: new Date().toISOString(),
          why: `before ${opened.name} was brought in`,
        };
        await store.receive({ records, events: [], copy });
        setWritten({ name: opened.name, ...counts, wells: records.wells });
        setOutcome(undefined);
      } catch (error) {
        if (error instanceof Outdated) {
          setOutcome(undefined);
          setProblem(
            "Nothing was written: a record was changed on this device while you were looking. The mapping is kept: check the table again.",
          );
        } else setProblem(notSaved(error));
      }
    });
  };

  /** Ends what is under way; the source and the mapping stay, and its rows are opened again for what is asked next. */
  const cancel = () => {
    const reader = client.current as TableClient;
    reader.cancel();
    if (!opened) return;
    const again = async () => {
      await reader.open(opened.source);
      if (sheet !== undefined && look) await reader.look(sheet, [], look.header, mapping?.kind);
    };
    reopened.current = again().catch(() => {});
  };

  const startOver = () => {
    client.current?.cancel();
    setOpened(undefined);
    setSurveys(undefined);
    setSheet(undefined);
    setWritten(undefined);
    setProblem("");
    setSaid("");
    forget();
  };

  return {
    opened,
    surveys,
    sheet,
    look,
    mapping,
    study,
    outcome,
    busy,
    problem,
    said,
    written,
    openFile,
    openSource,
    chooseSheet,
    chooseHeader,
    map,
    check,
    write,
    cancel,
    startOver,
  };
}

export type BringIn = ReturnType<typeof useBringIn>;

/** What was asked for the whole table, without what was found of it. */
function asked({ questions, remembered }: Outcome): Outcome {
  return { ok: false, open: [], questions, problems: [], count: 0, remembered };
}
