import { type CarriedInCodes, withoutPictures } from "../../jobs/codes/withoutPictures.ts";
import { contentForJobs } from "../../jobs/pack/contents.ts";
import { makePack } from "../../jobs/pack/pack.ts";
import type { Store } from "../../jobs/store/store.ts";

/** A job's pack as it goes into codes. */
export interface JobInCodes extends Pick<CarriedInCodes, "ofLog" | "ofStrings"> {
  readonly text: string;
  readonly well: string;
  /** events of its log in it */
  readonly events: number;
}

/**
 * Makes the pack, without its photographs and the investigation that led to it. The same job that has not changed gives the same codes as long as the page
 * lives, so that missing ones can still be shown after this screen was left.
 */
export async function jobInCodes(store: Store, job: string): Promise<JobInCodes | "missing"> {
  const [library, events] = await Promise.all([
    store.recordsFor({ jobs: [job], whole: ["tools"] }),
    store.eventsOf(job),
  ]);
  const record = library.jobs.find((each) => each.id === job);
  if (!record) return "missing";
  const { carried, ...left } = withoutPictures(contentForJobs([record], library, events));
  const pack = makePack(carried, new Date().toISOString());
  const made = firstMade.get(pack.checksum) ?? pack.made;
  firstMade.set(pack.checksum, made);
  return {
    ...left,
    text: JSON.stringify({ ...pack, made }),
    well: pack.content.records.wells[0]?.name ?? job,
    events: events.length,
  };
}

/** When what was shown was made, by its checksum. */
const firstMade = new Map<string, string>();
