import { useMemo, useState } from "react";
import { bare } from "../../jobs/library/entry.ts";
import { befellInLogs, isOnWell, pocketHistory } from "../../jobs/library/history.ts";
import { pocketInWords } from "../../jobs/library/places.ts";
import { entriesOf } from "../../jobs/library/search.ts";
import type { Well } from "../../jobs/records/well.ts";
import { useAllEvents, useLibrary } from "../storeContext.ts";
import { History } from "./History.tsx";
import { useLibraryView } from "./useLibraryIndex.ts";
import "./Library.css";

/** What was set into each pocket of a well and pulled out of it; looked up when somebody asks. */
export function PocketsBefore({ well }: { readonly well: Well }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="pockets-before" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What sat in the pockets before</summary>
      {open && <Pockets well={well} />}
    </details>
  );
}

function Pockets({ well }: { readonly well: Well }) {
  const { shelves, reading } = useLibraryView();
  const events = useAllEvents();
  const { name, mandrels } = well;
  /** valves whose own records say that they were in one of these pockets */
  const been = useMemo(() => {
    const pockets = new Set(mandrels.map(({ number }) => bare(pocketInWords(name, number))));
    return entriesOf(shelves.valves)
      .filter((valve) => valve.been?.some((where) => pockets.has(where)))
      .map(({ id }) => id);
  }, [shelves, name, mandrels]);
  const library = useLibrary({ records: { valves: been } });
  const inLogs = useMemo(
    () => events && befellInLogs(events, isOnWell(well.id)),
    [events, well.id],
  );
  if (reading !== undefined || !library || !inLogs) return <p className="soft">Looking…</p>;
  return mandrels.map(({ id, number }) => {
    const befell = pocketHistory(name, number, library.valves, inLogs);
    return (
      <div key={id}>
        <h3>Mandrel {number}</h3>
        {befell.length > 0 ? (
          <History befell={befell} serials />
        ) : (
          <p className="soft">Nothing is known of it.</p>
        )}
      </div>
    );
  });
}
