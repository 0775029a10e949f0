import { format } from "date-fns";
import { useMemo } from "react";
import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import {
  fromToInWords,
  type MeasuredInput,
  type Moved,
  measuredInputs,
  movedInWords,
} from "../../jobs/review/measuredInputs.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import { Figure } from "../Working/Figure.tsx";
import { WorkingFigure } from "../Working/WorkingFigure.tsx";
import type { AskSlot } from "./askSlot.ts";

interface MeasuredInputsProps {
  readonly state: JobState;
  readonly writer: Writer;
  /** mandrel, by its id */
  readonly pocket: string;
  readonly ask?: AskSlot | undefined;
}

/** What the programme took as given, what was measured, and what that moved. */
export function MeasuredInputs({ state, writer, pocket, ask }: MeasuredInputsProps) {
  const found = useMemo(() => measuredInputs(state, writer, pocket), [state, writer, pocket]);
  if (!found || found.inputs.length === 0) return null;
  const { inputs, together, levelledAt, results } = found;
  return (
    <section className="card review-section" aria-label="Measured inputs">
      <h2>Measured inputs</h2>
      <p>
        {levelledAt
          ? `As they stood when the pocket was last found level, ${format(new Date(levelledAt), "d MMM HH:mm")}.`
          : "As they were last read: no release says that the pocket was level."}
      </p>
      <table className="review-table">
        <caption className="hidden-label">What was measured, and what it alone moved</caption>
        <thead>
          <tr>
            <th scope="col">Input</th>
            <th scope="col">Planned</th>
            <th scope="col">Measured</th>
            <th scope="col">Difference</th>
            <th scope="col">What it alone moved</th>
          </tr>
        </thead>
        <tbody>
          {inputs.map((input) => (
            <tr key={input.measurement}>
              <th scope="row">
                {input.label}
                <span className="review-when small soft">
                  {format(new Date(input.at), "d MMM HH:mm")}, {input.by}
                </span>
                {ask?.({ kind: "event", event: input.event }, input.label)}
              </th>
              <td data-name="planned">
                {input.planned !== undefined && (
                  <Figure
                    dimension={input.dimension}
                    si={input.planned}
                    writer={writer}
                    calculated
                  />
                )}
              </td>
              <td data-name="measured">
                <Figure dimension={input.dimension} si={input.measured} writer={writer} />
              </td>
              <td data-name="difference">{movedInWords(input, writer)}</td>
              <td data-name="" className="review-moved">
                <WhatMoved input={input} writer={writer} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Together moved={together} results={results} writer={writer} />
    </section>
  );
}

function WhatMoved({ input, writer }: { readonly input: MeasuredInput; readonly writer: Writer }) {
  if (input.measurement === "hanging weight") {
    return "Goes into no calculation: it is held against what is expected.";
  }
  if (input.moved.length === 0) return "None of the figures that matter.";
  return (
    <ul className="small">
      {input.moved.map((each) => (
        <li key={each.id}>
          {each.label}: {fromToInWords(each, writer)}
        </li>
      ))}
    </ul>
  );
}

interface TogetherProps {
  readonly moved: readonly Moved[];
  readonly results: Results;
  readonly writer: Writer;
}

function Together({ moved, results, writer }: TogetherProps) {
  if (moved.length === 0) return <p>Together they moved none of the figures that matter.</p>;
  return (
    <table className="review-table">
      <caption>All of them together</caption>
      <thead>
        <tr>
          <th scope="col">Result</th>
          <th scope="col">Planned</th>
          <th scope="col">Expected</th>
          <th scope="col">Difference</th>
        </tr>
      </thead>
      <tbody>
        {moved.map((each) => (
          <tr key={each.id}>
            <th scope="row">{each.label}</th>
            <td data-name="planned">
              {each.planned !== undefined && (
                <Figure dimension={each.dimension} si={each.planned} writer={writer} calculated />
              )}
            </td>
            <td data-name="expected">
              <WorkingFigure id={each.id} results={results} writer={writer} />
            </td>
            <td data-name="difference">{movedInWords(each, writer)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
