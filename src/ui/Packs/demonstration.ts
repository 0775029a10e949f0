import { format } from "date-fns";
import demonstration from "../../../demo-data/ember-mesa.json?url";
import { arrivalOf, previewPack, redate } from "../../jobs/pack/arrival.ts";
import { readPack } from "../../jobs/pack/pack.ts";
import { recordKinds } from "../../jobs/store/library.ts";
import type { Store } from "../../jobs/store/store.ts";

/** Loads the invented wells through the same import as any pack, its open jobs moved to today and tomorrow. */
export async function importDemonstration(store: Store): Promise<void> {
  const response = await fetch(demonstration);
  const read = readPack(await response.text());
  if (!read.ok) throw new Error(read.why);
  const today = format(new Date(), "yyyy-MM-dd");
  const pack = {
    ...read.pack,
    content: redate(read.pack.content, read.pack.made.slice(0, 10), today),
  };
  const library = await store.library();
  const preview = previewPack(pack, library, await store.allEvents());
  await store.receive(arrivalOf(pack, preview, library, "keep mine"));
}

/**
 * Takes away every record that says it is invented, and the logs of its jobs.
 *
 * @returns how many jobs are left
 */
export async function removeDemonstration(store: Store): Promise<number> {
  const library = await store.library();
  await store.remove(
    Object.fromEntries(
      recordKinds.map((kind) => [
        kind,
        library[kind].filter((record) => record.invented).map((record) => record.id),
      ]),
    ),
  );
  return library.jobs.filter((job) => !job.invented).length;
}
