import { differenceInCalendarDays, format, parseISO } from "date-fns";
import { fieldInWords } from "../entryInWords.ts";
import type { JobEvent } from "../log/event.ts";
import { logsByJob } from "../log/logsByJob.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel, valveToPull } from "../programme.ts";
import { isPulledCondition, type PulledCondition } from "../pulledConditions.ts";
import type { Quantity } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import { plainSerial } from "../serial.ts";
import { sheetWanted } from "../sheet/sheetWanted.ts";
import { fieldById, pocketOfField } from "../sheet/walk.ts";
import { foldJob, type JobState, type Reading } from "../state/jobState.ts";
import { pocketHolds } from "../state/pocketAtWork.ts";
import { bare } from "./entry.ts";
import { pocketInWords } from "./places.ts";

/** Something that befell a valve. */
export interface Befell {
  readonly serial: string;
  readonly day: string;
  readonly what: NonNullable<Valve["history"]>[number]["what"];
  /** well and mandrel, as they were called then */
  readonly where?: string | undefined;
  readonly words?: string | undefined;
  /** how it was found, when it was pulled */
  readonly condition?: PulledCondition | undefined;
  /** on the test rack at 60 degF, when it was set */
  readonly setPressure?: Quantity<"pressure"> | undefined;
  /** The job whose log says it; what the valve's own record says has none. */
  readonly job?: string;
  /** Its record was not approved yet. */
  readonly unapproved?: true;
  /** since it was set, where that is known */
  readonly daysInService?: number;
}

/** What the logs of jobs say of valves and pockets. A log that cannot be read says so on its own screens. */
export function befellInLogs(
  events: readonly JobEvent[],
  isWanted: (issued: JobEvent) => boolean = () => true,
): Befell[] {
  return [...logsByJob(events).values()].flatMap((log) => {
    // A fold is dear where there are hundreds of jobs.
    if (!log.some((event) => event.body.type === "programme issued" && isWanted(event))) return [];
    try {
      return befellIn(foldJob(log));
    } catch {
      return [];
    }
  });
}

/** Whether the programme of an issue names a valve, by its id or by its serial. */
export const namesValve =
  ({ id, serial }: Pick<Valve, "id" | "serial">) =>
  ({ body }: JobEvent): boolean => {
    if (body.type !== "programme issued") return false;
    const { installed, replacement, replacements = [] } = body.programme;
    return [...installed, ...(replacement ? [replacement] : []), ...replacements].some(
      (valve) => valve.id === id || plainSerial(valve.serial) === plainSerial(serial),
    );
  };

/** Whether an issue is for a job on a well. */
export const isOnWell =
  (well: string) =>
  ({ body }: JobEvent): boolean =>
    body.type === "programme issued" && body.programme.job.well === well;

/** What one job's log says was pulled and set, pocket by pocket. */
export function befellIn(state: JobState): Befell[] {
  const { programme, stage } = state;
  if (!programme) return [];
  return pocketsOf(programme.job).flatMap((pocket) => {
    const of = focus(programme, pocket);
    const where = pocketInWords(
      of.well?.name ?? programme.job.well,
      targetMandrel(of)?.number ?? "?",
    );
    const readings = state.readings.filter(
      ({ field }) => (pocketOfField(programme.sheet, field) ?? programme.job.mandrel) === pocket,
    );
    const about = {
      where,
      job: programme.job.id,
      ...(stage !== "approved" && { unapproved: true as const }),
    };
    const emptied = readings.find((reading) => holds(state, reading) === "nothing");
    const came = sheetWanted(of.job).work !== "set into an empty pocket" && emptied;
    // What came out is what its tag said, whatever was thought to sit there.
    const out = latest(readings, "pulled-serial");
    const serial = (out?.value.kind === "text" && out.value.text) || valveToPull(of)?.serial;
    const words = conditionInWords(state, readings);
    const found = latest(readings, "pulled-condition")?.value;
    const condition =
      found?.kind === "choice" && isPulledCondition(found.choice) ? found.choice : undefined;
    const as = { ...(words && { words }), ...(condition && { condition }) };
    const pulled: Befell[] =
      came && serial ? [{ serial, day: dayOf(came), what: "pulled", ...about, ...as }] : [];
    const setPressure = of.replacement?.card?.testRackOpening60F;
    const filled = readings.findLast((reading) => holds(state, reading) === "replacement");
    const set: Befell[] =
      filled && of.replacement && pocketHolds(state, pocket) === "replacement"
        ? [
            {
              serial: of.replacement.serial,
              day: dayOf(filled),
              what: "set",
              ...about,
              ...(setPressure && { setPressure }),
            },
          ]
        : [];
    return [...pulled, ...set];
  });
}

/** In days of the tablet's clock, as records have them. */
const dayOf = ({ takenAt }: Reading) => format(parseISO(takenAt), "yyyy-MM-dd");

function holds({ programme }: JobState, { field: id, value }: Reading) {
  const field = programme && fieldById(programme.sheet, id);
  if (field?.kind !== "choice" || value.kind !== "choice") return undefined;
  return field.choices.find((each) => each.value === value.choice)?.pocketHolds;
}

/** The latest reading of a field, whichever pocket's it is: a further pocket's ends with its place. */
const latest = (readings: readonly Reading[], base: string) =>
  readings.findLast(({ field }) => field === base || field.startsWith(`${base}-pocket-`));

/** How the pulled valve was found, in words. */
function conditionInWords({ programme }: JobState, readings: readonly Reading[]): string {
  return ["pulled-condition", "pulled-complete", "pulled-words"]
    .flatMap((base) => {
      const reading = latest(readings, base);
      if (!programme || !reading) return [];
      return [fieldInWords(fieldById(programme.sheet, reading.field), reading.value)];
    })
    .join(". ");
}

/** What befell a valve, oldest first: what its record says and what the logs say, once each. */
export function historyOf(
  { serial, history = [] }: Pick<Valve, "serial" | "history">,
  inLogs: readonly Befell[],
): Befell[] {
  const own = inLogs.filter((each) => plainSerial(each.serial) === plainSerial(serial));
  const recorded = history.map((each): Befell => ({ serial, ...each }));
  const isTwice = (each: Befell) => own.some((logged) => isTheSame(each, logged));
  const joined = own.map((logged) => ({
    ...recorded.find((each) => isTheSame(each, logged)),
    ...logged,
  }));
  return withService([...recorded.filter((each) => !isTwice(each)), ...joined]);
}

/**
 * Where a job's log has moved a valve and the well's record has not followed: that is put there after the approval.
 *
 * @param pockets in which the wells' records have it, in words
 * @param befell oldest first
 */
export function recordLagsInWords(
  pockets: readonly string[],
  befell: readonly Befell[],
): string | undefined {
  const last = befell.at(-1);
  if (last?.job === undefined || last.where === undefined) return undefined;
  const where = bare(last.where);
  const isThere = pockets.some((each) => bare(each) === where);
  const lags = (last.what === "pulled" && isThere) || (last.what === "set" && !isThere);
  const moved = last.what === "pulled" ? "pulled out of" : "set into";
  return lags
    ? `By the log of a job it was ${moved} ${last.where} on ${last.day}; the well's record does not say so yet.`
    : undefined;
}

/** What was set into a pocket and pulled out of it, oldest first. */
export function pocketHistory(
  well: string,
  mandrel: number,
  valves: readonly Pick<Valve, "serial" | "history">[],
  inLogs: readonly Befell[],
): Befell[] {
  const here = bare(pocketInWords(well, mandrel));
  const known = new Map(valves.map((valve) => [plainSerial(valve.serial), valve]));
  for (const { serial } of inLogs) {
    if (!known.has(plainSerial(serial))) known.set(plainSerial(serial), { serial });
  }
  return [...known.values()]
    .flatMap((valve) => historyOf(valve, inLogs))
    .filter(({ where = "" }) => bare(where) === here)
    .sort(byDay);
}

/** The record says it as well, perhaps in other words for the place. */
const isTheSame = (a: Befell, b: Befell) => a.what === b.what && a.day === b.day;

const byDay = (a: Befell, b: Befell) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0);

/** With the days from the set to the pull, where both are known. */
function withService(befell: readonly Befell[]): Befell[] {
  let set: Befell | undefined;
  return befell.toSorted(byDay).map((each) => {
    if (each.what !== "pulled") {
      if (each.what === "set") set = each;
      return each;
    }
    const since = set;
    set = undefined;
    if (!since) return each;
    const days = differenceInCalendarDays(parseISO(each.day), parseISO(since.day));
    return { ...each, daysInService: days };
  });
}
