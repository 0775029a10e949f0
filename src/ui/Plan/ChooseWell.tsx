import { useDeferredValue, useMemo, useState } from "react";
import { Link } from "wouter";
import type { Well } from "../../jobs/records/well.ts";

const MOST_SHOWN = 12;

/** Letters and digits as they are said: "em7" finds EM-07. */
const plain = (words: string) => words.toLowerCase().replace(/[\s\-_./]/g, "");
const loose = (words: string) => plain(words).replace(/0+(?=\d)/g, "");

interface ChooseWellProps {
  readonly wells: readonly Well[];
  readonly onChoose: (id: string) => void;
}

/** One of thousands of wells, by a few letters of its name or field. */
export function ChooseWell({ wells, onChoose }: ChooseWellProps) {
  const [typed, setTyped] = useState("");
  const sought = useDeferredValue(typed);
  const index = useMemo(
    () =>
      wells
        .map((well) => ({ well, name: loose(well.name), all: loose(`${well.name} ${well.field}`) }))
        .sort((a, b) => a.well.name.localeCompare(b.well.name, "en", { numeric: true })),
    [wells],
  );
  const found = useMemo(() => {
    const wanted = loose(sought);
    const begins = index.filter(({ name }) => name.startsWith(wanted));
    const holds = index.filter(({ name, all }) => !name.startsWith(wanted) && all.includes(wanted));
    return [...begins, ...holds].map(({ well }) => well);
  }, [index, sought]);
  const [first] = found;
  return (
    <section className="plan-wells" aria-labelledby="plan-wells">
      <h2 id="plan-wells">Which well?</h2>
      {wells.length === 0 ? (
        <>
          <p>
            No well is on this tablet yet, and a plan begins with a well. Bring in the office's
            table of wells and mandrels, or import a pack on the board.
          </p>
          <div className="row">
            <Link href="/bring-in" className="button next">
              Bring in tables
            </Link>
            <Link href="/new/wells" className="button">
              Enter a well
            </Link>
            <Link href="/" className="button">
              To the board
            </Link>
          </div>
        </>
      ) : (
        <>
          <form
            onSubmit={(event) => {
              event.preventDefault();
              if (first) onChoose(first.id);
            }}
          >
            <label htmlFor="plan-well" className="plan-wells-label">
              Name or field, a few letters will do
            </label>
            <input
              id="plan-well"
              autoComplete="off"
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
            />
          </form>
          <p className="small soft" role="status">
            {found.length === 0
              ? `No well of ${wells.length} has "${sought}" in its name or field.`
              : found.length > MOST_SHOWN
                ? `${MOST_SHOWN} of ${found.length}; type on for fewer.`
                : `${found.length} of ${wells.length}.`}
          </p>
          <ul>
            {found.slice(0, MOST_SHOWN).map((well) => (
              <li key={well.id}>
                <button
                  type="button"
                  className="button plan-well"
                  onClick={() => onChoose(well.id)}
                >
                  <strong>{well.name}</strong>
                  <span className="soft">
                    {well.field}, {well.mandrels.length} mandrel
                    {well.mandrels.length === 1 ? "" : "s"}
                  </span>
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
