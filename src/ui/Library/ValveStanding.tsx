import { useMemo } from "react";
import { Link } from "wouter";
import {
  befellInLogs,
  historyOf,
  namesValve,
  recordLagsInWords,
} from "../../jobs/library/history.ts";
import { pocketInWords, stateOf } from "../../jobs/library/places.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import { useAllEvents } from "../storeContext.ts";
import { History } from "./History.tsx";
import { useLibraryView } from "./useLibraryIndex.ts";
import "./Library.css";

/** Where a valve is, and what befell it. */
export function ValveStanding({ valve }: { readonly valve: Valve }) {
  const { places, problems, reading } = useLibraryView();
  const events = useAllEvents();
  const befell = useMemo(
    () => events && historyOf(valve, befellInLogs(events, namesValve(valve))),
    [valve, events],
  );
  const pockets = places.get(valve.id) ?? [];
  const lags =
    befell &&
    reading === undefined &&
    recordLagsInWords(
      pockets.map(({ wellName, number }) => pocketInWords(wellName, number)),
      befell,
    );
  const wrong = problems.filter(({ mend }) => mend.some(({ id }) => id === valve.id));
  return (
    <section className="card valve-standing" aria-labelledby="valve-where">
      <h2 id="valve-where">Where it is</h2>
      {pockets.length > 0 ? (
        pockets.map(({ well, wellName, mandrel, number }) => (
          <p key={mandrel}>
            In {pocketInWords(wellName, number)}.{" "}
            <Link href={`/wells/${well}`}>Look at {wellName}</Link>
          </p>
        ))
      ) : (
        <p>
          {reading === undefined
            ? `In no pocket: ${stateOf(valve, places)}.`
            : "Looking through the wells…"}
        </p>
      )}
      {lags && <p>{lags}</p>}
      {wrong.map(({ key, says }) => (
        <p key={key} className="problem">
          {says}
        </p>
      ))}
      <h2>What befell it</h2>
      {befell === undefined ? (
        <p className="soft">Reading the logs…</p>
      ) : befell.length === 0 ? (
        <p className="soft">Nothing is known of it.</p>
      ) : (
        <History befell={befell} />
      )}
    </section>
  );
}
