import { asEntered } from "../display.ts";
import { toSI } from "../quantity.ts";
import type { Stack } from "../records/equipment.ts";
import type { Job } from "../records/job.ts";
import type { Well } from "../records/well.ts";
import { siteAtmosphere } from "../results/context.ts";
import type { Library } from "../store/library.ts";
import { jobName, lastSaid } from "./jobsBefore.ts";
import { type Option, open, type Proposed } from "./line.ts";

/** Line, pressure equipment and policy: what was used last, or the only one there is. */

type Kind = "lines" | "stacks" | "policies";
const keys = { lines: "line", stacks: "stack", policies: "policy" } as const;
const names = { lines: "line", stacks: "pressure equipment", policies: "policy" } as const;

export interface Equipment {
  readonly options: readonly Option[];
  readonly proposed: Proposed<string>;
}

export function equipmentFor(kind: Kind, job: Job, library: Library): Equipment {
  const well = library.wells.find(({ id }) => id === job.well);
  const key = keys[kind];
  const has = (id: string | undefined) => library[kind].some((each) => each.id === id);
  const last = lastSaid(library, job.id, (before) => (has(before[key]) ? before[key] : undefined));
  const options = library[kind]
    .map(
      (record): Option => ({
        id: record.id,
        name: record.name,
        ...("items" in record ? stackWords(record, job, well) : { says: "", fits: true }),
      }),
    )
    .sort(
      (a, b) =>
        Number(b.fits) - Number(a.fits) ||
        Number(b.id === last?.said) - Number(a.id === last?.said) ||
        a.name.localeCompare(b.name),
    );
  return { options, proposed: proposed(kind, options, last, library) };
}

function proposed(
  kind: Kind,
  options: readonly Option[],
  last: { readonly job: Job; readonly said: string } | undefined,
  library: Library,
): Proposed<string> {
  const [best] = options;
  if (!best) return open(`There is no ${names[kind]} yet.`);
  const against = best.says ? ` ${best.says}` : "";
  if (options.length === 1) {
    return { value: best.id, source: "only one", why: `The only one there is.${against}` };
  }
  if (last?.said === best.id) {
    const why = `One of ${options.length}; as in ${jobName(last.job, library)}.${against}`;
    return { value: best.id, source: "last job", why };
  }
  const before = last
    ? "the one used last does not fit"
    : "none was used before: look whether it is the right one";
  return {
    value: best.id,
    source: "nearest",
    why: `One of ${options.length}; ${before}.${against}`,
  };
}

/** What shows at a glance that a stack cannot do for this well. Length and test pressure are judged with the whole plan. */
function stackWords(
  { items }: Stack,
  job: Job,
  well: Well | undefined,
): Omit<Option, "id" | "name"> {
  const atmosphere = siteAtmosphere({ ...(well && { well }) });
  const rating = ({ rating: of }: Stack["items"][number]) => toSI("pressure", of, atmosphere);
  const [weakest] = [...items].sort((a, b) => rating(a) - rating(b));
  const { maximumShutInWellhead: shutIn, fullInjectionAtSurface: injection } =
    well?.pressures ?? {};
  const [largest] = [shutIn, injection]
    .flatMap((pressure) => (pressure ? [pressure] : []))
    .sort((a, b) => toSI("pressure", b, atmosphere) - toSI("pressure", a, atmosphere));
  const ended = items.find(
    ({ certificateUntil }) => certificateUntil && certificateUntil < job.day,
  );
  const tooWeak =
    weakest && largest && rating(weakest) < toSI("pressure", largest, atmosphere)
      ? `${weakest.name} is rated ${asEntered(weakest.rating)}, and the well may stand at ${asEntered(largest)}.`
      : "";
  const old = ended ? `${ended.name}: certificate ended ${ended.certificateUntil}.` : "";
  return { says: [tooWeak, old].filter(Boolean).join(" "), fits: !tooWeak && !old };
}
