import type { Gas } from "../../calc/gas.ts";
import { gasByAnalysis } from "../../calc/gasByAnalysis.ts";
import { gasByGravity } from "../../calc/gasByGravity.ts";
import { InputError } from "../../calc/inputError.ts";
import { verticalPath, type WellPath, wellPath } from "../../calc/path.ts";
import { type SurveyedPressure, surveyedPressure } from "../../calc/pressureProfile.ts";
import type { StandingLiquid } from "../../calc/standingColumn.ts";
import { type TemperatureProfile, temperatureProfile } from "../../calc/temperatureProfile.ts";
import {
  type AbsolutePa,
  absolutePa,
  alongHoleM,
  kelvin,
  STANDARD_ATMOSPHERE,
  verticalM,
} from "../../calc/units.ts";
import { targetMandrel } from "../programme.ts";
import { type Dimension, type Quantity, toSI } from "../quantity.ts";
import type { Policy } from "../records/policy.ts";
import type { Programme } from "../records/programme.ts";
import type { GasRecord, Mandrel, TemperaturePoint } from "../records/well.ts";
import { correlatedTemperatures } from "./correlatedTemperatures.ts";
import type { Measured, Measurements } from "./measurements.ts";
import type { Given, Origin } from "./traced.ts";

/** A part of the well's description that is not there, or that cannot be used, and why. */
export type Part<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly missing: string };

/** What the whole well is looked at with: its lift pressures, and what sits in the pocket at work. */
export interface Scenario {
  /** the lift as it is meant to be, or as it was last measured */
  readonly lift: "as planned" | "as found";
  readonly pocket: "as installed" | "with the replacement";
  /** surface pressures somebody asks about, in place of those on record */
  readonly injectionAtSurface?: Quantity<"pressure">;
  readonly wellhead?: Quantity<"pressure">;
  /** who read them, and when, where they were read */
  readonly readBy?: ReadBy;
  /** the same of cards that were read on location, by their valve */
  readonly cards?: Readonly<Record<string, ReadBy>>;
}

export interface ReadBy {
  readonly at: string;
  readonly by: string;
}

export const asPlanned: Scenario = { lift: "as planned", pocket: "as installed" };

/** A programme and what was measured, ready for the calculations. */
export interface Context {
  readonly programme: Programme;
  readonly measured: Measurements;
  readonly scenario: Scenario;
  readonly atmosphere: AbsolutePa;
  readonly mandrel: Mandrel | undefined;
  readonly path: Part<WellPath>;
  /** that is injected */
  readonly gas: Part<Gas>;
  /** that stands in the annulus, shut in: the injection gas where it goes down there */
  readonly annulusGas: Part<Gas>;
  /** that stands in the tubing, shut in */
  readonly tubingGas: Part<Gas>;
  readonly shutIn: Part<TemperatureProfile>;
  readonly flowing: Part<TemperatureProfile>;
  /** pressures measured on lift */
  readonly survey: Part<SurveyedPressure>;
  /** Liquid in the annulus; undefined value: none, gas all the way. */
  readonly annulusLiquid: Part<StandingLiquid | undefined>;
}

/** Builds a part; what the core refuses becomes the reason why it is missing. */
export function part<T>(name: string, build: () => T | undefined): Part<T> {
  try {
    const value = build();
    return value === undefined ? { ok: false, missing: name } : { ok: true, value };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { ok: false, missing: `${name} (as entered: ${error.key} must be ${error.allowed})` };
  }
}

/** Absolute pressure of the air at the well, Pa: what its gauges count from. */
export function siteAtmosphere({ well }: Pick<Programme, "well">): AbsolutePa {
  return absolutePa(well?.atmosphere ? toSI("pressure", well.atmosphere) : STANDARD_ATMOSPHERE);
}

export function contextOf(
  programme: Programme,
  measured: Measurements,
  scenario: Scenario = asPlanned,
): Context {
  const { well } = programme;
  const si = <D extends Dimension>(dimension: D, quantity: Quantity<D>) =>
    toSI(dimension, quantity, atmosphere);
  const atmosphere = siteAtmosphere(programme);
  const profile = (points: readonly TemperaturePoint[] | undefined) =>
    points &&
    temperatureProfile(
      points.map((point) => ({
        depth: verticalM(si("length", point.trueVerticalDepth)),
        temperature: kelvin(si("temperature", point.temperature)),
      })),
    );
  const path = part("well path", () => {
    if (!well) return undefined;
    if (well.path.kind === "vertical") return verticalPath();
    return wellPath(
      well.path.stations.map((station) => ({
        depth: alongHoleM(si("length", station.depthAlongHole)),
        inclination: si("angle", station.inclination),
        azimuth: si("angle", station.azimuth),
      })),
    );
  });
  const shutIn = part("shut-in temperatures", () => profile(well?.temperatures.shutIn));
  const gas = part("injection gas, by gravity or analysis", () => gasOf(well?.injectionGas));
  const produced = part(`gas in the ${productionSide(programme)}`, () =>
    gasOf(well?.tubingGas ?? well?.injectionGas),
  );
  const downAnnulus = well?.injectionDown !== "tubing";
  return {
    programme,
    measured,
    scenario,
    atmosphere,
    mandrel: targetMandrel(programme),
    path,
    gas,
    annulusGas: downAnnulus ? gas : produced,
    tubingGas: downAnnulus ? produced : gas,
    shutIn,
    flowing: part("flowing temperatures", () => {
      const points = profile(well?.temperatures.flowing);
      return points ?? correlatedTemperatures(well, path, shutIn, atmosphere);
    }),
    survey: part("pressure survey", () => {
      const stops = well?.lastFound?.survey?.map((stop) => ({
        depth: verticalM(si("length", stop.trueVerticalDepth)),
        pressure: absolutePa(si("pressure", stop.pressure)),
      }));
      // Stops are typed in the order they were run: on the way down or on the way up.
      return stops && surveyedPressure(stops.sort((a, b) => a.depth - b.depth));
    }),
    annulusLiquid: annulusLiquid(programme, atmosphere),
  };
}

/** The well's name, where a record is named as the origin of a figure. */
export const wellName = ({ programme }: Context): string => programme.well?.name ?? "well";

/** The space that fluids come up: the tubing, unless the gas goes down there. */
export const productionSide = ({ well }: Pick<Programme, "well">): "tubing" | "annulus" =>
  well?.injectionDown === "tubing" ? "annulus" : "tubing";

/** Gases by what describes them: making one costs more than asking it, and many contexts share a well. */
const gases = new WeakMap<GasRecord, Gas>();

function gasOf(gas: GasRecord | undefined): Gas | undefined {
  if (!gas) return undefined;
  const before = gases.get(gas);
  if (before) return before;
  const made = makeGas(gas);
  if (made) gases.set(gas, made);
  return made;
}

function makeGas({ specificGravity, co2, h2s, n2, analysis }: GasRecord): Gas | undefined {
  if (analysis) {
    return gasByAnalysis(
      Object.fromEntries(
        Object.entries(analysis).map(([name, fraction]) => [name, toSI("fraction", fraction)]),
      ),
    );
  }
  if (!specificGravity || !co2 || !h2s || !n2) return undefined;
  return gasByGravity({
    specificGravity: specificGravity.value,
    co2: toSI("fraction", co2),
    h2s: toSI("fraction", h2s),
    n2: toSI("fraction", n2),
  });
}

function annulusLiquid(
  { well }: Programme,
  atmosphere: AbsolutePa,
): Part<StandingLiquid | undefined> {
  const liquid = well?.annulusLiquid;
  if (!liquid || liquid.state === "not known") {
    return { ok: false, missing: "liquid level in the annulus" };
  }
  if (liquid.state === "none") return { ok: true, value: undefined };
  return {
    ok: true,
    value: {
      top: verticalM(toSI("length", liquid.topTrueVertical, atmosphere)),
      gradient: toSI("pressure gradient", liquid.gradient),
    },
  };
}

/** A figure of a record as a given: `quantity` undefined means that nobody has said it. */
export function recorded<D extends Dimension>(
  { atmosphere }: Context,
  symbol: string,
  name: string,
  dimension: D,
  quantity: Quantity<D> | undefined,
  where: string,
): Given {
  return {
    symbol,
    name,
    dimension,
    si: quantity && toSI(dimension, quantity, atmosphere),
    origin: { kind: "record", where },
  };
}

/** Limits of the policy that are quantities. */
type QuantityLimit = {
  [K in keyof Policy]-?: NonNullable<Policy[K]> extends { readonly value: Quantity } ? K : never;
}[keyof Policy];

/** A limit of the policy as a given, with where the policy has it from. */
export function policyGiven(
  context: Context,
  symbol: string,
  name: string,
  dimension: Dimension,
  key: QuantityLimit,
): Given {
  const stated = context.programme.policy?.[key];
  const given = recorded(context, symbol, name, dimension, stated?.value, "policy");
  return stated ? { ...given, origin: { kind: "policy", basis: stated.basis } } : given;
}

/** The air that gauges at the well count from, as a given: standard atmosphere is assumed where nobody said. */
export function atmosphereGiven({ programme, atmosphere }: Context): Given {
  const { well } = programme;
  return {
    symbol: "patm",
    name: "Atmosphere at the site",
    dimension: "absolute pressure",
    si: atmosphere,
    origin: well?.atmosphere
      ? { kind: "record", where: well.name }
      : { kind: "assumed", why: "standard atmosphere" },
  };
}

/** What was measured where there is a measurement, what the programme expects otherwise. */
export function measuredOr(measured: Measured | undefined, planned: Given): Given {
  if (!measured) return planned;
  const origin: Origin = { kind: "measured", at: measured.at, by: measured.by };
  return { ...planned, si: measured.si, origin };
}

/** A part of the well as a given: `shown` says in words what one figure cannot. */
export function partGiven<T>(
  symbol: string,
  name: string,
  of: Part<T>,
  shown: string,
  where: string,
): Given {
  return {
    symbol,
    name,
    dimension: "ratio",
    si: of.ok ? 0 : undefined,
    shown,
    origin: { kind: "record", where },
    ...(!of.ok && { needs: [of.missing] }),
  };
}

/** The value of a part that a result has already waited for. */
export function ready<T>(of: Part<T>): T {
  if (!of.ok) throw new Error(`${of.missing}: used before it was known; this is a defect`);
  return of.value;
}
