import { asEntered, type Writer } from "../../jobs/display.ts";
import type { Results } from "../../jobs/results/results.ts";
import { weakPoints } from "../../jobs/results/weakPoints.ts";
import { Figure } from "../Working/Figure.tsx";

interface WeakPointsProps {
  readonly results: Results;
  readonly writer: Writer;
}

/** What parts first, and what has been taken off the wire so far. */
export function WeakPoints({ results, writer }: WeakPointsProps) {
  const { line, strings } = results.context.programme;
  const points = weakPoints(results.context, strings.pull ? "pull" : "set");
  const stated = points.filter(({ stands }) => stands !== undefined);
  const unstated = points.filter(({ stands }) => stands === undefined);
  return (
    <div className="card">
      <h2>Weakest first</h2>
      <ol className="weak-points">
        {stated.map(({ name, stands }) => (
          <li key={name}>
            <span>{name}</span>
            <Figure dimension="force" si={stands as number} writer={writer} />
          </li>
        ))}
      </ol>
      {unstated.length > 0 && (
        <p className="small">
          What these stand is not on record: {unstated.map(({ name }) => name).join(", ")}.
        </p>
      )}
      <h3>Cut back</h3>
      {line?.cutBack && line.cutBack.length > 0 ? (
        <ul className="small">
          {line.cutBack.map(({ day, length, why }) => (
            <li key={day + length.value}>
              {day}: {asEntered(length)}
              {why && `, ${why}`}
            </li>
          ))}
        </ul>
      ) : (
        <p className="small">Nothing on record.</p>
      )}
    </div>
  );
}
