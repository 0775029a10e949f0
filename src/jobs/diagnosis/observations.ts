import { type Quantity, toSI } from "../quantity.ts";
import type { Evidence, EvidenceKind, Investigation } from "../records/investigation.ts";
import type { Well } from "../records/well.ts";
import { type Pattern, type TrendPattern, trendPattern } from "./trendPattern.ts";
import { reading, trust } from "./uncertain.ts";

/** A figure that was read, SI, with how far it may be off. */
export interface Figure {
  readonly evidence: string;
  readonly kind: EvidenceKind;
  readonly value: number;
  /** standard deviation of the reading alone */
  readonly spread: number;
}

export interface SurveyStop {
  /** along hole, m */
  readonly alongHole: number;
  readonly pressure: number | undefined;
  readonly temperature: number | undefined;
}

export interface SurveyRun {
  readonly evidence: string;
  readonly stops: readonly SurveyStop[];
  readonly trust: number;
}

export interface Bleed {
  readonly evidence: string;
  readonly from: number;
  readonly to: number;
  /** s */
  readonly took: number;
  readonly atRest: boolean;
  readonly wellhead: number | undefined;
  readonly spread: number;
}

export interface Level {
  readonly evidence: string;
  readonly alongHole: number;
  readonly trust: number;
}

export interface Tracer {
  readonly evidence: string;
  readonly returns: readonly { readonly after: number; readonly share: number | undefined }[];
  readonly trust: number;
}

export type Found = NonNullable<Extract<Evidence, { kind: "supply" }>["found"]>;

/** Everything that is used of the evidence, SI, and what is not with why. */
export interface Observations {
  readonly injection: readonly Figure[];
  readonly wellhead: readonly Figure[];
  readonly rate: readonly Figure[];
  readonly supplyPressure: readonly Figure[];
  readonly choke: readonly Figure[];
  readonly found: readonly { readonly evidence: string; readonly found: Found }[];
  readonly surveys: readonly SurveyRun[];
  readonly bleeds: readonly Bleed[];
  readonly levels: readonly Level[];
  readonly tracers: readonly Tracer[];
  readonly liquid: readonly Figure[];
  readonly producedGas: readonly Figure[];
  readonly patterns: readonly { readonly evidence: string; readonly pattern: Pattern }[];
  readonly unused: readonly { readonly evidence: string; readonly why: string }[];
}

export function observationsOf(
  { evidence }: Investigation,
  atmosphere: number,
  injectionDown: Well["injectionDown"],
): Observations {
  const injection: Figure[] = [];
  const wellhead: Figure[] = [];
  const rate: Figure[] = [];
  const supplyPressure: Figure[] = [];
  const choke: Figure[] = [];
  const found: { evidence: string; found: Found }[] = [];
  const surveys: SurveyRun[] = [];
  const bleeds: Bleed[] = [];
  const levels: Level[] = [];
  const tracers: Tracer[] = [];
  const liquid: Figure[] = [];
  const producedGas: Figure[] = [];
  const patterns: { evidence: string; pattern: Pattern }[] = [];
  const unused: { evidence: string; why: string }[] = [];
  for (const piece of evidence) {
    const leave = (why: string) => unused.push({ evidence: piece.id, why });
    if (piece.setAside) {
      leave("set aside");
      continue;
    }
    const doubt = trust[piece.confidence];
    const about = { evidence: piece.id, kind: piece.kind };
    const pressure = (value: number): Figure => ({
      ...about,
      value,
      spread: doubt * (reading.pressure.spread + reading.pressure.share * Math.abs(value)),
    });
    const gas = (value: number, least: number): Figure => ({
      ...about,
      value,
      spread: doubt * (reading.gasRate.share * Math.abs(value) + least),
    });
    switch (piece.kind) {
      case "pressures": {
        const casing = toSI("pressure", piece.injectionAtSurface, atmosphere);
        const tubing = toSI("pressure", piece.wellhead, atmosphere);
        if (casing > ABSURD || tubing > ABSURD) {
          leave("a pressure above 15,000 psi: look at the unit and the point");
          break;
        }
        if (casing < 0.5 * atmosphere || tubing < 0.5 * atmosphere) {
          leave("a pressure below that of the air: look at the unit and the gauge");
          break;
        }
        injection.push(pressure(casing));
        wellhead.push(pressure(tubing));
        break;
      }
      case "supply":
        if (piece.injectionRate) {
          rate.push(gas(Math.max(0, toSI("gas rate", piece.injectionRate)), LEAST_RATE));
        }
        if (piece.supplyPressure && toSI("pressure", piece.supplyPressure, atmosphere) <= ABSURD) {
          supplyPressure.push(pressure(toSI("pressure", piece.supplyPressure, atmosphere)));
        }
        if (piece.choke) {
          const across = toSI("diameter", piece.choke);
          if (across > LEAST_CHOKE)
            choke.push({ ...about, value: across, spread: doubt * 0.05 * across });
        }
        if (piece.found && piece.found !== "not looked at") {
          found.push({ evidence: piece.id, found: piece.found });
        }
        if (
          ![rate, supplyPressure, choke, found].some((list) => list.at(-1)?.evidence === piece.id)
        ) {
          leave("nothing in it can be compared: no rate, pressure, choke or word on them");
        }
        break;
      case "survey": {
        const stops = piece.stops
          .map((stop) => ({
            alongHole: toSI("length", stop.depthAlongHole),
            pressure: stop.pressure && toSI("pressure", stop.pressure, atmosphere),
            temperature: stop.temperature && toSI("temperature", stop.temperature),
          }))
          .filter(({ alongHole }) => alongHole >= 0)
          .sort((a, b) => a.alongHole - b.alongHole);
        if (stops.length < 2) leave("fewer than two stops below the wellhead");
        else surveys.push({ evidence: piece.id, stops, trust: doubt });
        break;
      }
      case "casing bleed": {
        if (injectionDown === "tubing") {
          leave(
            "gas goes down the tubing: the casing is the side that produces, and its bleed tells of no valve",
          );
          break;
        }
        const from = toSI("pressure", piece.from, atmosphere);
        const to = toSI("pressure", piece.to, atmosphere);
        if (to > from || to < 0.5 * atmosphere) {
          leave("it ends above where it began, or below the pressure of the air: no bleed");
          break;
        }
        bleeds.push({
          evidence: piece.id,
          from,
          to,
          took: toSI("duration", piece.took),
          atRest: piece.end === "at rest",
          wellhead: piece.wellhead && toSI("pressure", piece.wellhead, atmosphere),
          spread: pressure(to).spread,
        });
        break;
      }
      case "fluid level": {
        if (piece.well === "shut in") {
          leave("shut in, the level says nothing of where gas enters on lift");
          break;
        }
        if ((piece.space === "annulus") !== (injectionDown === "annulus")) {
          leave("on lift there is no level on the side that produces");
          break;
        }
        levels.push({
          evidence: piece.id,
          alongHole: toSI("length", piece.depthAlongHole),
          trust: doubt,
        });
        break;
      }
      case "tracer": {
        const returns = piece.returns
          .map(({ after, share }) => ({
            after: toSI("duration", after),
            share: share && toSI("fraction", share),
          }))
          .filter(({ after }) => after > 0);
        if (returns.length === 0) {
          leave("no return later than its injection");
          break;
        }
        tracers.push({ evidence: piece.id, returns, trust: doubt });
        if (piece.injectionRate) {
          rate.push(gas(Math.max(0, toSI("gas rate", piece.injectionRate)), LEAST_RATE));
        }
        if (piece.injectionAtSurface) {
          injection.push(pressure(toSI("pressure", piece.injectionAtSurface, atmosphere)));
        }
        if (piece.wellhead) wellhead.push(pressure(toSI("pressure", piece.wellhead, atmosphere)));
        break;
      }
      case "separator test": {
        const value = Math.max(0, toSI("liquid rate", piece.liquidRate));
        // A well that was tested and makes none says much; without its gas it may only not have been through the separator.
        if (value > 0 || piece.gasRate) {
          liquid.push({ ...about, value, spread: doubt * (0.08 * value + LEAST_LIQUID) });
        }
        if (piece.gasRate)
          producedGas.push(gas(Math.max(0, toSI("gas rate", piece.gasRate)), LEAST_RATE));
        if (!(value > 0) && !piece.gasRate) leave("no liquid and no gas was measured");
        break;
      }
      case "trend": {
        const pens = (key: "casing" | "tubing" | "injectionRate") =>
          piece.points.flatMap((point) => {
            const read = point[key];
            if (!read) return [];
            const at = Date.parse(point.at) / 1000;
            const value =
              key === "injectionRate"
                ? toSI("gas rate", read as Quantity<"gas rate">)
                : toSI("pressure", read as Quantity<"pressure">, atmosphere);
            return Number.isFinite(at) ? [{ at, value }] : [];
          });
        const down = trendPattern(pens(injectionDown === "annulus" ? "casing" : "tubing"));
        const up = trendPattern(pens(injectionDown === "annulus" ? "tubing" : "casing"));
        const through = trendPattern(pens("injectionRate"));
        const figure = ({ pattern, level, swing }: TrendPattern, from: Figure): Figure => ({
          ...from,
          // One that still moves has not come to what the balance gives.
          spread: Math.hypot(
            from.spread,
            0.5 * swing,
            pattern === "falling" || pattern === "climbing" ? 0.1 * level : 0,
          ),
        });
        if (down && down.level > 0.5 * atmosphere) {
          injection.push(figure(down, pressure(down.level)));
          patterns.push({ evidence: piece.id, pattern: down.pattern });
        }
        if (up && up.level > 0.5 * atmosphere) wellhead.push(figure(up, pressure(up.level)));
        if (through && through.level >= 0)
          rate.push(figure(through, gas(through.level, LEAST_RATE)));
        if (!down && !up && !through)
          leave("fewer than four points of one pen, or all at one time");
        break;
      }
    }
  }
  return {
    injection,
    wellhead,
    rate,
    supplyPressure,
    choke,
    found,
    surveys,
    bleeds,
    levels,
    tracers,
    liquid,
    producedGas,
    patterns,
    unused,
  };
}

/** 15,000 psi: no gas-lift well is read above it. */
const ABSURD = 103e6;

/** m: a tenth of a millimetre is no choke. */
const LEAST_CHOKE = 1e-4;

/** 5 Mscf/d: what a meter shows when nothing passes. */
const LEAST_RATE = 0.0016;

/** 5 bbl/d, m3/s: what a test of some hours shows of next to none. */
const LEAST_LIQUID = 9.2e-6;

/** The middle of several figures, each counted by how well it was read. */
export function middleOf(figures: readonly Figure[]): number | undefined {
  if (figures.length === 0) return undefined;
  const weights = figures.map(({ spread }) => 1 / spread ** 2);
  const all = weights.reduce((sum, each) => sum + each, 0);
  return figures.reduce((sum, { value }, i) => sum + value * ((weights[i] as number) / all), 0);
}
