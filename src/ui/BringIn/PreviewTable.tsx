import { asEntered } from "../../jobs/display.ts";
import type { Study } from "../../jobs/tables/session.ts";

type PreviewRow = Study["preview"][number];

/** The first rows as they will be understood. */
export function PreviewTable({ rows }: { readonly rows: Study["preview"] }) {
  const labels = [
    ...new Set(rows.flatMap((row) => [...row.cells.map(({ label }) => label), ...row.bad])),
  ];
  if (labels.length === 0) return null;
  return (
    <section className="card bring-preview" aria-labelledby="bring-preview">
      <h2 id="bring-preview">The first rows, as they are understood</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways has to be reached by keyboard */}
      <section className="bring-scroll" tabIndex={0} aria-label="First rows">
        <table>
          <thead>
            <tr>
              <th scope="col">Row</th>
              {labels.map((label) => (
                <th key={label} scope="col">
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.row}>
                <th scope="row">{row.row}</th>
                {labels.map((label) =>
                  row.bad.includes(label) ? (
                    <td key={label} className="bring-bad">
                      not understood
                    </td>
                  ) : (
                    <td key={label}>
                      <bdi>{inWords(row, label)}</bdi>
                    </td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}

function inWords({ cells }: PreviewRow, label: string): string {
  const value = cells.find((cell) => cell.label === label)?.value;
  if (value === undefined) return "";
  return typeof value === "object" ? asEntered(value) : String(value).slice(0, 60);
}
