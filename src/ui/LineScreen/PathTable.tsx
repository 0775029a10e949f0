import { displayUnit, type Writer } from "../../jobs/display.ts";
import { mandrelPlaces } from "../../jobs/results/mandrelPath.ts";
import type { Results } from "../../jobs/results/results.ts";
import "./PathTable.css";

interface PathTableProps {
  readonly results: Results;
  readonly writer: Writer;
}

/** How deep, how steep and how sharply turned the hole is at every mandrel. */
export function PathTable({ results, writer }: PathTableProps) {
  return (
    <div className="card">
      <h2>Hole at the mandrels</h2>
      <table className="path-table">
        <thead>
          <tr>
            <th scope="col">Mandrel</th>
            <th scope="col">True vertical</th>
            <th scope="col">Inclination</th>
            <th scope="col">Dogleg, {displayUnit(writer.system, "dogleg severity")}</th>
          </tr>
        </thead>
        <tbody>
          {mandrelPlaces(results.context).map(({ number, place }) => (
            <tr key={number}>
              <th scope="row">{number}</th>
              {place ? (
                <>
                  <td>{writer.write("length", place.vertical)}</td>
                  <td>{writer.write("angle", place.inclination)}</td>
                  <td>{writer.parts("dogleg severity", place.dogleg).number}</td>
                </>
              ) : (
                <td colSpan={3}>not known: needs the well path</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
