import { PA_PER_PSI } from "../../calc/units.ts";
import { unitLabel, type Writer } from "../display.ts";
import type { Dimension } from "../quantity.ts";
import type { EvidenceKind } from "../records/investigation.ts";
import { type Condition, injectionRead } from "./conditions.ts";
import type { Judged } from "./judged.ts";
import type { LiftedWell } from "./liftedWell.ts";
import { bleedRestOf } from "./notLifted.ts";
import type { Observations } from "./observations.ts";
import { expectedOf } from "./predicted.ts";
import type { Expected, Fault, NextMeasurement } from "./ranking.ts";
import { numberLike } from "./sameDigits.ts";
import { levelBetween, returnsOf, TIME_SPREAD } from "./timedTerms.ts";
import { asksForSameWork } from "./work.ts";

/** A measurement somebody could take, and what a condition makes of it. */
interface Choice {
  readonly kind: EvidenceKind;
  readonly what: string;
  /** "casing comes to rest at" */
  readonly shows: string;
  /** where it finds nothing to time or to place */
  readonly nothing?: string;
  readonly dimension: Dimension;
  readonly of: (condition: Condition, fault: Fault) => number | undefined;
  /** standard deviation of such a measurement and of the model beside it */
  readonly spread: (value: number) => number;
}

function choicesOf(lifted: LiftedWell, seen: Observations): Choice[] {
  const has = (figures: readonly unknown[]) => figures.length > 0;
  const choices: (Choice | false)[] = [
    !(has(seen.injection) && has(seen.rate)) && {
      kind: has(seen.injection) ? "supply" : "pressures",
      what: "Read casing and tubing on two gauges at one moment, with the injection rate beside them",
      shows: has(seen.injection) ? "an injection rate of" : "an injection pressure of",
      dimension: has(seen.injection) ? "gas rate" : "pressure",
      of: (condition) => (has(seen.injection) ? condition.state.rate : injectionRead(condition)),
      spread: (value) =>
        has(seen.injection) ? 0.1 * value + 0.03 * lifted.rate : 0.02 * value + 5 * PA_PER_PSI,
    },
    !has(seen.supplyPressure) && {
      kind: "supply",
      what: `Read the supply pressure upstream of the injection choke${has(seen.found) ? "" : " and look at the choke"}`,
      shows: "a supply pressure of",
      dimension: "pressure",
      of: ({ surface }) => surface.supply,
      spread: (value) => 0.005 * value + 5 * PA_PER_PSI,
    },
    lifted.injectionDown === "annulus" &&
      !has(seen.bleeds) && {
        kind: "casing bleed",
        what: "Shut the supply and let the casing bleed until it rests",
        shows: "the casing at rest at",
        dimension: "pressure",
        of: (condition) => bleedRestOf(lifted, condition, condition.state.surface),
        spread: (value) => 0.03 * value + 10 * PA_PER_PSI,
      },
    !has(seen.surveys) && {
      kind: "survey",
      what: "Run a flowing pressure and temperature survey with stops above and below each mandrel",
      shows: "most of the gas entering by",
      nothing: "no gas entering",
      dimension: "length",
      of: mostGasAt(lifted),
      spread: () => 40,
    },
    lifted.spaces !== undefined &&
      !has(seen.tracers) && {
        kind: "tracer",
        what: "Put a slug of tracer gas into the injection gas and time its returns",
        shows: "the first return after",
        nothing: "no return",
        dimension: "duration",
        of: (condition) => {
          const times = (returnsOf(lifted, condition) ?? [])
            .filter(({ share, time }) => share > 0.1 && Number.isFinite(time))
            .map(({ time }) => time);
          return times.length > 0 ? Math.min(...times) : undefined;
        },
        spread: (value) => TIME_SPREAD * value + 60,
      },
    !has(seen.levels) && {
      kind: "fluid level",
      what: `Shoot the fluid level in the ${lifted.injectionDown === "annulus" ? "annulus" : "tubing"} with the well on lift`,
      shows: "liquid no higher than",
      dimension: "length",
      of: (condition) => lifted.alongHoleAt(levelBetween(lifted, condition)[0]),
      spread: (value) => 0.02 * value + 20,
    },
    lifted.stream !== undefined &&
      !has(seen.producedGas) && {
        kind: "separator test",
        what: "Test the well through a separator, gas and liquid",
        shows: "gas at the separator of",
        dimension: "gas rate",
        of: ({ state }) => state.rate + (lifted.stream?.ownGas ?? 0),
        spread: (value) => 0.1 * value + 0.25 * (lifted.stream?.ownGas ?? 0),
      },
  ];
  return choices.filter((choice) => choice !== false);
}

/** Depth along hole, as a survey counts it, at which most of the gas enters, m; undefined where none does. */
export const mostGasAt =
  (lifted: LiftedWell) =>
  ({ entries, leak }: Condition): number | undefined => {
    let most = leak?.rate ?? 0;
    let at = leak?.depth;
    lifted.pockets.forEach(({ depth }, i) => {
      if ((entries[i] ?? 0) > most) {
        most = entries[i] ?? 0;
        at = depth;
      }
    });
    return at === undefined ? undefined : lifted.alongHoleAt(at);
  };

/** Below this a measurement tells nothing that is worth going out for. Chosen by Latchline, no source. */
const WORTH_WHILE = { separation: 0.5, settles: 0.05 } as const;
/** The leading answers: as many as make so much of all that is likely, and no more than that many. */
const LEADING = { probability: 0.9, most: 10 } as const;

/** A judged answer and how probable it is. */
export interface Placed {
  readonly each: Judged;
  readonly probability: number;
}

/**
 * What would best tell where to go, by what the draws of the leading answers, counted as the evidence has them, would show.
 * Two answers that send a crew to one place need not be told apart.
 *
 * @param order all answers, most probable first
 */
export function nextMeasurements(
  lifted: LiftedWell,
  seen: Observations,
  order: readonly Placed[],
  writer: Writer,
): NextMeasurement[] {
  const leading = leadingOf(order);
  const [first] = leading;
  if (!first) return [];
  const places = groupsOf(leading);
  return choicesOf(lifted, seen)
    .flatMap((choice): NextMeasurement[] => {
      const shown = leading.map(({ each }) => shownBy(choice, each));
      const [one] = shown;
      if (!one) return [];
      const [second] = leading
        .flatMap(({ each, probability }, i) => {
          const other = shown[i];
          if (!other || places[i] === places[0] || isSameWork(first.each, each)) return [];
          const separation = separationOf(choice, one, other);
          const worth = probability * Math.min(1, separation / 2);
          return [{ each, other, separation, worth }];
        })
        .sort((a, b) => b.worth - a.worth);
      if (!second || second.separation < WORTH_WHILE.separation) return [];
      const settles = settledBy(choice, leading, shown, places);
      return [
        {
          kind: choice.kind,
          what: choice.what,
          between: [first.each.candidate.hypothesis.title, second.each.candidate.hypothesis.title],
          ifFirst: sayShown(choice, one, writer),
          ifSecond: sayShown(choice, second.other, writer),
          separation: second.separation,
          settles,
        },
      ];
    })
    .filter(({ settles }) => settles >= WORTH_WHILE.settles)
    .sort((a, b) => b.settles - a.settles);
}

const isSameWork = (one: Judged, other: Judged) =>
  asksForSameWork(one.candidate.hypothesis, other.candidate.hypothesis);

/** The leading answers, with at least one that asks for other work than the first. */
function leadingOf(order: readonly Placed[]): readonly Placed[] {
  const all = order.reduce((sum, { probability }) => sum + probability, 0);
  let before = 0;
  const leading = order.slice(0, LEADING.most).filter(({ probability }) => {
    const isIn = before < LEADING.probability * all;
    before += probability;
    return isIn;
  });
  const [first] = order;
  if (!first || leading.some(({ each }) => !isSameWork(first.each, each))) return leading;
  const rival = order.find(({ each }) => !isSameWork(first.each, each));
  return rival ? [...leading, rival] : leading;
}

/** For each answer the place in the list of the likeliest that asks for the same work. */
const groupsOf = (leading: readonly Placed[]): readonly number[] =>
  leading.map(({ each }) => leading.findIndex((head) => isSameWork(head.each, each)));

/** What an answer's draws show: values with their share of the weight, and the share in which there is none. */
interface Shown {
  readonly values: readonly { readonly value: number; readonly share: number }[];
  readonly none: number;
  readonly expected: Expected | undefined;
}

/** Of the weight of the heaviest draw: lighter ones change nothing. */
const COUNTS = 1e-4;

function shownBy(choice: Choice, { candidate, conditions, after }: Judged): Shown | undefined {
  const most = Math.max(...after);
  if (!Number.isFinite(most)) return undefined;
  const counted = conditions.flatMap((condition, i) => {
    const share = Math.exp((after[i] as number) - most);
    if (share < COUNTS) return [];
    const value = choice.of(condition, candidate.hypothesis.fault);
    return [{ value: value !== undefined && Number.isFinite(value) ? value : undefined, share }];
  });
  const all = counted.reduce((sum, { share }) => sum + share, 0);
  const values = counted.flatMap(({ value, share }) =>
    value === undefined ? [] : [{ value, share: share / all }],
  );
  const none = Math.max(0, 1 - values.reduce((sum, { share }) => sum + share, 0));
  if (none > 0.5 && choice.nothing === undefined) return undefined;
  const expected = expectedOf(
    values.map(({ value }) => value),
    values.map(({ share }) => Math.log(share)),
  );
  return { values, none, expected };
}

/** What finding something is worth beside finding nothing, in spreads: nobody takes the one for the other. */
const SOMETHING = 4;

function separationOf(choice: Choice, one: Shown, other: Shown): number {
  if (one.none > 0.5 || other.none > 0.5 || !one.expected || !other.expected) {
    return SOMETHING * Math.abs(one.none - other.none);
  }
  const [a, b] = [one.expected, other.expected];
  const spread = Math.hypot(
    a.spread,
    b.spread,
    choice.spread((Math.abs(a.mean) + Math.abs(b.mean)) / 2),
  );
  return spread > 0 ? Math.abs(a.mean - b.mean) / spread : 0;
}

const BINS = 48;

/**
 * Of what is open about where to go, the share that a measurement is expected to settle: the information that it has in common
 * with the place, over that which the place has.
 *
 *   Σp Σx P(p) P(x|p) ln(P(x|p) / P(x)) / −Σp P(p) ln P(p)
 *
 * P(x|p) are the draws of the place's answers, each blurred by how far such a measurement is off, in 48 steps of its range.
 */
function settledBy(
  choice: Choice,
  leading: readonly Placed[],
  shown: readonly (Shown | undefined)[],
  places: readonly number[],
): number {
  const values = shown.flatMap((each) => each?.values.map(({ value }) => value) ?? []);
  if (values.length === 0 && !shown.some((each) => each && each.none > 0)) return 0;
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const margin = values.length > 0 ? 2 * choice.spread(high) : 0;
  const from = low - margin;
  const step = (high + margin - from) / BINS;
  const whole = leading.reduce((sum, { probability }) => sum + probability, 0);
  const groups = new Map<number, { probability: number; of: number[] }>();
  leading.forEach(({ probability }, i) => {
    const each = shown[i];
    if (!each) return;
    const group = groups.get(places[i] as number) ?? {
      probability: 0,
      of: Array.from({ length: BINS + 1 }, () => 0),
    };
    groups.set(places[i] as number, group);
    const share = probability / whole;
    group.probability += share;
    (group.of[BINS] as number) += share * each.none;
    for (const { value, share: part } of each.values) {
      blur(group.of, (value - from) / step, choice.spread(value) / step, share * part);
    }
  });
  const all = Array.from({ length: BINS + 1 }, (_, k) =>
    [...groups.values()].reduce((sum, { of }) => sum + (of[k] as number), 0),
  );
  const counted = all.reduce((sum, each) => sum + each, 0);
  let open = 0;
  let settled = 0;
  for (const { probability, of } of groups.values()) {
    open -= (probability / counted) * Math.log(probability / counted);
    for (const [k, joint] of of.entries()) {
      const any = all[k] as number;
      if (joint > 0)
        settled += (joint / counted) * Math.log((joint * counted) / (any * probability));
    }
  }
  return open > 0 ? settled / open : 0;
}

/** Adds a value to the bins as a normal about it; a spread below one bin is one bin. */
function blur(bins: number[], at: number, given: number, share: number) {
  const spread = Math.max(1, given);
  const first = Math.max(0, Math.floor(at - 3 * spread));
  const last = Math.min(BINS - 1, Math.ceil(at + 3 * spread));
  const height = (k: number) => Math.exp(-0.5 * ((k + 0.5 - at) / spread) ** 2);
  let all = 0;
  for (let k = first; k <= last; k += 1) all += height(k);
  if (!(all > 0)) return;
  for (let k = first; k <= last; k += 1) (bins[k] as number) += (share * height(k)) / all;
}

function sayShown(choice: Choice, { none, expected }: Shown, writer: Writer): string {
  if (!expected || none > 0.5) return choice.nothing ?? "";
  const { mean, spread } = expected;
  const off = Math.hypot(spread, choice.spread(Math.abs(mean)));
  return `${choice.shows} ${eitherWay(choice.dimension, mean, off, writer)}`;
}

/** A middle and its spread in the writer's units, with the digits of the middle; of a pressure the spread is a difference. */
function eitherWay(dimension: Dimension, mean: number, spread: number, writer: Writer): string {
  if (dimension === "pressure") {
    return `${writer.write(dimension, mean)} ± ${writer.write("pressure difference", spread)}`;
  }
  const { number, unit } = writer.parts(dimension, mean);
  return `${number} ± ${numberLike(dimension, spread, mean, writer)} ${unitLabel(unit)}`;
}
