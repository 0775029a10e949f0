import { useState } from "react";
import { Link } from "wouter";
import type { LibraryProblem } from "../../jobs/library/problems.ts";

/** As many as are read before they are mended, and as many more at a time. */
const FEW = 3;
const MORE = 20;

/** What cannot be so in the library, worst first, each a tap from where it is mended. */
export function Problems({ problems }: { readonly problems: readonly LibraryProblem[] }) {
  const [shown, setShown] = useState(FEW);
  if (problems.length === 0) return null;
  const more = problems.length - shown;
  return (
    <section className="library-problems" aria-labelledby="library-problems">
      <h2 id="library-problems">
        {problems.length === 1 ? "One thing" : `${problems.length} things`} here cannot be so
      </h2>
      <ul>
        {problems.slice(0, shown).map(({ key, says, mend }) => (
          <li key={key} className="problem">
            <p>{says}</p>
            <div className="row">
              {mend.map(({ kind, id, label }) => (
                <Link key={`${kind} ${id}`} href={`/edit/${kind}/${id}`} className="button">
                  {label}
                </Link>
              ))}
            </div>
          </li>
        ))}
      </ul>
      {more > 0 && (
        <button type="button" className="button" onClick={() => setShown(shown + MORE)}>
          Show {Math.min(more, MORE)} of {more} more
        </button>
      )}
    </section>
  );
}
