import { unitLabel } from "../../jobs/display.ts";
import type { Mapping, Question } from "../../jobs/tables/mapping.ts";
import type { BringIn } from "./useBringIn.ts";

type TableQuestion = Extract<Question, { about: "table" }>;

/** What the table does not say and its records need, said once for all its rows. */
export function WholeTable({ bringIn }: { readonly bringIn: BringIn }) {
  const { outcome, mapping } = bringIn;
  const questions = (outcome?.questions ?? []).filter(
    (question): question is TableQuestion => question.about === "table",
  );
  if (questions.length === 0 || !mapping) return null;
  return (
    <section className="card bring-whole" aria-labelledby="bring-whole">
      <h2 id="bring-whole">Said once for the whole table</h2>
      <p>The table does not say this, and the records need it. Nothing is made up for you.</p>
      <div className="bring-answers">
        {questions.map((question) => (
          <Answer
            key={question.id}
            question={question}
            mapping={mapping}
            onAnswer={(said) =>
              bringIn.map({ ...mapping, answers: { ...mapping.answers, [question.id]: said } })
            }
          />
        ))}
      </div>
    </section>
  );
}

interface AnswerProps {
  readonly question: TableQuestion;
  readonly mapping: Mapping;
  readonly onAnswer: (said: string) => void;
}

function Answer({ question, mapping, onAnswer }: AnswerProps) {
  const { id, ask, means, answer } = question;
  const said = mapping.answers[id] ?? "";
  const mark = `bring-answer-${id}`;
  const [, number = said, unit = ""] = /^(.*) (ft|m)$/.exec(said) ?? [];
  return (
    <div className="bring-answer">
      <label htmlFor={mark}>{ask}</label>
      {answer.kind === "choice" && (
        <select
          id={mark}
          value={said}
          aria-describedby={`${mark}-means`}
          onChange={(event) => onAnswer(event.target.value)}
        >
          <option value="">Choose</option>
          {answer.options.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      )}
      {(answer.kind === "text" || answer.kind === "day") && (
        <input
          id={mark}
          type={answer.kind === "day" ? "date" : "text"}
          maxLength={400}
          autoComplete="off"
          value={said}
          aria-describedby={`${mark}-means`}
          onChange={(event) => onAnswer(event.target.value)}
        />
      )}
      {answer.kind === "quantity" && (
        <div className="bring-quantity">
          <input
            id={mark}
            inputMode="decimal"
            autoComplete="off"
            value={number}
            aria-describedby={`${mark}-means`}
            onChange={(event) => onAnswer(joined(event.target.value, unit))}
          />
          <select
            aria-label={`Unit: ${ask}`}
            value={unit}
            onChange={(event) => onAnswer(joined(number, event.target.value))}
          >
            <option value="">Unit</option>
            {answer.units.map((each) => (
              <option key={each} value={each}>
                {unitLabel(each)}
              </option>
            ))}
          </select>
        </div>
      )}
      <p id={`${mark}-means`} className="soft small">
        {means}
      </p>
    </div>
  );
}

const joined = (number: string, unit: string) => (unit === "" ? number : `${number} ${unit}`);
