import { toSI } from "../quantity.ts";
import type { Evidence, EvidenceKind, Investigation } from "../records/investigation.ts";
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
  readonly unused: readonly { readonly evidence: string; readonly why: string }[];
}

export function observationsOf({ evidence }: Investigation, atmosphere: number): Observations {
  const injection: Figure[] = [];
  const wellhead: Figure[] = [];
  const rate: Figure[] = [];
  const supplyPressure: Figure[] = [];
  const choke: Figure[] = [];
  const found: { evidence: string; found: Found }[] = [];
  const surveys: SurveyRun[] = [];
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
        if (piece.supplyPressure) {
          supplyPressure.push(pressure(toSI("pressure", piece.supplyPressure, atmosphere)));
        }
        if (piece.choke) {
          const across = toSI("diameter", piece.choke);
          if (across > 0) choke.push({ ...about, value: across, spread: doubt * 0.05 * across });
          else leave("a choke of no bore passes no gas");
        }
        if (piece.found && piece.found !== "not looked at") {
          found.push({ evidence: piece.id, found: piece.found });
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
      default:
        leave("this kind of evidence is not ranked yet");
    }
  }
  return { injection, wellhead, rate, supplyPressure, choke, found, surveys, unused };
}

/** 5 Mscf/d: what a meter shows when nothing passes. */
const LEAST_RATE = 0.0016;

/** The middle of several figures, each counted by how well it was read. */
export function middleOf(figures: readonly Figure[]): number | undefined {
  if (figures.length === 0) return undefined;
  const weights = figures.map(({ spread }) => 1 / spread ** 2);
  const all = weights.reduce((sum, each) => sum + each, 0);
  return figures.reduce((sum, { value }, i) => sum + value * ((weights[i] as number) / all), 0);
}
