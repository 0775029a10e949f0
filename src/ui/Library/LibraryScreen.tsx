import { useDeferredValue, useEffect, useMemo, useRef, useState } from "react";
import { Link, useLocation, useSearch } from "wouter";
import { type Entry, kindNames, type LibraryKind, libraryKinds } from "../../jobs/library/entry.ts";
import { stateOf, type ValveState, valveStates, whereInWords } from "../../jobs/library/places.ts";
import { type Found, find } from "../../jobs/library/search.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { TopBar } from "../TopBar/TopBar.tsx";
import { Problems } from "./Problems.tsx";
import { placeOf } from "./placeOf.ts";
import { useLibraryView } from "./useLibraryIndex.ts";
import "./Library.css";

/** As many as are looked over; whoever wants another types on. */
const MOST = 50;

export default function LibraryScreen({ kind }: { readonly kind: string | undefined }) {
  const known = libraryKinds.find((each) => each === kind);
  if (kind !== undefined && !known) return <Nowhere what="kind of record" />;
  return <LibraryOf kind={known} />;
}

/** Everything the office keeps, found as one types. */
function LibraryOf({ kind }: { readonly kind: LibraryKind | undefined }) {
  const view = useLibraryView();
  const { shelves, places, problems, reading } = view;
  const [, navigate] = useLocation();
  const [query, setQuery] = useState(new URLSearchParams(useSearch()).get("q") ?? "");
  const [state, setState] = useState<ValveState>();
  const asked = useDeferredValue(query);
  const ofValves = kind === "valves" ? state : undefined;
  const found = useMemo(
    () =>
      find(shelves, { query: asked, kind, state: ofValves, most: MOST }, (valve) =>
        stateOf(valve, places),
      ),
    [shelves, places, asked, kind, ofValves],
  );
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus(), []);
  // Whoever comes back from a record finds what was typed.
  useEffect(() => {
    const search = query === "" ? "" : `?q=${encodeURIComponent(query)}`;
    history.replaceState(history.state, "", `${location.pathname}${search}`);
  }, [query]);
  const [first] = found.entries;
  const to = (next: LibraryKind | undefined) =>
    `/library${next ? `/${next}` : ""}${query === "" ? "" : `?q=${encodeURIComponent(query)}`}`;

  return (
    <>
      <TopBar title="Library" />
      <main className="page library">
        <div className="library-head">
          <search>
            <form
              onSubmit={(event) => {
                event.preventDefault();
                if (first && query.trim() !== "") navigate(placeOf(first));
              }}
            >
              <label htmlFor="library-query" className="hidden-label">
                Search the library
              </label>
              <input
                ref={field}
                id="library-query"
                type="search"
                autoComplete="off"
                spellCheck={false}
                enterKeyHint="go"
                placeholder="Serial, name, kind, size, latch, field or words of the remarks"
                value={query}
                onChange={(event) => setQuery(event.target.value)}
              />
            </form>
          </search>
          {kind ? (
            <Link href={`/new/${kind}`} className="button next">
              New {kindNames[kind].one}
            </Link>
          ) : (
            <details className="library-new">
              <summary className="button">New record</summary>
              <ul className="card">
                {libraryKinds.map((each) => (
                  <li key={each}>
                    <Link href={`/new/${each}`} className="button quiet">
                      New {kindNames[each].one}
                    </Link>
                  </li>
                ))}
              </ul>
            </details>
          )}
        </div>
        <nav className="library-chips" aria-label="Kinds">
          <Link href={to(undefined)} replace className="chip" aria-current={!kind && "page"}>
            All
          </Link>
          {libraryKinds.map((each) => (
            <Link
              key={each}
              href={to(each)}
              replace
              className="chip"
              aria-current={kind === each && "page"}
            >
              {kindNames[each].many} <span className="figure">{grouped(found.kinds[each])}</span>
            </Link>
          ))}
        </nav>
        {kind === "valves" && <StateChips states={found.states} state={state} onState={setState} />}
        {kind === "valves" && (
          <p>
            <Link href="/valve-life">How long valves last</Link>
          </p>
        )}
        <Problems problems={problems} />
        <section className="library-results" aria-label="Found" aria-busy={asked !== query}>
          <p role="status" className="small soft">
            {reading !== undefined
              ? `Reading the library: ${grouped(reading)} records so far, ${grouped(found.total)} found.`
              : inWords(found, query)}
          </p>
          <ul>
            {found.entries.map((entry) => (
              <Row
                key={`${entry.kind} ${entry.id}`}
                entry={entry}
                where={entry.kind === "valves" ? whereInWords(entry, places) : undefined}
              />
            ))}
          </ul>
          {found.total > found.entries.length && (
            <p>
              {grouped(found.total - found.entries.length)} more: type on
              {kind ? "." : ", or choose a kind."}
            </p>
          )}
        </section>
      </main>
    </>
  );
}

function inWords({ total }: Found, query: string): string {
  if (total > 0) return `${grouped(total)} found.`;
  return query.trim() === ""
    ? "Nothing here yet. Begin a new record, or bring some in with a pack."
    : "Nothing is found by these words. Take some away, or look in all kinds.";
}

/** 40 016, as print groups thousands. */
const grouped = (count: number) => String(count).replace(/\B(?=(\d{3})+$)/g, "\u2009");

interface RowProps {
  readonly entry: Entry;
  readonly where: string | undefined;
}

function Row({ entry, where }: RowProps) {
  return (
    <li>
      <Link href={placeOf(entry)} className="library-row">
        <span className="library-kind small soft">{kindNames[entry.kind].one}</span>
        <span className="library-name">{entry.name}</span>
        <span className="library-says">
          {entry.says}
          {where !== undefined && <span className="library-where"> {where}</span>}
        </span>
      </Link>
    </li>
  );
}

interface StateChipsProps {
  readonly states: Found["states"];
  readonly state: ValveState | undefined;
  readonly onState: (state: ValveState | undefined) => void;
}

function StateChips({ states, state, onState }: StateChipsProps) {
  return (
    <fieldset className="library-chips">
      <legend className="hidden-label">Where the valves are</legend>
      {[undefined, ...valveStates].map((each) => (
        <button
          key={each ?? "all"}
          type="button"
          className="chip"
          aria-pressed={each === state}
          onClick={() => onState(each)}
        >
          {each === undefined ? "Wherever" : capital(each)}{" "}
          {each !== undefined && <span className="figure">{grouped(states[each])}</span>}
        </button>
      ))}
    </fieldset>
  );
}

const capital = (words: string) => words.replace(/^./, (first) => first.toUpperCase());
