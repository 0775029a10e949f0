import { useMemo, useState } from "react";
import { describeWarning } from "../../calc/describeWarning.ts";
import type { Writer } from "../../jobs/display.ts";
import { originInWords } from "../../jobs/results/originInWords.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { AnyResultId, Given, Traced } from "../../jobs/results/traced.ts";
import { useDialog } from "../useDialog.ts";
import { Figure } from "./Figure.tsx";
import "./Working.css";

interface WorkingProps {
  readonly id: AnyResultId;
  readonly results: Results;
  readonly writer: Writer;
  readonly onClose: () => void;
}

/** How a number came about: formula, what went in and where that came from, source, range, warnings. */
export function WorkingDialog({ id, results, writer, onClose }: WorkingProps) {
  const dialog = useDialog();
  const [trail, setTrail] = useState<readonly AnyResultId[]>([id]);
  const shown = trail.at(-1) ?? id;
  const traced = results.get(shown);
  if (!traced) return null;
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="working-title">
      <div className="working">
        <h2 id="working-title">{traced.label}</h2>
        <Outcome traced={traced} writer={writer} />
        <p className="working-formula">{traced.method.formula}</p>
        <table>
          <caption className="hidden-label">What went in</caption>
          <thead>
            <tr>
              <th scope="col">Symbol</th>
              <th scope="col">What</th>
              <th scope="col">Value</th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            {traced.givens.map((given) => (
              <GivenRow
                key={given.symbol + given.name}
                given={given}
                writer={writer}
                onOpen={(next) => setTrail([...trail, next])}
              />
            ))}
          </tbody>
        </table>
        <BesideTable traced={traced} writer={writer} />
        {traced.warnings.length > 0 && (
          <ul className="working-warnings">
            {traced.warnings.map((warning) => {
              const words = describeWarning(warning, writer.measure);
              return (
                <li key={words} className="caution">
                  <span aria-hidden="true">!</span>
                  {words}
                </li>
              );
            })}
          </ul>
        )}
        <dl className="working-method">
          <dt>Method</dt>
          <dd>{traced.method.name}</dd>
          <dt>Source</dt>
          <dd>{traced.method.source}</dd>
          {traced.method.validity.map((validity) => (
            <div key={validity.quantity}>
              <dt>Range, {validity.quantity}</dt>
              <dd>
                {writer.measure(validity.measure, validity.from)} to{" "}
                {writer.measure(validity.measure, validity.to)} ({validity.basis})
              </dd>
            </div>
          ))}
        </dl>
        <div className="row">
          {trail.length > 1 && (
            <button type="button" className="button" onClick={() => setTrail(trail.slice(0, -1))}>
              Back
            </button>
          )}
          <button type="button" className="button next" onClick={onClose}>
            Close
          </button>
        </div>
      </div>
    </dialog>
  );
}

/** The figure by another method: what a crew used to charts would have read. */
function BesideTable({ traced, writer }: { readonly traced: Traced; readonly writer: Writer }) {
  const rows = useMemo(() => traced.beside(), [traced]);
  if (rows.length === 0) return null;
  return (
    <table>
      <caption>Beside it, for comparison only</caption>
      <tbody>
        {rows.map((row) => (
          <tr key={row.label}>
            <th scope="row">{row.label}</th>
            <td>
              <Figure dimension={traced.dimension} si={row.si} writer={writer} calculated />
            </td>
            <td>
              {row.formula} ({row.source})
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Outcome({ traced, writer }: { readonly traced: Traced; readonly writer: Writer }) {
  const { outcome, dimension } = traced;
  if (outcome.state === "known") {
    return (
      <p className="working-value">
        <Figure dimension={dimension} si={outcome.si} writer={writer} calculated />
      </p>
    );
  }
  return (
    <p className="problem">
      {outcome.state === "missing"
        ? `Not known. It needs: ${outcome.needs.join("; ")}.`
        : `No answer: ${outcome.why}.`}
    </p>
  );
}

interface GivenRowProps {
  readonly given: Given;
  readonly writer: Writer;
  readonly onOpen: (id: AnyResultId) => void;
}

function GivenRow({ given, writer, onOpen }: GivenRowProps) {
  const { origin } = given;
  return (
    <tr>
      <td>{given.symbol}</td>
      <td>{given.name}</td>
      <td>
        {given.si === undefined ? (
          <strong>not known</strong>
        ) : (
          (given.shown ?? (
            <Figure
              dimension={given.dimension}
              si={given.si}
              writer={writer}
              calculated={origin.kind === "calculated"}
            />
          ))
        )}
      </td>
      <td>
        {origin.kind === "calculated" ? (
          <button
            type="button"
            className="button working-open"
            onClick={() => onOpen(origin.result)}
          >
            its working
          </button>
        ) : (
          originInWords(origin)
        )}
      </td>
    </tr>
  );
}
