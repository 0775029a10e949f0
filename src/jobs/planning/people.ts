import { asEntered } from "../display.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Job } from "../records/job.ts";
import type { Library } from "../store/library.ts";
import { jobName, lastSaid } from "./jobsBefore.ts";
import { open, type Proposed } from "./line.ts";

/** Who does it, what shears, and where the line's pull is read. */

export type Place = keyof Job["crew"];

export interface Person {
  readonly proposed: Proposed<string>;
  /** met in earlier jobs, the latest first */
  readonly met: readonly string[];
}

const MOST_MET = 4;

export function personFor(place: Place, own: Job, library: Library): Person {
  const last = lastSaid(library, own.id, ({ crew }) => crew[place]);
  const named = library.jobs
    .filter(({ id, crew }) => id !== own.id && crew[place] !== undefined)
    .sort((a, b) => b.day.localeCompare(a.day))
    .flatMap(({ crew }) => crew[place] ?? []);
  return {
    met: [...new Set(named)].slice(0, MOST_MET),
    proposed: last
      ? { value: last.said, source: "last job", why: `As in ${jobName(last.job, library)}.` }
      : open("Nobody is named in an earlier job. Who is it?"),
  };
}

export type Pins = NonNullable<Job["pins"]>;

/**
 * Running-tool pins: those of the last job that had brass ones, or brass by common practice, in the size that the
 * running tool takes.
 */
export function pinsFor(own: Job, set: ToolString | undefined, library: Library): Proposed<Pins> {
  const last = lastSaid(library, own.id, ({ pins }) =>
    pins?.material === "brass" ? pins : undefined,
  );
  if (last) {
    const batch = last.said.batch ? " Look whether the box is still of that batch." : "";
    return {
      value: last.said,
      source: "last job",
      why: `As in ${jobName(last.job, library)}.${batch}`,
    };
  }
  const shear = set?.tools.find(({ kind }) => kind === "running tool")?.shear;
  const size = shear ? { diameter: shear.diameter, planes: shear.planes } : {};
  const taken = shear
    ? `count and ${asEntered(shear.diameter)} as the running tool of ${set?.name} takes them`
    : "two of them, from memory, unverified";
  return {
    value: { material: "brass", count: shear?.count ?? 2, ...size },
    source: "common practice",
    why: `Brass is common practice: it shears by upward jarring once the valve is latched; ${taken}. Note the batch.`,
  };
}

/** Where the pull is read and over which wheels the line runs: as in the last job that said so. */
export function unitFor(own: Job, library: Library): Proposed<NonNullable<Job["unit"]>> {
  const last = lastSaid(library, own.id, ({ unit }) => unit);
  return last
    ? { value: last.said, source: "last job", why: `As in ${jobName(last.job, library)}.` }
    : open("Not stated in an earlier job. Where is the line's pull read?");
}

export function unitInWords({
  indicator,
  lineAngle,
  smallestSheave,
}: NonNullable<Job["unit"]>): string {
  return [
    indicator && `pull read at the ${indicator}`,
    lineAngle && `${asEntered(lineAngle)} between the lines`,
    smallestSheave && `smallest sheave ${asEntered(smallestSheave)}`,
  ]
    .filter(Boolean)
    .join(", ");
}

/** One limit of the pull run, as in the last job that had one. */
export function limitFor<K extends keyof NonNullable<Job["release"]>>(
  key: K,
  own: Job,
  library: Library,
): Proposed<NonNullable<NonNullable<Job["release"]>[K]>> {
  const last = lastSaid(library, own.id, ({ release }) => release?.[key]);
  return last
    ? {
        value: last.said as NonNullable<NonNullable<Job["release"]>[K]>,
        source: "last job",
        why: `As in ${jobName(last.job, library)}.`,
      }
    : open("Not stated in an earlier job. It may stay open.");
}
