import { useMemo } from "react";
import type { Writer } from "../../jobs/display.ts";
import { type DriftRow, driftTable } from "../../jobs/results/driftTable.ts";
import type { Results } from "../../jobs/results/results.ts";
import { Ring } from "../Ring/Ring.tsx";
import { Figure } from "../Working/Figure.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";

interface DriftProps {
  readonly results: Results;
  readonly writer: Writer;
}

/** Every tool against every bore on its way; what does not pass is said first, and said loudly. */
export function Drift({ results, writer }: DriftProps) {
  const { rows, needs } = useMemo(() => driftTable(results), [results]);
  const failing = rows.filter(({ passes }) => !passes);
  const [tightest, ...rest] = rows.filter(({ passes }) => passes);
  return (
    <section className="drift" aria-labelledby="drift-title">
      <h2 id="drift-title">Tools against bores</h2>
      {needs.length > 0 && <p className="problem">Not all known: needs {needs.join("; ")}.</p>}
      {rows.length > 0 && (
        <p>
          {failing.length > 0
            ? `${failing.length} of ${rows.length} pairs do not pass. It does not go in.`
            : needs.length > 0
              ? "Of the pairs that are known none fails. The tightest:"
              : "Every tool is smaller than every bore on its way. The tightest:"}
        </p>
      )}
      <ul className="drift-rows">
        {failing.map((row, index) => (
          // Two tools of a string can be alike in everything.
          <Row key={keyOf(row, index)} row={row} writer={writer} />
        ))}
        {tightest && <Row row={tightest} writer={writer} />}
      </ul>
      {rest.length > 0 && (
        <details className="card drift-rest">
          <summary>The other {rest.length} that pass, tightest first</summary>
          <ul className="drift-rows">
            {rest.map((row, index) => (
              <Row key={keyOf(row, index)} row={row} writer={writer} />
            ))}
          </ul>
        </details>
      )}
      <ResultRow id="drift-clearance" results={results} writer={writer} />
    </section>
  );
}

const keyOf = ({ string, tool, restriction }: DriftRow, index: number) =>
  `${string} ${tool} ${restriction} ${index}`;

function Row({ row, writer }: { readonly row: DriftRow; readonly writer: Writer }) {
  const { string, tool, outsideDiameter, restriction, depth, bore, byGauge, clearance, passes } =
    row;
  return (
    <li className={passes ? "drift-row" : "drift-row fails"}>
      <Ring shape={passes ? "released" : "fails"} size={30} silent />
      <div>
        <p>
          <strong>{tool}</strong>, {writer.write("diameter", outsideDiameter)}
        </p>
        <p>
          {byGauge ? "behind the gauge of" : "through"} {writer.write("diameter", bore)}:{" "}
          {restriction}
          {depth !== undefined && depth > 0 && ` at ${writer.write("length", depth)}`}
        </p>
        <p className="small soft">{string}</p>
      </div>
      <p className="drift-clearance">
        <Figure dimension="diameter" si={Math.abs(clearance)} writer={writer} calculated />
        <span className="small">{passes ? "to spare" : "too large"}</span>
      </p>
    </li>
  );
}
