import type { Contingency } from "../../jobs/sheet/sheet.ts";
import { Caution } from "../RunSheet/Caution.tsx";

/** What is done in the first minute, and who hears of it. */
export function AtOnce({ of }: { readonly of: Contingency }) {
  return (
    <>
      <p className="contingency-stop">{of.stop}</p>
      <ol className="contingency-first">
        {of.makeSafe.map((each) => (
          <li key={each}>{each}</li>
        ))}
      </ol>
      {of.caution && <Caution>{of.caution}</Caution>}
      <div className="contingency-tell">
        <h3>Tell</h3>
        <ul>
          {of.tell.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      </div>
    </>
  );
}
