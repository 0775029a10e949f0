import type { JobEvent } from "../log/event.ts";
import { headsOf } from "../log/heads.ts";
import type { Library } from "../store/library.ts";
import type { Exported, Store } from "../store/store.ts";
import { picturesFor } from "./contents.ts";
import { type Carried, makePack, packText } from "./pack.ts";

/** A whole tablet as the text of one pack, and how far every job's log goes in it. */
export interface Backup {
  readonly text: string;
  readonly exported: readonly Exported[];
}

/**
 * Makes a pack of everything that is in the store.
 *
 * @throws Error when it would be larger than a tablet can read again
 */
export async function makeBackup(store: Store, at: string): Promise<Backup> {
  const [library, events] = await Promise.all([store.library(), store.allEvents()]);
  return {
    text: await packOf(store, library, events, at),
    exported: library.jobs.map(({ id: job }) => {
      const log = events.filter((event) => event.job === job);
      return { job, at, heads: headsOf(log), by: "backup" };
    }),
  };
}

/**
 * The text of a pack of records and logs, with those of their pictures that are in the store. A log without its job's
 * record, which no pack may hold, stays out.
 *
 * @throws Error when it would be larger than a tablet can read again
 */
export async function packOf(
  store: Pick<Store, "picture">,
  library: Library,
  events: readonly JobEvent[],
  at: string,
): Promise<string> {
  const jobs = new Set(library.jobs.map(({ id }) => id));
  const logs = events.filter(({ job }) => jobs.has(job));
  const pictures = await picturesFor(store, logs);
  const records = library as Carried["records"];
  return packText(makePack({ records, events: logs, pictures }, at));
}
