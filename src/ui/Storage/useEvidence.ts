import { useEffect, useMemo, useState } from "react";
import { notYetExported } from "../../jobs/log/exported.ts";
import { type Compared, compared } from "../../jobs/store/held.ts";
import { allJobs, useAllEvents, useExported, useLibrary, useStore } from "../storeContext.ts";
import { readHeld } from "./marker.ts";
import { askForRoom, type Room } from "./room.ts";

/** A job of which something is on this tablet only. */
export interface OnlyHere {
  readonly job: string;
  readonly name: string;
  readonly count: number;
  /** when something of it left last; undefined when nothing ever did */
  readonly since: string | undefined;
}

/** What was entered here and has left in no file, by job. */
export function useOnlyHere(): readonly OnlyHere[] {
  const { device } = useStore();
  const library = useLibrary(allJobs);
  const events = useAllEvents();
  const exported = useExported();
  return useMemo(() => {
    if (!library || !events || !exported) return [];
    return library.jobs.flatMap(({ id, well, day }) => {
      const last = exported.find(({ job }) => job === id);
      const log = events.filter((event) => event.job === id);
      const count = notYetExported(log, device, last?.heads);
      const name = `${library.wells.find((each) => each.id === well)?.name ?? well}, ${day}`;
      return count > 0 ? [{ job: id, name, count, since: last?.at }] : [];
    });
  }, [library, events, exported, device]);
}

/** What the browser says of its room, asked again every minute. */
export function useRoom(): Room | undefined {
  const [room, setRoom] = useState<Room>();
  useEffect(() => {
    const ask = () => void askForRoom().then(setRoom);
    ask();
    const timer = setInterval(ask, 60_000);
    return () => clearInterval(timer);
  }, []);
  return room;
}

/** Jobs that were on this tablet, were not removed, and are not here or not whole. */
export function useGone(): readonly Compared[] {
  const library = useLibrary(allJobs);
  const events = useAllEvents();
  const [gone, setGone] = useState<readonly Compared[]>([]);
  useEffect(() => {
    if (!library || !events) return;
    let current = true;
    void readHeld().then((held) => {
      if (!current || !held) return;
      const all = compared(held, library, events);
      setGone(all.filter(({ is }) => is !== "the same" && is !== "further"));
    });
    return () => {
      current = false;
    };
  }, [library, events]);
  return gone;
}
