import { differenceInCalendarDays, parseISO } from "date-fns";
import { PA_PER_PSI } from "../../calc/units.ts";
import { bare } from "../library/entry.ts";
import type { Befell } from "../library/history.ts";
import { pocketInWords } from "../library/places.ts";
import { plainSerial } from "../serial.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Pocket } from "./pocket.ts";
import type { Fault, Hypothesis } from "./ranking.ts";

/**
 * How often each kind of fault is at the bottom of a complaint, before anything is read. Chosen by Latchline, no
 * source: of the same order for all, so that the evidence decides, and shared out among the mandrels that a kind
 * can be at.
 */
export const priorOfKind: Readonly<Record<Fault["kind"], number>> & { readonly none: number } = {
  "nothing downhole": 0.1,
  supply: 0.15,
  "back-pressure at surface": 0.06,
  "tubing leak": 0.08,
  "stuck open": 0.14,
  leaking: 0.1,
  plugged: 0.1,
  "set too low": 0.06,
  "set too high": 0.05,
  "latch or packing leaks": 0.07,
  "wrong depth": 0.03,
  "multi-point": 0.1,
  none: 0.04,
};

/**
 * m of plain tubing that wear as much as what belongs to a mandrel: its own connections, where tools pass and gas has cut. Holes
 * are looked for there first, common practice; the figure is chosen by Latchline, no source.
 */
const AT_MANDREL = 150;

/** A hypothesis before the evidence. */
export interface Candidate {
  readonly hypothesis: Hypothesis;
  readonly prior: number;
  /** what the history of the pocket does to it, in words, and ln of the factor */
  readonly history: { readonly says: string; readonly weight: number } | undefined;
  /** of a leak in the tubing: true vertical depths that it lies between, m */
  readonly between?: readonly [top: number, bottom: number];
}

/** Set pressures closer than this are one set pressure, and ports closer than this in ln of their area one port. */
const SAME_SET = 10 * PA_PER_PSI;
const SAME_PORT = 0.15;

/** Whether the well would work otherwise with the two exchanged. An orifice takes the place of no bellows valve. */
function differ(a: Pocket, b: Pocket): boolean {
  if (a.holds !== b.holds) return true;
  if (Math.abs(Math.log(a.size / b.size)) > SAME_PORT) return true;
  const [one, other] = [a.bellows?.rack, b.bellows?.rack];
  return one !== undefined && other !== undefined && Math.abs(one - other) > SAME_SET;
}

const exchanged = (a: Pocket, b: Pocket): string =>
  a.holds === b.holds
    ? `${a.holds === "orifice" ? "Orifices" : "Valves"} of mandrels ${a.number} and ${b.number} exchanged`
    : `Orifice sits in mandrel ${(a.holds === "orifice" ? b : a).number}, the valve of that in mandrel ${(a.holds === "orifice" ? a : b).number}`;

type AtMandrel = Extract<Fault, { mandrel: number }>["kind"];

const titles: Readonly<Record<Exclude<AtMandrel, "wrong depth">, (what: string) => string>> = {
  "stuck open": (what) => `${what} stuck open`,
  leaking: (what) => `${what} leaks at its seat`,
  plugged: (what) => `${what} plugged or will not open`,
  "set too low": (what) => `${what} set too low`,
  "set too high": (what) => `${what} set too high`,
  "latch or packing leaks": (what) => `${what}: latch or packing leaks`,
};

const applies: Readonly<Record<Exclude<AtMandrel, "wrong depth">, (pocket: Pocket) => boolean>> = {
  "stuck open": ({ holds }) => holds === "bellows",
  leaking: ({ holds }) => holds === "bellows",
  plugged: ({ holds }) => holds === "bellows" || holds === "orifice",
  "set too low": ({ holds }) => holds === "bellows",
  "set too high": ({ holds }) => holds === "bellows",
  "latch or packing leaks": ({ holds }) => holds !== "nothing",
};

const whatIn = ({ holds, number }: Pocket) =>
  `${holds === "orifice" ? "Orifice" : holds === "blank" ? "Dummy" : "Valve"} in mandrel ${number}`;

/** Everything that may be wrong with a well, each with its prior; together with "none of these" they make 1. */
export function candidatesOf(
  lifted: LiftedWell,
  wellName: string,
  history: readonly Befell[],
  on: string,
): Candidate[] {
  const { pockets } = lifted;
  const groups: { kind: Fault["kind"]; members: Omit<Candidate, "prior">[]; shares: number[] }[] =
    [];
  const group = (
    kind: Fault["kind"],
    members: readonly (Omit<Candidate, "prior"> & { share: number })[],
  ) => {
    if (members.length > 0) {
      groups.push({
        kind,
        members: members.map(({ share: _, ...rest }) => rest),
        shares: members.map(({ share }) => share),
      });
    }
  };
  const one = (id: string, title: string, fault: Fault, share = 1) => ({
    hypothesis: { id, title, fault },
    history: undefined,
    share,
  });
  group("nothing downhole", [
    one("nothing downhole", "Nothing wrong downhole: the well works as it is set", {
      kind: "nothing downhole",
    }),
  ]);
  group("supply", [
    one("supply pressure fell", "Gas supply pressure fell", {
      kind: "supply",
      what: "supply pressure fell",
    }),
    one("choke smaller", "Injection choke smaller, frozen or plugged", {
      kind: "supply",
      what: "choke smaller",
    }),
    one("choke larger", "Injection choke larger or cut", { kind: "supply", what: "choke larger" }),
  ]);
  group("back-pressure at surface", [
    one("back-pressure", "Back-pressure at surface: flowline, choke or separator", {
      kind: "back-pressure at surface",
    }),
  ]);
  const ends = [0, ...pockets.map(({ depth }) => depth), lifted.bottom];
  group(
    "tubing leak",
    ends.slice(1).flatMap((bottom, i) => {
      const top = ends[i] as number;
      if (bottom - top < 1) return [];
      const above = pockets[i - 1]?.number;
      const under = pockets[i]?.number;
      const where =
        above === undefined
          ? `above mandrel ${under}`
          : under === undefined
            ? `below mandrel ${above}`
            : `between mandrels ${above} and ${under}`;
      return [
        {
          ...one(
            `tubing leak ${where}`,
            `Hole in the tubing ${where}`,
            { kind: "tubing leak", depthM: (top + bottom) / 2 },
            bottom - top + AT_MANDREL,
          ),
          between: [top, bottom] as const,
        },
      ];
    }),
  );
  for (const kind of Object.keys(applies) as (keyof typeof applies)[]) {
    group(
      kind,
      pockets.filter(applies[kind]).map((pocket) => {
        const past = historyOf(pocket, wellName, history, on);
        // At the point that should be operating "open" is as it should be, until its bellows ought to shut it.
        const isOperating = kind === "stuck open" && pocket === operatingOf(pockets);
        return {
          ...one(`${kind} ${pocket.number}`, titles[kind](whatIn(pocket)), {
            kind,
            mandrel: pocket.number,
          }),
          history: past,
          share: (past ? Math.exp(past.weight) : 1) * (isOperating ? 0.4 : 1),
        };
      }),
    );
  }
  const valves = pockets.filter(({ holds }) => holds === "bellows" || holds === "orifice");
  group(
    "wrong depth",
    valves.flatMap((a, i) =>
      valves
        .slice(i + 1)
        .filter((b) => differ(a, b))
        .map((b) =>
          one(`wrong depth ${a.number} ${b.number}`, exchanged(a, b), {
            kind: "wrong depth",
            mandrel: a.number,
            other: b.number,
          }),
        ),
    ),
  );
  const passing = pockets.filter(({ size }) => size > 0);
  group(
    "multi-point",
    passing.slice(1).flatMap((b, i) => {
      const a = passing[i] as Pocket;
      if (a.holds !== "bellows") return [];
      return [
        one(
          `multi-point ${a.number} ${b.number}`,
          `Lift has not transferred below mandrel ${a.number}: gas at ${a.number}, perhaps at ${b.number} too`,
          { kind: "multi-point", mandrels: [a.number, b.number] },
        ),
      ];
    }),
  );
  const all = groups.reduce((sum, { kind }) => sum + priorOfKind[kind], priorOfKind.none);
  return groups.flatMap(({ kind, members, shares }) => {
    const total = shares.reduce((sum, each) => sum + each, 0);
    return members.map((member, i) => ({
      ...member,
      prior: ((priorOfKind[kind] / all) * (shares[i] as number)) / total,
    }));
  });
}

/** The deepest point that can pass gas: where it enters a well that is unloaded. */
export const operatingOf = (pockets: readonly Pocket[]): Pocket | undefined =>
  pockets.findLast(({ size }) => size > 0);

/** Years in a pocket after which a valve counts as twice as likely to be at fault. */
const YEARS_TO_DOUBLE = 4;
/** What each valve pulled early from a pocket adds, up to three. */
const EARLY_PULL = 0.3;
const EARLY_DAYS = 365;

function historyOf(
  { number, serial }: Pocket,
  wellName: string,
  history: readonly Befell[],
  on: string,
): Candidate["history"] {
  const here = bare(pocketInWords(wellName, number));
  const inPocket = history.filter(({ where = "" }) => bare(where) === here);
  const early = inPocket.filter(
    ({ what, daysInService }) =>
      what === "pulled" && daysInService !== undefined && daysInService < EARLY_DAYS,
  ).length;
  const set = history
    .filter(
      (each) =>
        each.what === "set" &&
        serial !== undefined &&
        plainSerial(each.serial) === plainSerial(serial),
    )
    .map(({ day }) => differenceInCalendarDays(parseISO(on), parseISO(day)))
    .filter((days) => days >= 0)
    .sort((a, b) => a - b)[0];
  if (early === 0 && set === undefined) return undefined;
  const years = Math.min(12, (set ?? 0) / 365.25);
  const factor = (1 + years / YEARS_TO_DOUBLE) * (1 + EARLY_PULL * Math.min(3, early));
  const words = [
    set !== undefined &&
      `${serial} has been in mandrel ${number} for ${set < 700 ? `${set} days` : `${years.toFixed(0)} years`}`,
    early > 0 &&
      `${early} valve${early > 1 ? "s" : ""} pulled from mandrel ${number} within a year of being set`,
  ].filter((each) => each !== false);
  return { says: words.join("; "), weight: Math.log(factor) };
}
