import { PA_PER_PSI } from "../../calc/units.ts";
import type { Writer } from "../display.ts";
import type { Dimension } from "../quantity.ts";
import type { EvidenceKind } from "../records/investigation.ts";
import { type Condition, injectionRead } from "./conditions.ts";
import type { Judged } from "./judged.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Observations } from "./observations.ts";
import { expectedOf } from "./predicted.ts";
import type { Expected, Fault, NextMeasurement } from "./ranking.ts";
import { bleedRestOf, levelBetween, returnsOf, TIME_SPREAD } from "./timedTerms.ts";

/** A measurement somebody could take, and what a condition makes of it. */
interface Choice {
  readonly kind: EvidenceKind;
  readonly what: string;
  /** "casing comes to rest at" */
  readonly shows: string;
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
      what: "Read the supply pressure upstream of the injection choke and look at the choke",
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
      dimension: "length",
      of: mostGasAt(lifted),
      spread: () => 40,
    },
    lifted.spaces !== undefined &&
      !has(seen.tracers) && {
        kind: "tracer",
        what: "Put a slug of tracer gas into the injection gas and time its returns",
        shows: "the first return after",
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
      of: (condition) => levelBetween(lifted, condition)[0],
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

/** True vertical depth at which most of the gas enters, m. */
const mostGasAt =
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
    return at;
  };

/** Below this a measurement tells nothing that is worth going out for. Chosen by Latchline, no source. */
const WORTH_WHILE = 0.5;

/** What would best tell the two most probable apart: by what their draws, counted as the evidence has them, would show. */
export function nextMeasurements(
  lifted: LiftedWell,
  seen: Observations,
  first: Judged | undefined,
  second: Judged | undefined,
  writer: Writer,
): NextMeasurement[] {
  if (!first || !second) return [];
  return choicesOf(lifted, seen)
    .flatMap((choice) => {
      const one = shown(choice, first);
      const two = shown(choice, second);
      if (!one || !two) return [];
      const apart = Math.abs(one.mean - two.mean);
      const spread = Math.hypot(
        one.spread,
        two.spread,
        choice.spread((Math.abs(one.mean) + Math.abs(two.mean)) / 2),
      );
      const separation = spread > 0 ? apart / spread : 0;
      const say = ({ mean, spread: give }: Expected) =>
        `${choice.shows} ${writer.write(choice.dimension, mean)} ± ${eitherWay(choice.dimension, give, writer)}`;
      return [
        {
          kind: choice.kind,
          what: choice.what,
          ifFirst: say(one),
          ifSecond: say(two),
          separation,
        },
      ];
    })
    .filter(({ separation }) => separation >= WORTH_WHILE)
    .sort((a, b) => b.separation - a.separation);
}

/** A spread in the writer's units: of a pressure it is a difference. */
export const eitherWay = (dimension: Dimension, spread: number, writer: Writer): string =>
  writer.write(dimension === "pressure" ? "pressure difference" : dimension, spread);

function shown(choice: Choice, { candidate, conditions, after }: Judged): Expected | undefined {
  const values: number[] = [];
  const weights: number[] = [];
  conditions.forEach((condition, i) => {
    const value = choice.of(condition, candidate.hypothesis.fault);
    if (value === undefined || !Number.isFinite(value)) return;
    values.push(value);
    weights.push(after[i] as number);
  });
  return values.length > 1 ? expectedOf(values, weights) : undefined;
}
