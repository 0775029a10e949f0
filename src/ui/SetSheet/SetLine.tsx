import type { Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { Given, ResultId } from "../../jobs/results/traced.ts";
import { ResultRow } from "../Working/ResultRow.tsx";

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
            Beside it, {row.label.toLowerCase()}: {writer.write(traced.dimension, row.si)} (
            {row.source}).
          </p>
        ))}
    </li>
  );
}

function inWords({ symbol, name, dimension, si, shown, origin }: Given, writer: Writer): string {
  const value = si === undefined ? "not known" : (shown ?? writer.write(dimension, si));
  const assumed = origin.kind === "assumed" ? ` (assumed: ${origin.why})` : "";
  return `${symbol} ${name.replace(/^./, (first) => first.toLowerCase())}: ${value}${assumed}`;
}
