import { useState } from "react";
import { contentForJob } from "../../jobs/pack/arrival.ts";
import { useStore } from "../storeContext.ts";

/** One file with everything another tablet needs for this job, its log included. */
export function SavePack({ job }: { readonly job: string }) {
  const store = useStore();
  const [said, setSaid] = useState("");
  const save = async () => {
    try {
      const [library, events, { makePack }] = await Promise.all([
        store.library(),
        store.eventsOf(job),
        import("../../jobs/pack/pack.ts"),
      ]);
      const record = library.jobs.find((each) => each.id === job);
      if (!record) throw new Error("the job is not on this tablet any more");
      const made = new Date().toISOString();
      const pack = makePack(contentForJob(record, library, events), made);
      const well = pack.content.records.wells[0]?.name ?? job;
      const name = `latchline-${well}-${record.day}.json`;
      const url = URL.createObjectURL(
        new Blob([JSON.stringify(pack)], { type: "application/json" }),
      );
      const link = document.createElement("a");
      link.href = url;
      link.download = name;
      link.click();
      // The browser still reads from it after the click.
      setTimeout(() => URL.revokeObjectURL(url), 60_000);
      setSaid(`${name} handed to the browser's downloads.`);
    } catch (error) {
      setSaid(`The pack could not be made: ${(error as Error).message}.`);
    }
  };
  return (
    <>
      <button type="button" className="button" onClick={() => void save()}>
        Save a pack
      </button>
      {said && (
        <span className="small" role="status">
          {said}
        </span>
      )}
    </>
  );
}
