import { useDeferredValue, useMemo } from "react";
import type { JobEvent } from "../../jobs/log/event.ts";
import { brokenLinks, describeBroken } from "../../jobs/log/verify.ts";
import { SavePack } from "../Packs/SavePack.tsx";
import type { LiveJob } from "../useJob.ts";
import "./BrokenLog.css";

const NOT_YET: readonly JobEvent[] = [];

/** A log that does not hold, said where the run is worked. The crew goes on: what comes behind it is kept as ever. */
export function BrokenLog({ live }: { readonly live: LiveJob }) {
  // Out of the way of what is typed and recorded: on a tablet a whole log takes a while to hash.
  const events = useDeferredValue(live.state.events, NOT_YET);
  const [broken] = useMemo(() => brokenLinks(events), [events]);
  if (!broken) return null;
  return (
    <div className="problem broken-log" role="alert">
      <p className="broken-title">The log of this job is not whole: {describeBroken(broken)}.</p>
      <p className="broken-do">
        Note the readings on paper, too, save a pack now and tell the office.
      </p>
      <SavePack job={live.id} />
      <p className="broken-why">
        Something other than this app changed it, or the tablet's storage is failing. Nothing was
        taken away, and what you record is kept behind it; the record cannot be approved like this.
      </p>
    </div>
  );
}
