import type { ToolString } from "./records/equipment.ts";
import type { Job } from "./records/job.ts";
import type { Programme } from "./records/programme.ts";
import { sheetOf } from "./sheet/sheetOf.ts";
import type { Library } from "./store/library.ts";

/** Puts a job's records together as they are now. What is not chosen or not there is absent. */
export function assemble(job: Job, library: Library): Programme {
  const find = <T extends { id: string }>(records: readonly T[], id: string | undefined) =>
    records.find((record) => record.id === id);
  const well = find(library.wells, job.well);
  const pockets = new Set(well?.mandrels.map((mandrel) => mandrel.valve));
  const further = (job.also ?? []).flatMap(({ replacement }) => {
    const valve = find(library.valves, replacement);
    return valve ? [valve] : [];
  });
  const parts = {
    well,
    replacements: further.length > 0 ? further : undefined,
    replacement: find(library.valves, job.replacement),
    line: find(library.lines, job.line),
    stack: find(library.stacks, job.stack),
    policy: find(library.policies, job.policy),
  };
  const strings = {
    gauge: withoutPictures(find(library.strings, job.strings.gauge)),
    pull: withoutPictures(find(library.strings, job.strings.pull)),
    set: withoutPictures(find(library.strings, job.strings.set)),
    catcher: withoutPictures(find(library.strings, job.strings.catcher)),
  };
  return {
    job,
    installed: library.valves.filter((valve) => pockets.has(valve.id)),
    sheet: sheetOf(job, well).sheet,
    strings: present(strings),
    ...present(parts),
  };
}

/** Photographs stay with the record: a programme goes into the log whole, at every revision again. */
function withoutPictures(string: ToolString | undefined): ToolString | undefined {
  if (!string?.photographs) return string;
  const { photographs: _, ...bare } = string;
  return bare;
}

/** Without the parts that are not there, so that the programme's JSON has no holes in it. */
function present<T extends object>(parts: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(parts).filter(([, part]) => part !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
