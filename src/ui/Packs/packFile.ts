import { headsOf } from "../../jobs/log/heads.ts";
import { contentForJob, picturesFor } from "../../jobs/pack/arrival.ts";
import { makePack } from "../../jobs/pack/pack.ts";
import type { Store } from "../../jobs/store/store.ts";
import { handOver } from "./handOver.ts";

/**
 * Makes the pack of a job, hands it over and notes how far the job's log has left the tablet with it.
 *
 * @returns the file's name
 */
export async function savePack(store: Store, job: string): Promise<string> {
  const [library, events] = await Promise.all([store.library(), store.eventsOf(job)]);
  const record = library.jobs.find((each) => each.id === job);
  if (!record) throw new Error("the job is not on this tablet any more");
  const pictures = await picturesFor(store, events);
  const at = new Date().toISOString();
  const pack = makePack({ ...contentForJob(record, library, events), pictures }, at);
  const well = pack.content.records.wells[0]?.name ?? job;
  const name = `latchline-${well}-${record.day}.json`;
  handOver(name, JSON.stringify(pack));
  await store.markExported([{ job, at, heads: headsOf(events), by: "pack" }]);
  return name;
}
