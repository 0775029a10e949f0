import { format, parseISO } from "date-fns";
import { useState } from "react";
import { withEvidence } from "../../jobs/diagnosis/changeInvestigation.ts";
import { evidenceInWords } from "../../jobs/diagnosis/inWords.ts";
import type { LogKind } from "../../jobs/diagnosis/logRoles.ts";
import type { Writer } from "../../jobs/display.ts";
import { evidence as evidenceSchema } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { useKeeping } from "../keptDraft.ts";
import { useStore } from "../storeContext.ts";
import { About } from "./EvidenceForm.tsx";
import { keepLogDraft, type LogDraft } from "./evidenceDrafts.ts";
import { LogColumns } from "./LogColumns.tsx";
import { LogStops } from "./LogStops.tsx";
import { TwoPens } from "./TwoPens.tsx";
import type { Changing } from "./useChange.ts";
import { useLog } from "./useLog.ts";

interface LogImportProps {
  readonly kind: LogKind;
  readonly well: Well;
  /** of the investigation */
  readonly id: string;
  readonly writer: Writer;
  readonly kept: LogDraft | undefined;
  readonly changing: Changing;
  readonly onDone: () => void;
}

const blank: LogDraft = { text: "", source: "", confidence: "fair", remark: "" };
const blankOf = (kind: LogKind): LogDraft =>
  kind === "trend"
    ? blank
    : {
        ...blank,
        day: format(new Date(), "yyyy-MM-dd"),
        time: format(new Date(), "HH:mm"),
      };
const what = {
  trend: "Columns for time and for casing, tubing or injection rate, with their names above them.",
  survey: "Columns for depth along hole and for pressure or temperature, with their names above.",
} as const;

/** A recorder's table or a gauge run's: read, seen as a picture, then kept. */
export function LogImport({ kind, well, id, writer, kept, changing, onDone }: LogImportProps) {
  const store = useStore();
  const log = useLog(kind);
  const [draft, setDraft] = useState<LogDraft>(() => kept ?? blankOf(kind));
  const [problems, setProblems] = useState<Readonly<Record<string, string>>>({});
  const [piece] = useState(() => crypto.randomUUID());
  useKeeping<LogDraft | undefined>(draft, kept ?? draft, (now, changed) =>
    keepLogDraft(store, id, kind, now, changed),
  );
  const leave = async () => {
    await keepLogDraft(store, id, kind, undefined).catch(() => {});
    onDone();
  };
  const keep = async () => {
    const { read } = log;
    if (!read) return;
    if (draft.source.trim() === "") {
      setProblems({ source: "Say where it comes from: recorder and its number, or historian." });
      return;
    }
    const ranAt = parseISO(`${draft.day}T${draft.time}`);
    if (kind === "survey" && !(ranAt.getTime() <= Date.now())) {
      setProblems({ at: "Enter day and time at which it was run, not later than now." });
      return;
    }
    const remark = draft.remark.trim();
    const checked = evidenceSchema.safeParse({
      id: piece,
      kind,
      at: kind === "trend" ? read.points[0]?.at : ranAt.toISOString(),
      source: draft.source.trim(),
      confidence: draft.confidence,
      ...(remark !== "" && { remark }),
      ...(kind === "trend" ? { points: read.points } : { stops: read.stops }),
    });
    if (!checked.success) {
      const [issue] = checked.error.issues;
      setProblems({ source: `${issue?.path.join(", ")}: ${issue?.message}` });
      return;
    }
    const words = evidenceInWords(checked.data, well.injectionDown);
    if (await changing.change(withEvidence(checked.data), `Saved: ${words}.`)) await leave();
  };
  const { look, read, busy, problem } = log;
  return (
    <section className="card evidence-form" aria-label="A table as evidence">
      <h3>{kind === "trend" ? "Two pens from a table" : "A survey from a table"}</h3>
      <p>{what[kind]}</p>
      <div className="row">
        <label className="button">
          Choose a file
          <input
            type="file"
            className="hidden-label"
            accept=".csv,.tsv,.txt,.xlsx"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = "";
              if (file) void log.openFile(file);
            }}
          />
        </label>
        <span className="small soft">CSV or a workbook (.xlsx), or paste the cells:</span>
      </div>
      <label>
        Cells pasted
        <textarea
          className="log-pasted"
          rows={5}
          spellCheck={false}
          value={draft.text}
          onChange={(event) => setDraft({ ...draft, text: event.target.value })}
        />
      </label>
      <div className="row">
        <button
          type="button"
          className="button"
          disabled={draft.text.trim() === ""}
          onClick={() => void log.open({ is: "pasted", text: draft.text })}
        >
          Read what is pasted
        </button>
      </div>
      {busy && (
        <div className="row">
          <span role="status">Reading the table…</span>
          {busy.of > 0 && (
            <progress value={busy.done} max={busy.of} aria-label="How far it is read" />
          )}
          <button type="button" className="button" onClick={log.cancel}>
            Stop reading
          </button>
        </div>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {look && <LogColumns kind={kind} log={log} />}
      {read && (
        <>
          {read.said.length > 0 && (
            <ul className="log-said small">
              {read.said.map((words) => (
                <li key={words}>{words}</li>
              ))}
            </ul>
          )}
          {kind === "trend" ? (
            <TwoPens title="As it was read" points={read.points} writer={writer} />
          ) : (
            <LogStops stops={read.stops} />
          )}
          <About
            draft={draft}
            problems={problems}
            onChange={(to) => setDraft({ ...draft, ...to })}
          />
          {changing.problem && (
            <p className="problem" role="alert">
              {changing.problem}
            </p>
          )}
        </>
      )}
      <div className="row">
        {read && (
          <button type="button" className="button next" onClick={() => void keep()}>
            Keep this {kind === "trend" ? "trend" : "survey"}
          </button>
        )}
        <button type="button" className="button quiet" onClick={() => void leave()}>
          Drop it
        </button>
      </div>
    </section>
  );
}
