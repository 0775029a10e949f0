import { format, parseISO } from "date-fns";
import { useState } from "react";
import { withEvidence } from "../../jobs/diagnosis/changeInvestigation.ts";
import { evidenceInWords } from "../../jobs/diagnosis/inWords.ts";
import type { LogMapping } from "../../jobs/diagnosis/logMapping.ts";
import { type LogKind, type LogRole, rolesOf, unitChoices } from "../../jobs/diagnosis/logRoles.ts";
import type { LogQuestion } from "../../jobs/diagnosis/logTable.ts";
import { unitLabel, type Writer } from "../../jobs/display.ts";
import { type Evidence, evidence as evidenceSchema } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { useKeeping } from "../keptDraft.ts";
import { OneOf } from "../OneOf/OneOf.tsx";
import { useStore } from "../storeContext.ts";
import { About } from "./EvidenceForm.tsx";
import { keepLogDraft, type LogDraft } from "./evidenceDrafts.ts";
import { LogDoubts } from "./LogDoubts.tsx";
import { TwoPens } from "./TwoPens.tsx";
import type { Changing } from "./useChange.ts";
import { type Log, useLog } from "./useLog.ts";

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
      {look && <Columns kind={kind} log={log} />}
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
            <Stops stops={read.stops} />
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

function Columns({ kind, log }: { readonly kind: LogKind; readonly log: Log }) {
  const { look, sheets, sheet } = log;
  if (!look) return null;
  const { mapping, columns, questions, first, hasZones } = look;
  const tell = (to: Partial<LogMapping>) => void log.tell({ ...mapping, ...to });
  const choose = (role: LogRole, value: string) => {
    const { [role]: _, ...others } = mapping.columns;
    const { [role]: __, ...units } = mapping.units;
    // The units of the other columns stay as they were said.
    tell({ columns: value === "" ? others : { ...others, [role]: Number(value) }, units });
  };
  return (
    <div className="log-columns">
      {sheets.length > 1 && (
        <label>
          Sheet
          <select
            value={sheet}
            onChange={(event) => void log.chooseSheet(Number(event.target.value))}
          >
            {sheets.map((name, index) => (
              <option key={name} value={index}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      <p className="small">
        {look.rows.toLocaleString("en-US")} rows from <bdi>{log.name}</bdi>
      </p>
      {rolesOf(kind).map(({ id, label, dimension }) => (
        <div key={id} className="log-column">
          <label>
            {label}
            <select
              value={mapping.columns[id] ?? ""}
              onChange={(event) => choose(id, event.target.value)}
            >
              <option value="">not in the table</option>
              {columns.map(({ name, samples }, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place
                <option key={index} value={index}>
                  {name} ({samples[0] ?? "empty"})
                </option>
              ))}
            </select>
          </label>
          {dimension && mapping.columns[id] !== undefined && mapping.units[id] !== undefined && (
            <label>
              in
              <select
                aria-label={`Unit of ${label}`}
                value={mapping.units[id]}
                onChange={(event) =>
                  tell({ units: { ...mapping.units, [id]: event.target.value } })
                }
              >
                {unitChoices(dimension).map((unit) => (
                  <option key={unit} value={unit}>
                    {unitLabel(unit)}
                  </option>
                ))}
              </select>
            </label>
          )}
        </div>
      ))}
      {questions.map((question) => (
        <Question key={question.says} question={question} mapping={mapping} onTell={tell} />
      ))}
      {kind === "trend" && first !== undefined && (
        <Clock
          first={first}
          hasZones={hasZones}
          offset={mapping.offset ?? 0}
          onChoose={(offset) => tell({ offset })}
        />
      )}
    </div>
  );
}

interface QuestionProps {
  readonly question: LogQuestion;
  readonly mapping: LogMapping;
  readonly onTell: (to: Partial<LogMapping>) => void;
}

function Question({ question, mapping, onTell }: QuestionProps) {
  const { part, says } = question;
  return (
    <div className="log-question" role="alert">
      <p>
        <strong>{says}</strong>
      </p>
      {part === "unit" && (
        <OneOf
          legend={says}
          options={question.choices.map((value) => ({ value, says: unitWords(value) }))}
          chosen=""
          onChoose={(unit) => onTell({ units: { ...mapping.units, [question.role]: unit } })}
        />
      )}
      {part === "order" && (
        <OneOf
          legend={says}
          options={[
            { value: "day first", says: "the first: day first" },
            { value: "month first", says: "the second: month first" },
          ]}
          chosen=""
          onChoose={(order) => onTell({ order: order as "day first" | "month first" })}
        />
      )}
      {part === "decimals" && (
        <OneOf
          legend={says}
          options={[
            { value: "point", says: "the point" },
            { value: "comma", says: "the comma" },
          ]}
          chosen=""
          onChoose={(decimals) => onTell({ decimals: decimals as "point" | "comma" })}
        />
      )}
    </div>
  );
}

const counted: Readonly<Record<string, string>> = {
  psig: "psig, gauge",
  psia: "psia, absolute",
  barg: "barg, gauge",
  bara: "bara, absolute",
  kPag: "kPag, gauge",
  kPaa: "kPaa, absolute",
};
const unitWords = (unit: string) => counted[unit] ?? unitLabel(unit);

/** Half hours from UTC−12 to UTC+14. */
const offsets = Array.from({ length: 53 }, (_, index) => -720 + index * 30);

function offsetInWords(minutes: number): string {
  const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
  const two = (count: number) => String(count).padStart(2, "0");
  return `UTC${minutes < 0 ? "\u2212" : "+"}${two(hours)}:${two(rest)}`;
}

interface ClockProps {
  readonly first: string;
  readonly hasZones: boolean;
  readonly offset: number;
  readonly onChoose: (offset: number) => void;
}

/** By whose clock the times are. */
function Clock({ first, hasZones, offset, onChoose }: ClockProps) {
  if (hasZones) return <p className="small">The times say their own zone.</p>;
  const choices = offsets.includes(offset) ? offsets : [...offsets, offset];
  return (
    <label>
      The recorder's clock, which shows {first.replace("T", " ")} first and is not put forward in
      spring
      <select value={offset} onChange={(event) => onChoose(Number(event.target.value))}>
        {choices.map((each) => (
          <option key={each} value={each}>
            {offsetInWords(each)}
          </option>
        ))}
      </select>
    </label>
  );
}

/** As many stops as are read through; the picture after keeping shows them all. */
const SHOWN = 12;

function Stops({ stops }: { readonly stops: Extract<Evidence, { kind: "survey" }>["stops"] }) {
  const write = (of: { value: number; unit: string } | undefined) =>
    of ? `${of.value} ${unitLabel(of.unit)}` : "";
  return (
    <table className="log-stops figure">
      <thead>
        <tr>
          <th scope="col">Along hole</th>
          <th scope="col">Pressure</th>
          <th scope="col">Temperature</th>
        </tr>
      </thead>
      <tbody>
        {stops.slice(0, SHOWN).map((stop, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two stops may be alike, and none moves
          <tr key={index}>
            <td>{write(stop.depthAlongHole)}</td>
            <td>{write(stop.pressure)}</td>
            <td>{write(stop.temperature)}</td>
          </tr>
        ))}
        {stops.length > SHOWN && (
          <tr>
            <td colSpan={3}>and {stops.length - SHOWN} more</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
