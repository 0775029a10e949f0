import { useDeferredValue, useMemo, useState } from "react";
import { stateOf, whereInWords } from "../../jobs/library/places.ts";
import { entriesOf, find } from "../../jobs/library/search.ts";
import { useLibraryView } from "./useLibraryIndex.ts";
import "./Library.css";

/** As many as are looked over without scrolling. */
const MOST = 6;

interface ValvePickerProps {
  /** of the field that it is */
  readonly marks: Readonly<Record<string, string | boolean | undefined>>;
  readonly what: string;
  /** by its id */
  readonly valve: string | undefined;
  readonly onChoose: (valve: string | undefined) => void;
}

/** One valve out of thousands, by what is typed of it. */
export function ValvePicker({ marks, what, valve, onChoose }: ValvePickerProps) {
  const { shelves, places } = useLibraryView();
  const [query, setQuery] = useState("");
  const asked = useDeferredValue(query);
  const chosen = useMemo(
    () =>
      valve === undefined ? undefined : entriesOf(shelves.valves).find(({ id }) => id === valve),
    [shelves, valve],
  );
  const found = useMemo(
    () =>
      asked.trim() === ""
        ? undefined
        : find(shelves, { query: asked, kind: "valves", most: MOST }, (each) =>
            stateOf(each, places),
          ),
    [shelves, places, asked],
  );
  const choose = (id: string | undefined) => {
    onChoose(id);
    setQuery("");
  };
  return (
    <div className="valve-picker">
      {valve !== undefined && (
        <p className="valve-chosen">
          <span>
            {chosen ? (
              <>
                <strong>{chosen.name}</strong>, {chosen.says} ({whereInWords(chosen, places)})
              </>
            ) : (
              "A valve that is not in the library."
            )}
          </span>
          <button type="button" className="button quiet" onClick={() => choose(undefined)}>
            None
          </button>
        </p>
      )}
      <input
        {...marks}
        type="search"
        autoComplete="off"
        placeholder={valve === undefined ? "Serial or words" : "Another: serial or words"}
        value={query}
        onChange={(event) => setQuery(event.target.value)}
      />
      {found && (
        <ul className="valve-found" aria-label={`${what}: found`}>
          {found.entries.map((entry) => (
            <li key={entry.id}>
              <button type="button" className="button" onClick={() => choose(entry.id)}>
                <strong>{entry.name}</strong>
                <span className="small">
                  {entry.says}; {whereInWords(entry, places)}
                </span>
              </button>
            </li>
          ))}
          {found.total > found.entries.length && (
            <li className="small">{found.total - found.entries.length} more: type on.</li>
          )}
          {found.total === 0 && <li className="small">No valve is found by these words.</li>}
        </ul>
      )}
    </div>
  );
}
