import { useEffect, useMemo, useState } from "react";
import type { Writer } from "../../jobs/display.ts";
import type { ReportDocument } from "../../jobs/report/document.ts";
import { reportOf } from "../../jobs/report/reportOf.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import type { Store } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import type { LiveJob } from "../useJob.ts";

interface Looked {
  readonly state: JobState;
  readonly writer: Writer;
  readonly missing: ReadonlySet<string>;
  /** instant */
  readonly at: string;
}

/** The report of a job as its log stands; undefined until it is put together. */
export function useReport(live: LiveJob | string | undefined): ReportDocument | undefined {
  const store = useStore();
  const [looked, setLooked] = useState<Looked>();
  const { state, writer } = typeof live === "object" ? live : {};
  useEffect(() => {
    if (!state || !writer) return;
    let gone = false;
    missingPictures(store, state).then((missing) => {
      if (!gone) setLooked({ state, writer, missing, at: new Date().toISOString() });
    });
    return () => {
      gone = true;
    };
  }, [store, state, writer]);
  // Put together while the screen is drawn: a fault in it is said as any other, and nobody waits for ever.
  return useMemo(
    () => looked && reportOf(looked.state, looked.at, looked.writer, { missing: looked.missing }),
    [looked],
  );
}

/** Pictures that the log names and this tablet does not hold, or cannot read now. */
async function missingPictures(store: Store, { photographs }: JobState): Promise<Set<string>> {
  const missing = new Set<string>();
  for (const { picture } of photographs) {
    const found = await store.picture(picture).catch(() => undefined);
    if (!found) missing.add(picture);
  }
  return missing;
}
