import { tableKinds } from "../../jobs/tables/tableKinds.ts";
import type { BringIn } from "./useBringIn.ts";

/** Which sheet, what it is a table of, and where its names stand. */
export function SheetCard({ bringIn }: { readonly bringIn: BringIn }) {
  const { opened, sheet, look, mapping } = bringIn;
  if (!opened) return null;
  const { sheets } = opened;
  return (
    <section className="card bring-sheet" aria-labelledby="bring-sheet">
      <h2 id="bring-sheet">The table</h2>
      {sheets.length > 1 && (
        <fieldset className="bring-choice">
          <legend>Which sheet?</legend>
          {sheets.map(({ name, rows }, index) => (
            <label key={name} className="bring-radio">
              <input
                type="radio"
                name="bring-sheet"
                checked={sheet === index}
                onChange={() => bringIn.chooseSheet(index)}
              />
              <bdi>{name}</bdi> <span className="soft small">{rows} rows</span>
            </label>
          ))}
        </fieldset>
      )}
      {look && mapping && (
        <>
          <fieldset className="bring-choice">
            <legend>What is it a table of?</legend>
            {tableKinds.map(({ id, title, row }) => (
              <label key={id} className="bring-radio" title={`A row is ${row}.`}>
                <input
                  type="radio"
                  name="bring-kind"
                  checked={mapping.kind === id}
                  onChange={() => bringIn.chooseHeader(look.header, id)}
                />
                {title}
              </label>
            ))}
          </fieldset>
          <HeaderChoice bringIn={bringIn} />
        </>
      )}
    </section>
  );
}

function HeaderChoice({ bringIn }: { readonly bringIn: BringIn }) {
  const { opened, sheet, look, mapping } = bringIn;
  const top = opened?.sheets[sheet ?? 0]?.top ?? [];
  if (!look || !mapping) return null;
  const { row, rows } = look.header;
  return (
    <div className="row bring-header">
      <label>
        The columns' names stand in
        <select
          value={row}
          onChange={(event) =>
            bringIn.chooseHeader({ row: Number(event.target.value), rows }, mapping.kind)
          }
        >
          {top.map((cells, index) => {
            const words = cells.filter((cell) => cell !== "").join(" | ");
            return words === "" ? null : (
              // biome-ignore lint/suspicious/noArrayIndexKey: a row of a file is its number
              <option key={index} value={index}>
                row {index + 1}: {words.slice(0, 70)}
              </option>
            );
          })}
        </select>
      </label>
      <label className="bring-radio">
        <input
          type="checkbox"
          checked={rows === 2}
          onChange={(event) =>
            bringIn.chooseHeader({ row, rows: event.target.checked ? 2 : 1 }, mapping.kind)
          }
        />
        and in the row below it
      </label>
      <span className="soft">
        {look.rows.toLocaleString("en-US")} {look.rows === 1 ? "row" : "rows"} below
        {row > 0 && `, ${row} above left out`}
      </span>
    </div>
  );
}
