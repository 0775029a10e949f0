import { useEffect, useState } from "react";
import type { ReportDocument } from "../../jobs/report/document.ts";
import { reportOf } from "../../jobs/report/reportOf.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import type { Store } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";
import type { LiveJob } from "../useJob.ts";

/** The report of a job as its log stands; undefined until it is put together. */
export function useReport(live: LiveJob | string | undefined): ReportDocument | undefined {
  const store = useStore();
  const [report, setReport] = useState<ReportDocument>();
  const { state, writer } = typeof live === "object" ? live : {};
  useEffect(() => {
    if (!state || !writer) return;
    let gone = false;
    missingPictures(store, state).then((missing) => {
      if (gone) return;
      setReport(reportOf(state, new Date().toISOString(), writer, { missing }));
    });
    return () => {
      gone = true;
    };
  }, [store, state, writer]);
  return report;
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
