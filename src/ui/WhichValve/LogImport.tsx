import { format } from "date-fns";
import { useState } from "react";
import { withEvidence } from "../../jobs/diagnosis/changeInvestigation.ts";
import type { EvidenceProblems } from "../../jobs/diagnosis/evidenceDraft.ts";
import { evidenceInWords } from "../../jobs/diagnosis/inWords.ts";
import { evidenceOfLog, type LogDraft } from "../../jobs/diagnosis/logEvidence.ts";
import type { LogKind } from "../../jobs/diagnosis/logRoles.ts";
import type { Writer } from "../../jobs/display.ts";
import type { Well } from "../../jobs/records/well.ts";
import { ChooseFile } from "../ChooseFile.tsx";
import { useKeeping } from "../keptDraft.ts";
import { useStore } from "../storeContext.ts";
import { About } from "./EvidenceForm.tsx";
import { keepLogDraft } from "./evidenceDrafts.ts";
import { LogColumns } from "./LogColumns.tsx";
import { LogDoubts } from "./LogDoubts.tsx";
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
  const [problems, setProblems] = useState<EvidenceProblems>({});
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
    const checked = evidenceOfLog(piece, draft, read, new Date().toISOString());
    setProblems(checked.ok ? {} : checked.problems);
    if (!checked.ok) return;
    const words = evidenceInWords(checked.evidence, well.injectionDown);
    if (await changing.change(withEvidence(checked.evidence), `Saved: ${words}.`)) await leave();
  };
  const { look, read, busy, problem } = log;
  return (
    <section className="card evidence-form" aria-label="A table as evidence">
      <h3>{kind === "trend" ? "Two pens from a table" : "A survey from a table"}</h3>
      <p>{what[kind]}</p>
      <div className="row">
        <ChooseFile
          label="Choose a file"
          accept=".csv,.tsv,.txt,.xlsx"
          onFile={(file) => void log.openFile(file)}
        />
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
          <LogDoubts log={log} well={well} writer={writer} />
          {kind === "trend" ? (
            <TwoPens title="As it was read" points={read.points} writer={writer} />
          ) : (
            <LogStops stops={read.stops} />
          )}
          {problems.any && <p className="problem">{problems.any}</p>}
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
