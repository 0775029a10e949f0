import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Given, ResultId } from "../../jobs/results/traced.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { unitLabel } from "../Working/unitLabel.ts";

interface SetLineProps {
  readonly id: ResultId;
  readonly results: Results;
  readonly writer: Writer;
}

/** One line of the sheet: the figure, and under it how it came about, so that print carries the working too. */
export function SetLine({ id, results, writer }: SetLineProps) {
  const traced = results.get(id);
  if (!traced) return null;
  return (
    <li className="set-line">
      <ResultRow id={id} results={results} writer={writer} />
      <p className="set-line-formula">{traced.method.formula}</p>
      <p className="small">{traced.givens.map((given) => inWords(given, writer)).join("; ")}</p>
      {traced.outcome.state === "known" &&
        traced.beside().map((row) => (
          <p key={row.label} className="small">
            Beside it, {row.label.toLowerCase()}: {figure(traced.dimension, row.si, writer)} (
            {row.source}).
          </p>
        ))}
    </li>
  );
}

function inWords({ symbol, name, dimension, si, shown, origin }: Given, writer: Writer): string {
  const value = si === undefined ? "not known" : (shown ?? figure(dimension, si, writer));
  const assumed = origin.kind === "assumed" ? ` (assumed: ${origin.why})` : "";
  return `${symbol} ${name.replace(/^./, (first) => first.toLowerCase())}: ${value}${assumed}`;
}

function figure(dimension: Given["dimension"], si: number, writer: Writer): string {
  const { number, unit } = writer.parts(dimension, si);
  return unit ? `${number} ${unitLabel(unit)}` : number;
}
