import { useMemo } from "react";
import { bare } from "../../jobs/library/entry.ts";
import { type Befell, befellInLogs, isOnWell, pocketHistory } from "../../jobs/library/history.ts";
import { pocketInWords } from "../../jobs/library/places.ts";
import { entriesOf } from "../../jobs/library/search.ts";
import type { Well } from "../../jobs/records/well.ts";
import { useAllEvents, useLibrary } from "../storeContext.ts";
import { useLibraryView } from "./useLibraryIndex.ts";

/** What befell the pocket of a mandrel, oldest first. */
export interface PocketBefore {
  /** mandrel, by its id */
  readonly id: string;
  readonly number: number;
  readonly befell: readonly Befell[];
}

/** What was set into each pocket of a well and pulled out of it, by valves' records and by logs; undefined until read. */
export function usePocketHistory({
  id,
  name,
  mandrels,
}: Well): readonly PocketBefore[] | undefined {
  const { shelves, reading } = useLibraryView();
  const events = useAllEvents();
  /** valves whose own records say that they were in one of these pockets */
  const been = useMemo(() => {
    const pockets = new Set(mandrels.map(({ number }) => bare(pocketInWords(name, number))));
    return entriesOf(shelves.valves)
      .filter((valve) => valve.been?.some((where) => pockets.has(where)))
      .map((valve) => valve.id);
  }, [shelves, name, mandrels]);
  const library = useLibrary({ records: { valves: been } });
  const inLogs = useMemo(() => events && befellInLogs(events, isOnWell(id)), [events, id]);
  return useMemo(() => {
    if (reading !== undefined || !library || !inLogs) return undefined;
    return mandrels.map((mandrel) => ({
      id: mandrel.id,
      number: mandrel.number,
      befell: pocketHistory(name, mandrel.number, library.valves, inLogs),
    }));
  }, [reading, library, inLogs, mandrels, name]);
}
