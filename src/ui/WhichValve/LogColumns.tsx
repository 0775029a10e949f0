import type { LogMapping } from "../../jobs/diagnosis/logMapping.ts";
import { type LogKind, type LogRole, rolesOf, unitChoices } from "../../jobs/diagnosis/logRoles.ts";
import type { LogQuestion } from "../../jobs/diagnosis/logTable.ts";
import { unitLabel } from "../../jobs/display.ts";
import { OneOf } from "../OneOf/OneOf.tsx";
import type { Log } from "./useLog.ts";

interface LogColumnsProps {
  readonly kind: LogKind;
  readonly log: Log;
}

/** What each column of a table is taken for, in which unit, and what has to be asked of it. */
export function LogColumns({ kind, log }: LogColumnsProps) {
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
