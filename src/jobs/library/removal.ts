import type { Library, RecordKind } from "../store/library.ts";
import { namedByJob } from "../store/narrowed.ts";
import type { LibraryKind } from "./entry.ts";
import { type Places, pocketInWords } from "./places.ts";

/** What still names a record: it cannot be taken out while something does. */
export interface Namer {
  readonly kind: RecordKind;
  readonly id: string;
  /** whose screen an investigation is on */
  readonly well?: string;
  readonly says: string;
}

/**
 * @param library every job with its well; for a tool every string, for a well its investigations as well
 * @param places of all valves
 */
export function namersOf(
  kind: LibraryKind,
  id: string,
  {
    jobs,
    wells,
    strings,
    investigations,
  }: Pick<Library, "jobs" | "wells" | "strings" | "investigations">,
  places: Places,
): Namer[] {
  const inJobs = jobs
    .filter((job) => namedByJob(job)[kind]?.includes(id))
    .map(({ id: job, day, well }) => ({
      kind: "jobs" as const,
      id: job,
      says: `the job of ${day} on ${wells.find((each) => each.id === well)?.name ?? "a well that is not here"}`,
    }));
  const inPockets = kind === "valves" ? (places.get(id) ?? []) : [];
  const inStrings = strings.filter(
    ({ tools }) => kind === "tools" && tools.some((tool) => tool.id === id),
  );
  return [
    ...inPockets.map(({ well, wellName, number }) => ({
      kind: "wells" as const,
      id: well,
      says: pocketInWords(wellName, number),
    })),
    ...inStrings.map(({ id: string, name }) => ({
      kind: "strings" as const,
      id: string,
      says: `the string ${name}`,
    })),
    ...investigations
      .filter(({ well }) => kind === "wells" && well === id)
      .map(({ id: found, well, opened }) => ({
        kind: "investigations" as const,
        id: found,
        well,
        says: `the investigation of ${opened.slice(0, 10)}`,
      })),
    ...inJobs,
  ];
}
