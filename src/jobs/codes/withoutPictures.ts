import { picturesOf } from "../log/pictures.ts";
import type { Carried } from "../pack/pack.ts";

/** What codes can carry of a job, and how many photographs stay behind. */
export interface CarriedInCodes {
  readonly carried: Carried;
  /** that the log names; the tablet that reads the codes says that they are missing */
  readonly ofLog: number;
  /** of tool strings, which their records hold */
  readonly ofStrings: number;
}

/** A photograph alone would take some hundred codes; two pens of an investigation as many. */
export function withoutPictures({ records, events }: Carried): CarriedInCodes {
  const photographs = records.strings.flatMap((string) => string.photographs ?? []);
  const strings = records.strings.map(({ photographs: _, ...bare }) => bare);
  return {
    carried: { records: { ...records, strings, investigations: [] }, events },
    ofLog: picturesOf(events).size,
    ofStrings: photographs.length,
  };
}
