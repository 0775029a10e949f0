import type { Column } from "../../jobs/tables/columns.ts";
import { type Mapping, mapTo, type Question, unitOptions } from "../../jobs/tables/mapping.ts";
import { fieldOf, tableKind } from "../../jobs/tables/tableKinds.ts";
import type { BringIn } from "./useBringIn.ts";

type ColumnQuestion = Extract<Question, { about: "column" }>;

/** Which column is what, in which unit, and what has to be said of it before its cells can be read. */
export function MappingCard({ bringIn }: { readonly bringIn: BringIn }) {
  const { look, mapping, study } = bringIn;
  if (!look || !mapping) return null;
  const questions = study?.questions ?? [];
  const open = questions.filter((question) => question.about === "mapping");
  const used = Object.keys(mapping.columns).length;
  return (
    <section className="card bring-mapping" aria-labelledby="bring-mapping">
      <h2 id="bring-mapping">What the columns are</h2>
      <p>
        {used} of {look.columns.length} columns are used
        {look.isRemembered ? ", as the last time a table with these columns was checked." : "."} A
        column that is left out changes nothing.
      </p>
      <ul className="bring-columns">
        {look.columns.map((column) => (
          <ColumnRow
            key={column.index}
            column={column}
            mapping={mapping}
            questions={questions.filter(
              (each): each is ColumnQuestion =>
                each.about === "column" && each.column === column.index,
            )}
            onMap={bringIn.map}
          />
        ))}
      </ul>
      {study?.gapsInWells && (
        <label className="bring-radio">
          <input
            type="checkbox"
            checked={mapping.fillDown}
            onChange={(event) => bringIn.map({ ...mapping, fillDown: event.target.checked })}
          />
          An empty cell in the well's column means the well above it
        </label>
      )}
      {open.map(({ ask }) => (
        <p key={ask} className="bring-ask">
          {ask}
        </p>
      ))}
    </section>
  );
}

interface ColumnProps {
  readonly column: Column;
  readonly mapping: Mapping;
  readonly questions: readonly ColumnQuestion[];
  readonly onMap: (mapping: Mapping) => void;
}

function ColumnRow({ column, mapping, questions, onMap }: ColumnProps) {
  const { index, name, samples, filled } = column;
  const map = mapping.columns[index];
  const field = map && fieldOf(mapping.kind, map.field);
  const { fields } = tableKind(mapping.kind);
  const taken = new Set(
    Object.entries(mapping.columns).flatMap(([at, of]) => (Number(at) === index ? [] : [of.field])),
  );
  const choose = (id: string) => {
    const { [index]: _, ...others } = mapping.columns;
    const columns = id === "" ? others : { ...others, [index]: mapTo(id, mapping.kind, name) };
    onMap({ ...mapping, columns });
  };
  const set = (part: ColumnQuestion["part"], value: string) => {
    if (!map) return;
    onMap({ ...mapping, columns: { ...mapping.columns, [index]: { ...map, [part]: value } } });
  };
  // An answered question stays where it was asked: it can be answered otherwise.
  const { options, said } = field ? unitOptions(field, name) : { options: [], said: undefined };
  const answered = map?.unit !== undefined && options.length > 1;
  const heading = `bring-column-${index}`;
  return (
    <li className={map ? "bring-column used" : "bring-column"}>
      <div className="bring-column-name">
        <strong id={heading}>
          <bdi>{name}</bdi>
        </strong>
        <span className="soft small bring-samples">
          {filled === 0
            ? "nothing in it"
            : samples.map((sample) => sample.slice(0, 40)).join(" · ")}
        </span>
      </div>
      <select
        aria-labelledby={heading}
        value={map?.field ?? ""}
        onChange={(event) => choose(event.target.value)}
      >
        <option value="">Left out</option>
        {fields.map(({ id, label }) => (
          <option key={id} value={id} disabled={taken.has(id)}>
            {label}
          </option>
        ))}
      </select>
      <div className="bring-column-unit">
        {answered && (
          <select
            aria-label={`Unit of ${name}`}
            value={map?.unit}
            onChange={(event) => set("unit", event.target.value)}
          >
            {options.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        )}
        {(["decimals", "days"] as const).map(
          (part) =>
            map?.[part] && (
              <button
                key={part}
                type="button"
                className="button quiet"
                onClick={() => {
                  const { [part]: _, ...rest } = map;
                  onMap({ ...mapping, columns: { ...mapping.columns, [index]: rest } });
                }}
              >
                {part === "decimals" ? `Decimal ${map.decimals}` : map.days}: change
              </button>
            ),
        )}
      </div>
      {field && <p className="soft small bring-means">{field.means}</p>}
      {questions.map(({ part, ask, options: choices }) => (
        <fieldset key={part} className="bring-ask">
          <legend>{ask}</legend>
          <div className="row">
            {choices.map(({ value, label }) => (
              <button key={value} type="button" className="button" onClick={() => set(part, value)}>
                {label}
              </button>
            ))}
          </div>
        </fieldset>
      ))}
      {said?.is === "foreign" && map?.unit && (
        <p className="bring-ask">
          The name says {said.word}; its numbers are read as {map.unit}.
        </p>
      )}
    </li>
  );
}
