import { useEffect, useState } from "react";
import type { ReportDocument } from "../../jobs/report/document.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import type { Store } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import type { LiveJob } from "../useJob.ts";
import { Cancelled } from "../workerClient.ts";
import { RecordClient } from "./recordClient.ts";

type Made = { readonly report: ReportDocument | undefined } | { readonly fault: Error };

/** The report of a job as its log stands; undefined until it is put together. */
export function useReport(live: LiveJob | string | undefined): ReportDocument | undefined {
  const store = useStore();
  const [made, setMade] = useState<Made>();
  const { state, writer } = typeof live === "object" ? live : {};
  useEffect(() => {
    if (!state || !writer) return;
    const client = new RecordClient();
    let gone = false;
    const make = async () => {
      const missing = await missingPictures(store, state);
      if (gone) return;
      setMade({ report: await client.report({ state, writer }, missing) });
    };
    make().catch((fault: Error) => {
      if (!(fault instanceof Cancelled)) setMade({ fault });
    });
    return () => {
      gone = true;
      client.cancel();
    };
  }, [store, state, writer]);
  // A fault in it is said as any other, and nobody waits for ever.
  if (made && "fault" in made) throw made.fault;
  return made?.report;
}

/** Pictures that the log names and this tablet does not hold, or cannot look for now. */
async function missingPictures(store: Store, { photographs }: JobState) {
  const named = [...new Set(photographs.map(({ picture }) => picture))];
  return store.lacking(named).catch(() => named);
}
