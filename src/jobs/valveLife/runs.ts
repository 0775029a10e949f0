import { differenceInCalendarDays, parseISO } from "date-fns";
import { groupedBy } from "../groupedBy.ts";
import { bare } from "../library/entry.ts";
import { type Befell, historyOf } from "../library/history.ts";
import { placesOf, pocketInWords } from "../library/places.ts";
import type { PulledCondition } from "../pulledConditions.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel, Well } from "../records/well.ts";
import { plainSerial } from "../serial.ts";

/** One valve in one pocket, from the day it was set to the day it was pulled or last known to be there. */
export interface ValveRun {
  readonly serial: string;
  /** undefined where no record of the valve is here */
  readonly kind: Valve["kind"] | undefined;
  /** well and mandrel, as a history writes them */
  readonly pocket: string;
  readonly well: Pick<Well, "id" | "name" | "field" | "invented"> | undefined;
  /** along hole, m; undefined where the well's record is not here */
  readonly depth: number | undefined;
  readonly from: string;
  /** undefined while it is in service */
  readonly to: string | undefined;
  readonly days: number;
  /** "not said": pulled, and nobody wrote how it was found */
  readonly end: "failed" | "good" | "not said" | "in service";
  readonly condition: PulledCondition | undefined;
  readonly setPressure: Quantity<"pressure"> | undefined;
}

/** A valve's stay in a pocket that cannot be counted, and why. */
export interface Uncounted {
  readonly serial: string;
  readonly pocket: string;
  readonly why: string;
}

export interface Runs {
  /** in the order they began */
  readonly runs: readonly ValveRun[];
  readonly uncounted: readonly Uncounted[];
}

type History = Pick<Valve, "id" | "serial" | "kind" | "history">;

/**
 * Every stay of a valve in a pocket that the records and the logs tell of.
 *
 * @param inLogs what the logs say befell valves
 * @param today  day up to which valves in service have lasted
 */
export function runsOf(
  valves: readonly History[],
  wells: readonly Well[],
  inLogs: readonly Befell[],
  today: string,
): Runs {
  const pockets = new Map(
    wells.flatMap((well) =>
      well.mandrels.map(
        (mandrel) => [bare(pocketInWords(well.name, mandrel.number)), { well, mandrel }] as const,
      ),
    ),
  );
  const places = placesOf(wells);
  const known = new Set(valves.map(({ serial }) => plainSerial(serial)));
  const strangers = [...new Set(inLogs.map(({ serial }) => serial))]
    .filter((serial) => !known.has(plainSerial(serial)))
    .map((serial) => ({ id: undefined, serial, kind: undefined }));
  const logsBySerial = groupedBy(inLogs, ({ serial }) => plainSerial(serial));
  const runs: ValveRun[] = [];
  const uncounted: Uncounted[] = [];
  for (const valve of [...valves, ...strangers]) {
    const sitsIn = (valve.id === undefined ? [] : (places.get(valve.id) ?? [])).map((place) =>
      pocketInWords(place.wellName, place.number),
    );
    const befell = historyOf(valve, logsBySerial.get(plainSerial(valve.serial)) ?? []);
    const found = staysIn(valve, befell, sitsIn, today);
    runs.push(...found.runs.map((run) => ({ ...run, ...placeOf(pockets, run.pocket) })));
    uncounted.push(...found.uncounted);
  }
  return { runs: runs.sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0)), uncounted };
}

function placeOf(
  pockets: ReadonlyMap<string, { readonly well: Well; readonly mandrel: Mandrel }>,
  pocket: string,
): Pick<ValveRun, "well" | "depth"> {
  const at = pockets.get(bare(pocket));
  return { well: at?.well, depth: at && toSI("length", at.mandrel.depthAlongHole) };
}

type Stay = Omit<ValveRun, "well" | "depth">;

/** From a history, oldest first: each set with the pull that ends it. */
function staysIn(
  { serial, kind }: Pick<ValveRun, "serial" | "kind">,
  befell: readonly Befell[],
  sitsIn: readonly string[],
  today: string,
): { readonly runs: readonly Stay[]; readonly uncounted: readonly Uncounted[] } {
  const runs: Stay[] = [];
  const uncounted: Uncounted[] = [];
  const leaveOut = (pocket: string, why: string) => uncounted.push({ serial, pocket, why });
  let set: Befell | undefined;
  const end = (to: string, of: Befell | undefined) => {
    if (!set) return;
    const { condition } = of ?? {};
    runs.push({
      serial,
      kind,
      pocket: set.where ?? "a pocket that is not named",
      from: set.day,
      to: of?.day,
      days: differenceInCalendarDays(parseISO(to), parseISO(set.day)),
      end: !of ? "in service" : !condition ? "not said" : condition === "good" ? "good" : "failed",
      condition,
      setPressure: set.setPressure,
    });
    set = undefined;
  };
  for (const each of befell) {
    if (each.what === "set") {
      if (set) leaveOut(set.where ?? "", "set again, and no pull is on record between");
      set = each;
    }
    if (each.what !== "pulled") continue;
    if (set) end(each.day, each);
    else leaveOut(each.where ?? "", "pulled, and no day on which it was set is on record");
  }
  if (!set) {
    for (const pocket of sitsIn)
      leaveOut(pocket, "in service, and no day on which it was set is on record");
    return { runs, uncounted };
  }
  const where = set.where ?? "";
  const isThere = sitsIn.some((pocket) => bare(pocket) === bare(where));
  // A log is the last word where nobody has brought the well's record up to it yet.
  if (isThere || set.job !== undefined) {
    if (set.day > today) leaveOut(where, "set on a day that has not come yet");
    else end(today, undefined);
  } else if (sitsIn.length > 0) {
    leaveOut(where, `the wells' records have it in ${sitsIn.join(" and in ")}`);
  } else {
    leaveOut(where, "no longer in a pocket, and no day on which it was pulled is on record");
  }
  return { runs, uncounted };
}
