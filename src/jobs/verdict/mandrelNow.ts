import type { Quantity } from "../quantity.ts";
import { fromSI, toSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import { mandrelResultId } from "../results/atMandrel.ts";
import { type Scenario, siteAtmosphere } from "../results/context.ts";
import { wholeWellOf } from "../results/mandrelResults.ts";
import type { Results } from "../results/results.ts";
import type { MandrelFigure } from "../results/traced.ts";
import { isBellows } from "../results/valveGivens.ts";
import { type MandrelState, mandrelStates } from "../results/wholeWell.ts";
import { COLUMN_SHARE, gaugeDoubt, RATE_SHARE, VALVE_AT_LEAST } from "./doubts.ts";
import type { LiftRead } from "./liftRead.ts";

/** What every mandrel does at the pressures that were read, with how well that is known. SI, absolute pressures. */

export interface Between {
  readonly least: number;
  readonly most: number;
}

/** Gas that a valve passes at these pressures, standard m3/s. */
export interface GasRange extends Between {
  /** by its stem where the shop's load rate is known; a full port is an upper bound for a valve with a bellows */
  readonly by: "stem" | "port" | "full port, an upper bound";
  /** what it is made from; undefined where nothing passes */
  readonly from?: { readonly full: Between; readonly throttled: Between | undefined } | undefined;
}

/** What the figures of a mandrel may be at the ends of their doubt. */
export interface Ends {
  readonly injection: Between;
  readonly production: Between;
  /** of a valve with a bellows */
  readonly gate:
    | { readonly opening: Between; readonly closing: Between; readonly margin: number }
    | undefined;
}

export interface MandrelNow {
  readonly mandrel: number;
  readonly valve: Valve | undefined;
  /** by the figures as they are */
  readonly state: MandrelState;
  /** whether gas passes, with the doubt: "perhaps" where the doubt is larger than what decides */
  readonly passes: "yes" | "perhaps" | "no" | "not known";
  /** pressure on the bellows: injection, or production for a production-operated valve */
  readonly acting: number | undefined;
  readonly injection: number | undefined;
  readonly production: number | undefined;
  readonly opening: number | undefined;
  readonly closing: number | undefined;
  /** what the opening may differ by, by the policy alone */
  readonly openingBand: number | undefined;
  /** what acting less opening, or acting less closing, may be off by in all, either way */
  readonly doubt: number;
  /** what injection less production may be off by, either way */
  readonly dropDoubt: number;
  readonly gas: GasRange | undefined;
  /** what that is judged by; undefined where nothing is judged */
  readonly ends: Ends | undefined;
  /** what is lacked to say what it does */
  readonly needs: readonly string[];
}

/** A well at surface pressures and a weight of its lifted column. */
export interface Well {
  /** Pa, absolute */
  readonly injection: number;
  readonly wellhead: number;
  /** of the lifted gradient on record */
  readonly column: number;
}

/** The well as left, at pressures that may be asked for. */
export class WellAtWork {
  readonly programme: Programme;
  readonly read: Well;
  readonly injectionDoubt: number;
  readonly wellheadDoubt: number;
  readonly results: Results;
  private readonly readBy: NonNullable<Scenario["readBy"]>;
  private readonly cards: NonNullable<Scenario["cards"]>;
  private readonly atmosphere: number;

  constructor(
    programme: Programme,
    lift: Pick<LiftRead, "injectionAtSurface" | "wellhead" | "takenAt" | "by">,
    cards?: Scenario["cards"],
  ) {
    this.programme = programme;
    this.cards = cards ?? {};
    this.readBy = { at: lift.takenAt, by: lift.by };
    this.atmosphere = siteAtmosphere(programme);
    const injection = toSI("pressure", lift.injectionAtSurface, this.atmosphere);
    const wellhead = toSI("pressure", lift.wellhead, this.atmosphere);
    this.read = { injection, wellhead, column: 1 };
    this.injectionDoubt = gaugeDoubt(injection - this.atmosphere);
    this.wellheadDoubt = gaugeDoubt(wellhead - this.atmosphere);
    this.results = this.at(this.read);
  }

  at({ injection, wellhead, column }: Well): Results {
    const scenario: Scenario = {
      lift: "as planned",
      pocket: "as installed",
      injectionAtSurface: this.absolute(injection),
      wellhead: this.absolute(wellhead),
      readBy: this.readBy,
      cards: this.cards,
    };
    return wholeWellOf(withColumn(this.programme, column), scenario);
  }

  /** Surface pressure at which the gas going down stands at a pressure at a mandrel; undefined where it cannot be said. */
  surfaceFor(mandrel: number, wanted: number): number | undefined {
    let surface = this.read.injection;
    for (let round = 0; round < 4; round += 1) {
      const there = figureOf(this.at({ ...this.read, injection: surface }), "injection", mandrel);
      if (there === undefined) return undefined;
      // A column of gas multiplies the pressure on it by next to the same figure: four rounds leave less than a pascal.
      surface *= wanted / there;
    }
    return surface;
  }

  private absolute(si: number): Quantity<"pressure"> {
    return { value: fromSI("pressure", Math.max(si, 1), "kPaa", this.atmosphere), unit: "kPaa" };
  }
}

function withColumn(programme: Programme, column: number): Programme {
  const { well } = programme;
  const lifted = well?.onLift?.liftedGradient;
  if (!well || !lifted || column === 1) return programme;
  const liftedGradient = { ...lifted, value: lifted.value * column };
  return { ...programme, well: { ...well, onLift: { ...well.onLift, liftedGradient } } };
}

export const figureOf = (results: Results, figure: MandrelFigure, mandrel: number) =>
  results.value(mandrelResultId(figure, mandrel));

/** The well with its gauges and its lifted column at the ends of their doubt, and one pressure further off than that. */
function cornersOf(
  well: WellAtWork,
  further: { readonly injection?: number; readonly wellhead?: number } = {},
): Results[] {
  const { read } = well;
  const injection = well.injectionDoubt + (further.injection ?? 0);
  const wellhead = well.wellheadDoubt + (further.wellhead ?? 0);
  return [-1, 1].flatMap((gas) =>
    [-1, 1].map((fluid) =>
      well.at({
        injection: read.injection + gas * injection,
        wellhead: read.wellhead + fluid * wellhead,
        column: 1 + fluid * COLUMN_SHARE,
      }),
    ),
  );
}

/** Every mandrel from the top down. */
export function mandrelsNow(well: WellAtWork): MandrelNow[] {
  const corners = cornersOf(well);
  return mandrelStates(well.results).map((state) => mandrelNow(well, state, corners));
}

function mandrelNow(
  well: WellAtWork,
  state: MandrelState,
  corners: readonly Results[],
): MandrelNow {
  const { valve, needs } = state;
  const { number } = state.mandrel;
  const now = (figure: MandrelFigure) => figureOf(well.results, figure, number);
  const [injection, production] = [now("injection"), now("production")];
  const byProduction = valve?.kind === "production-operated";
  const bellows = isBellows(valve);
  const openingBand = bellows ? now("opening-band") : undefined;
  const plain = {
    mandrel: number,
    valve,
    state,
    injection,
    production,
    acting: bellows ? (byProduction ? production : injection) : undefined,
    opening: bellows ? now("opening") : undefined,
    closing: bellows ? now("closing") : undefined,
    openingBand,
    ends: undefined,
  };
  if (state.gate === "blank") {
    return { ...plain, passes: "no", ...certain, gas: { least: 0, most: 0, by: "port" }, needs };
  }
  if (state.gate === "not known") {
    return { ...plain, passes: "not known", ...certain, gas: undefined, needs };
  }
  const over = (figure: MandrelFigure) => betweenOf(corners, figure, number);
  const margin = Math.max(openingBand ?? 0, VALVE_AT_LEAST);
  const ends: Ends = {
    injection: over("injection"),
    production: over("production"),
    gate: bellows ? { opening: over("opening"), closing: over("closing"), margin } : undefined,
  };
  const drop = certainty(
    ends.injection.least - ends.production.most,
    ends.injection.most - ends.production.least,
  );
  const gate = ends.gate
    ? gateNow(ends[byProduction ? "production" : "injection"], ends.gate)
    : { open: "yes" as const, doubt: 0 };
  const passes = both(gate.open, drop);
  const dropDoubt = halfOf(ends.injection) + halfOf(ends.production);
  const found = { ...plain, ends, passes, doubt: gate.doubt, dropDoubt };
  if (passes === "no") return { ...found, gas: { least: 0, most: 0, by: "port" }, needs };
  const lacks: string[] = [];
  const gas = gasOf(well, state, passes, corners, margin, lacks);
  return { ...found, gas, needs: [...needs, ...lacks] };
}

const certain = { doubt: 0, dropDoubt: 0 } as const;
export const halfOf = ({ least, most }: Between) => (most - least) / 2;

type Certainty = "yes" | "perhaps" | "no";

/** Whether something is above 0 that lies between two figures. */
function certainty(least: number, most: number): Certainty {
  if (least > 0) return "yes";
  return most > 0 ? "perhaps" : "no";
}

function both(one: Certainty, other: Certainty): Certainty {
  if (one === "no" || other === "no") return "no";
  return one === "yes" && other === "yes" ? "yes" : "perhaps";
}

/** Whether a valve stands open: surely from its opening pressure up, surely not from its closing pressure down. */
function gateNow(
  acting: Between,
  { opening, closing, margin }: NonNullable<Ends["gate"]>,
): { readonly open: Certainty; readonly doubt: number } {
  const doubt = halfOf(acting) + halfOf(opening) + margin;
  if (acting.least >= opening.most + margin) return { open: "yes", doubt };
  // With the seat pressure above the closing pressure it opens below it, and is open from there up.
  const shuts = Math.min(opening.least, closing.least);
  return { open: acting.most <= shuts - margin ? "no" : "perhaps", doubt };
}

/**
 * What passes. A valve that stands open for sure passes what its stem leaves, with its opening as far off as it may be. One
 * that may be open passes nothing, or up to its full port: in between it hangs on what was before.
 */
function gasOf(
  well: WellAtWork,
  { valve, mandrel: { number } }: MandrelState,
  passes: Certainty,
  corners: readonly Results[],
  margin: number,
  lacks: string[],
): GasRange | undefined {
  const full = betweenKnown([well.results, ...corners], "most-gas", number);
  if (!full) {
    const outcome = well.results.get(mandrelResultId("most-gas", number))?.outcome;
    lacks.push(
      ...(outcome?.state === "missing" ? outcome.needs : [`the port of mandrel ${number}`]),
    );
    return undefined;
  }
  const most = full.most * (1 + RATE_SHARE);
  if (!isBellows(valve)) {
    const least = passes === "yes" ? full.least * (1 - RATE_SHARE) : 0;
    return { least, most, by: "port", from: { full, throttled: undefined } };
  }
  const from = { full, throttled: undefined };
  const upperBound = { least: 0, most, by: "full port, an upper bound", from } as const;
  if (passes !== "yes") return upperBound;
  const further =
    valve?.kind === "production-operated" ? { wellhead: margin } : { injection: margin };
  const throttled = betweenKnown(
    [well.results, ...cornersOf(well, further)],
    "throttled-gas",
    number,
  );
  if (!throttled) return upperBound;
  return {
    least: throttled.least * (1 - RATE_SHARE),
    most: Math.min(most, throttled.most * (1 + RATE_SHARE)),
    by: "stem",
    from: { full, throttled },
  };
}

function betweenKnown(
  of: readonly Results[],
  figure: MandrelFigure,
  mandrel: number,
): Between | undefined {
  const values = of.flatMap((each) => figureOf(each, figure, mandrel) ?? []);
  // A figure that cannot be worked out at one of the ends of the doubt bounds nothing.
  if (values.length < of.length) return undefined;
  return { least: Math.min(...values), most: Math.max(...values) };
}

function betweenOf(of: readonly Results[], figure: MandrelFigure, mandrel: number): Between {
  // What cannot be worked out may be anything.
  const anything = { least: Number.NEGATIVE_INFINITY, most: Number.POSITIVE_INFINITY };
  return betweenKnown(of, figure, mandrel) ?? anything;
}
