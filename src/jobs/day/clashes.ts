import { asEntered } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel } from "../programme.ts";
import type { OpenPoint } from "../readiness.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Library } from "../store/library.ts";
import type { DayJob } from "./dayJobs.ts";
import { ownedProblem } from "./loadTools.ts";

/** Something that keeps the day's jobs from being done as they are planned. */
export interface Clash {
  readonly weight: OpenPoint["weight"];
  readonly says: string;
  /** where it is mended; of several jobs the last of the day */
  readonly job?: string;
}

const rank = { fails: 0, missing: 1, ask: 2 } as const;

/** What is wrong with the day as a whole, worst first. */
export function clashesOf(
  day: string,
  jobs: readonly DayJob[],
  library: Pick<Library, "wells" | "tools">,
): Clash[] {
  const ahead = jobs.filter(({ stage }) => stage !== "closed" && stage !== "approved");
  const all = [
    ...valveClashes(ahead),
    ...pocketClashes(ahead),
    ...elsewhere(ahead, library.wells),
    ...stringClashes(ahead),
    ...ownedClashes(day, ahead, library.tools),
    ...notReady(ahead),
  ];
  const distinct = all.filter(
    ({ says }, index) => all.findIndex((each) => each.says === says) === index,
  );
  return distinct.sort((a, b) => rank[a.weight] - rank[b.weight]);
}

/** A pocket of a job, with the programme as it is for it. */
function pocketsIn(jobs: readonly DayJob[]) {
  return jobs.flatMap((job) =>
    pocketsOf(job.programme.job).map((pocket) => {
      const at = focus(job.programme, pocket);
      const mandrel = targetMandrel(at);
      return { job, pocket, at, mandrel, called: `${job.well}, mandrel ${mandrel?.number ?? "?"}` };
    }),
  );
}

function grouped<T>(all: readonly T[], key: (each: T) => string | undefined): T[][] {
  const groups = new Map<string, T[]>();
  for (const each of all) {
    const of = key(each);
    if (of !== undefined) groups.set(of, [...(groups.get(of) ?? []), each]);
  }
  return [...groups.values()];
}

const list = (names: readonly string[]) => {
  const all = [...new Set(names)];
  return all.length < 2 ? (all[0] ?? "") : `${all.slice(0, -1).join(", ")} and ${all.at(-1)}`;
};

/** One valve cannot go into two pockets. Twice in one job its own readiness says so. */
function valveClashes(jobs: readonly DayJob[]): Clash[] {
  return grouped(pocketsIn(jobs), ({ at }) => at.replacement?.id).flatMap((uses): Clash[] => {
    const inJobs = new Set(uses.map(({ job }) => job.job.id));
    if (inJobs.size < 2) return [];
    const serial = uses[0]?.at.replacement?.serial;
    const says = `Valve ${serial} is to go into ${list(uses.map(({ called }) => called))}. Choose another for one of them.`;
    return [{ weight: "fails", says, job: lastOf(uses) }];
  });
}

const lastOf = (uses: readonly { readonly job: DayJob }[]) => uses.at(-1)?.job.job.id ?? "";

/** One pocket in two jobs, or two rig-ups on one well. */
function pocketClashes(jobs: readonly DayJob[]): Clash[] {
  const pockets = grouped(pocketsIn(jobs), ({ pocket }) => pocket).flatMap((uses): Clash[] => {
    if (new Set(uses.map(({ job }) => job.job.id)).size < 2) return [];
    return [
      {
        weight: "fails",
        says: `${uses[0]?.called} is worked in ${uses.length} jobs of the day. Take it out of one of them.`,
        job: lastOf(uses),
      },
    ];
  });
  const wells = grouped(jobs, ({ job }) => job.well).flatMap((uses): Clash[] =>
    uses.length < 2
      ? []
      : [
          {
            weight: "ask",
            says: `${uses[0]?.well} has ${uses.length} jobs on this day: two rig-ups on one well. Should they be one job with further pockets?`,
          },
        ],
  );
  return [...pockets, ...wells];
}

/** A valve that stands in a pocket by the records is not on the shelf. */
function elsewhere(jobs: readonly DayJob[], wells: Library["wells"]): Clash[] {
  return pocketsIn(jobs).flatMap(({ at: { replacement }, job, called }): Clash[] => {
    if (!replacement) return [];
    const well = wells.find(({ mandrels }) =>
      mandrels.some(({ valve }) => valve === replacement.id),
    );
    const mandrel = well?.mandrels.find(({ valve }) => valve === replacement.id);
    if (!well || !mandrel) return [];
    const says = `Valve ${replacement.serial} is to go into ${called}, and stands in mandrel ${mandrel.number} of ${well.name} by its record.`;
    return [{ weight: "fails", says, job: job.job.id }];
  });
}

const runs = ["pull", "set"] as const;

/** One string for pockets that need it made up in different ways. */
function stringClashes(jobs: readonly DayJob[]): Clash[] {
  const uses = pocketsIn(jobs).flatMap((pocket) =>
    runs.flatMap((purpose) => {
      const string = pocket.at.strings[purpose];
      return string ? [{ ...pocket, purpose, string }] : [];
    }),
  );
  return grouped(uses, ({ string }) => string.id).flatMap((of): Clash[] => {
    if (new Set(of.map(({ job }) => job.job.id)).size < 2) return [];
    const name = of[0]?.string.name;
    const differs = (
      setting: (use: (typeof of)[number]) => string | undefined,
      weight: Clash["weight"],
      doing: string,
    ): Clash[] => {
      const by = grouped(of, setting);
      if (by.length < 2) return [];
      const ways = by.map(
        (each) => `${setting(each[0] as never)} on ${list(each.map(({ called }) => called))}`,
      );
      const says = `${name} has to be ${ways.join(", and ")}. ${doing}`;
      return [{ weight, says, job: lastOf(of) }];
    };
    return [
      ...differs(
        sleeve,
        "fails",
        "Take another string, or another kickover tool, for one of them.",
      ),
      ...differs(size, "fails", "Take another string for one of them."),
      ...differs(pins, "ask", "Pin the running tool anew between the two jobs."),
      ...madeUpTwice(of),
    ];
  });
}

type StringUse = ReturnType<typeof pocketsIn>[number] & {
  readonly purpose: "pull" | "set";
  readonly string: ToolString;
};

const sleeve = ({ mandrel }: StringUse) => {
  if (!mandrel || mandrel.orientingSleeve === "not known") return undefined;
  return mandrel.orientingSleeve === "yes"
    ? "orienting, for a sleeve,"
    : "not orienting, without a sleeve,";
};

const size = ({ mandrel }: StringUse) =>
  mandrel && mandrel.pocket !== "not known" ? `for a ${mandrel.pocket} pocket` : undefined;

const pins = ({ purpose, at }: StringUse) => {
  const { pins: asked } = at.job;
  if (purpose !== "set" || !asked) return undefined;
  const diameter = asked.diameter ? ` ${asEntered(asked.diameter)}` : "";
  return `pinned ${asked.count} × ${asked.material}${diameter}`;
};

/** An issued job keeps the string as it was then: one name, and two ways to make it up. */
function madeUpTwice(uses: readonly StringUse[]): Clash[] {
  const ways = new Set(uses.map(({ string }) => JSON.stringify(string.tools)));
  if (ways.size < 2) return [];
  const wells = list(uses.map(({ job }) => job.well));
  const says = `${uses[0]?.string.name} is not made up the same for ${wells}: it was changed after one of them was issued. Issue that one again, or make the string up anew between the two.`;
  return [{ weight: "ask", says }];
}

function ownedClashes(day: string, jobs: readonly DayJob[], tools: Library["tools"]): Clash[] {
  const used = new Set(
    jobs.flatMap(({ programme: { strings } }) =>
      Object.values(strings).flatMap((string) => string?.tools.map(({ id }) => id) ?? []),
    ),
  );
  return tools
    .filter(({ id }) => used.has(id))
    .flatMap((tool): Clash[] => {
      const problem = ownedProblem(tool, day);
      return problem ? [{ weight: "fails", says: `${problem} Put another into its string.` }] : [];
    });
}

/** Each job that is not issued, with its worst open point. */
function notReady(jobs: readonly DayJob[]): Clash[] {
  return jobs.flatMap(({ job, well, stage, readiness }): Clash[] => {
    const [worst] = readiness.points;
    if (stage !== "draft") return [];
    if (!worst) {
      return [{ weight: "ask", says: `${well} is ready, and not issued yet.`, job: job.id }];
    }
    const more = readiness.points.length - 1;
    const says = `${well}${worst.stops ? " is not ready" : ""}: ${worst.says}${more > 0 ? ` And ${more} more.` : ""}`;
    return [{ weight: worst.weight, says, job: job.id }];
  });
}

/** A piece of equipment that more than one job of the day takes. */
export interface Shared {
  readonly kind: "string" | "line" | "stack";
  readonly name: string;
  readonly wells: readonly string[];
}

export function sharedBy(jobs: readonly DayJob[]): Shared[] {
  const taken = jobs.flatMap(({ job, well, programme: { strings, line, stack } }) => {
    const of = (kind: Shared["kind"], record: { id: string; name: string } | undefined) =>
      record ? [{ kind, key: `${kind} ${record.id}`, name: record.name, well, job: job.id }] : [];
    return [
      ...Object.values(strings).flatMap((string) => of("string", string)),
      ...of("line", line),
      ...of("stack", stack),
    ];
  });
  return grouped(taken, ({ key }) => key).flatMap((uses): Shared[] => {
    const [first] = uses;
    return first && new Set(uses.map(({ job }) => job)).size > 1
      ? [{ kind: first.kind, name: first.name, wells: [...new Set(uses.map(({ well }) => well))] }]
      : [];
  });
}
