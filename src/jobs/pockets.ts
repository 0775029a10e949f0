import type { Job } from "./records/job.ts";
import type { Programme } from "./records/programme.ts";
import { sheetWanted } from "./sheet/sheetWanted.ts";

/** Mandrels whose pockets a job works on, by their ids, in the order they are worked. */
export function pocketsOf({ mandrel, also = [] }: Pick<Job, "mandrel" | "also">): string[] {
  return [mandrel, ...also.map((each) => each.mandrel)];
}

const focused = new WeakMap<Programme, Map<string, Programme>>();

/**
 * The programme as it is for one of its pockets: that mandrel is the target, with its own work, replacement and
 * design. Everything that is worked out from a programme can be asked of it.
 *
 * @param pocket mandrel, by its id; undefined, or the job's first: the programme itself
 */
export function focus(programme: Programme, pocket: string | undefined): Programme {
  const { job } = programme;
  const further = job.also?.find(({ mandrel }) => mandrel === pocket);
  if (!further || pocket === undefined || pocket === job.mandrel) return programme;
  const known = focused.get(programme) ?? new Map<string, Programme>();
  focused.set(programme, known);
  const before = known.get(pocket);
  if (before) return before;
  const { replacement: _, ...ofAll } = job;
  const { replacement: __, ...records } = programme;
  const { mandrel, replacement, work, design } = further;
  const valve = programme.replacements?.find(({ id }) => id === replacement);
  const made: Programme = {
    ...records,
    job: {
      ...ofAll,
      mandrel,
      design,
      sheet: { ...sheetWanted(job), work },
      ...(replacement !== undefined && { replacement }),
    },
    ...(valve && { replacement: valve }),
  };
  known.set(pocket, made);
  return made;
}
