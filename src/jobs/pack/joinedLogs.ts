import { asEntered } from "../display.ts";
import { fieldInWords } from "../entryInWords.ts";
import type { JobEvent } from "../log/event.ts";
import { union } from "../log/order.ts";
import { fieldById, stepById } from "../sheet/walk.ts";
import { foldInOrder, type JobState, type Reading } from "../state/jobState.ts";
import type { FieldDifference } from "./differences.ts";

/** What becomes of the log of one job when the pack's is joined to the one that is here. */
export interface JoinedLog {
  readonly job: string;
  readonly newEvents: number;
  /** what the two tablets read differently without knowing of each other, and nobody has settled */
  readonly conflicts: readonly FieldDifference[];
  /** steps that the two tablets recorded as done without knowing of each other, by their titles */
  readonly doneApart: readonly string[];
  /** why what the joined log says cannot be told; it is kept all the same */
  readonly unread?: string;
}

/**
 * Joins a pack's logs to those that are here, without writing anything.
 *
 * @param clashes the places where one log cannot hold both, in words: nothing of the pack can be imported then
 */
export function joinLogs(
  arriving: readonly JobEvent[],
  here: readonly JobEvent[],
): { readonly logs: readonly JoinedLog[]; readonly clashes: readonly string[] } {
  const known = new Map(here.map((event) => [event.hash, event]));
  const fresh = arriving.filter(({ hash }) => !known.has(hash));
  const places = new Map(here.flatMap((event) => placesOf(event).map((place) => [place, event])));
  const clashes = fresh.flatMap((event) => {
    const taken = placesOf(event)
      .map((place) => places.get(place))
      .find((each) => each);
    return taken
      ? [`event ${event.sequence} of job ${event.job} is another one here than in the pack`]
      : [];
  });
  const jobs = [...new Set(arriving.map(({ job }) => job))];
  const logs = jobs.map((job): JoinedLog => {
    const of = (events: readonly JobEvent[]) => events.filter((event) => event.job === job);
    const [mine, theirs] = [of(here), of(arriving)];
    const newEvents = of(fresh).length;
    const joins = clashes.length === 0 && newEvents > 0 && mine.length > 0;
    const nothing = { job, newEvents, conflicts: [], doneApart: [] };
    if (!joins) return nothing;
    try {
      const joined = foldInOrder(union(mine, theirs));
      const before = foldInOrder(union(mine, []));
      return {
        ...nothing,
        conflicts: newConflicts(joined, before, known),
        doneApart: newlyDoneApart(joined, before),
      };
    } catch (error) {
      return { ...nothing, unread: (error as Error).message };
    }
  });
  return { logs, clashes };
}

/** Where only one event may stand. */
const placesOf = ({ id, job, device, sequence }: JobEvent) => [
  `event ${id}`,
  `place ${sequence} of ${device} in ${job}`,
];

function newConflicts(
  joined: JobState,
  before: JobState,
  known: ReadonlyMap<string, JobEvent>,
): FieldDifference[] {
  return [...joined.conflicts].flatMap(([field, readings]) => {
    if (before.conflicts.has(field)) return [];
    const isHere = ({ standsOn }: Reading) => known.has(standsOn);
    const said = (each: readonly Reading[]) =>
      each.map((reading) => readingInWords(joined, reading)).join("; ");
    return [
      {
        where: fieldOf(joined, field)?.label ?? field,
        mine: said(readings.filter(isHere)),
        theirs: said(readings.filter((each) => !isHere(each))),
      },
    ];
  });
}

function newlyDoneApart({ doneApart, programme }: JobState, before: JobState): string[] {
  const known = new Set(before.doneApart.map(({ event }) => event.hash));
  const steps = doneApart.filter(({ event }) => !known.has(event.hash)).map(({ step }) => step);
  return [...new Set(steps)].map(
    (step) => (programme && stepById(programme.sheet, step)?.title) ?? step,
  );
}

const fieldOf = ({ programme }: JobState, field: string) =>
  programme && fieldById(programme.sheet, field);

function readingInWords(state: JobState, { field, value, event }: Reading): string {
  const said =
    value.kind === "quantity" ? asEntered(value) : fieldInWords(fieldOf(state, field), value);
  return `${said}, by ${event.actor.name}`;
}
