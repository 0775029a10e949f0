import { fromDegF, PA_PER_PSI } from "../../calc/units.ts";

/**
 * Everything that is not known well enough to be one number, each with how far it is spread and who says so. A
 * ranking draws them again and again; nothing in it is more certain than these.
 */
export interface Uncertain {
  /** what is drawn */
  readonly says: string;
  /** standard deviation, or the limits of an even spread, as the name of the constant says; SI or a share */
  readonly spread: number | readonly [least: number, most: number];
  readonly basis: string;
}

const CHOSEN = "chosen by Latchline, no source";
const DEG_F = (fromDegF(1) as number) - (fromDegF(0) as number);

const psi = (value: number) => value * PA_PER_PSI;

export const uncertain = {
  setPressure: {
    says: "set pressure of a bellows valve, beyond the policy's tolerance: drift in service, Pa",
    spread: psi(8),
    basis: CHOSEN,
  },
  effectiveClosing: {
    says: "closing pressure at depth: the area ratio is not a constant, and a valve that should be shut by 20 psi may be open, Pa",
    spread: psi(12),
    basis: "SPE 186110 for the fact; the spread chosen by Latchline, no source",
  },
  temperatureOfWell: {
    says: "temperature of all valves together, K; the policy's figure where it is larger",
    spread: 7 * DEG_F,
    basis: "common practice: known within 10 to 20 degF",
  },
  temperatureOfValve: {
    says: "temperature of one valve beside the others, K",
    spread: 4 * DEG_F,
    basis: CHOSEN,
  },
  areaRatio: {
    says: "area ratio, share of itself",
    spread: 0.06,
    basis:
      "SPE 186110 for the fact that it grows with pressure and wear; the spread chosen by Latchline",
  },
  passage: {
    says: "what a port passes, share of itself: discharge coefficient, no compressibility in the form",
    spread: 0.15,
    basis: CHOSEN,
  },
  span: {
    says: "rise above the closing pressure at which the whole port is open, where the load rate is not known, Pa",
    spread: [psi(15), psi(120)],
    basis: CHOSEN,
  },
  noCard: {
    says: "closing pressure at depth of a valve without a card, share of the injection pressure there",
    spread: 0.08,
    basis: CHOSEN,
  },
  column: {
    says: "rise of the injection gas with depth, share of itself: gravity, temperature, friction",
    spread: 0.03,
    basis: CHOSEN,
  },
  liftedGradient: {
    says: "gradient above the point where gas enters, share of itself",
    spread: 0.12,
    basis: CHOSEN,
  },
  gradientBelow: {
    says: "gradient below it, share of itself",
    spread: 0.06,
    basis: CHOSEN,
  },
  supplyPressure: {
    says: "supply pressure of a sound supply, share of what the record says",
    spread: 0.04,
    basis: CHOSEN,
  },
  choke: {
    says: "choke as it is meant to be, where it is worked out from the planned rate, share of its area",
    spread: 0.2,
    basis: CHOSEN,
  },
  held: {
    says: "share of draws in which a controller holds the injection rate, where nobody read a choke",
    spread: 0.5,
    basis: CHOSEN,
  },
  heldRate: {
    says: "injection rate that a sound controller holds, share of the planned rate",
    spread: 0.1,
    basis: CHOSEN,
  },
  wellhead: {
    says: "wellhead pressure without back-pressure, share of what the record says",
    spread: 0.12,
    basis: CHOSEN,
  },
  supplyFell: {
    says: "supply pressure that fell, share of what the record says",
    spread: [0.5, 0.95],
    basis: CHOSEN,
  },
  chokeSmaller: {
    says: "choke that is smaller or frozen and that the well still lifts with, share of its area",
    spread: [0.1, 0.8],
    basis: CHOSEN,
  },
  chokeShut: {
    says: "of chokes that are smaller, those that let next to nothing by, so that lift has stopped and the casing has bled down; share of draws",
    spread: 0.25,
    basis:
      "chosen by Latchline, no source: gas cools as it expands, so that ice once begun narrows the way, cools the gas further and goes on to shut it; dirt caught in a bean catches more",
  },
  chokeLarger: {
    says: "choke that is larger, share of its area",
    spread: [1.25, 3],
    basis: CHOSEN,
  },
  backPressure: {
    says: "back-pressure at surface above what is meant to be, Pa",
    spread: [psi(30), psi(400)],
    basis: CHOSEN,
  },
  stuckOpen: {
    says: "open area of a valve stuck open, share of its port: no more than that",
    spread: [0.3, 1],
    basis: CHOSEN,
  },
  leaking: {
    says: "open area of a leaking seat, share of its port",
    spread: [0.03, 0.4],
    basis: CHOSEN,
  },
  plugged: {
    says: "what a plugged valve still passes, share of its port",
    spread: [0, 0.2],
    basis: CHOSEN,
  },
  setOff: {
    says: "by how much a valve is set too low or too high, Pa",
    spread: [psi(35), psi(300)],
    basis: CHOSEN,
  },
  packingLeak: {
    says: "hole past a latch or packing, m across",
    spread: [0.0016, 0.0095],
    basis: "chosen by Latchline, no source: 1/16 to 3/8 in",
  },
  tubingLeak: {
    says: "hole in the tubing, m across",
    spread: [0.0016, 0.0127],
    basis: "chosen by Latchline, no source: 1/16 to 1/2 in",
  },
  emptyPocket: {
    says: "what an empty pocket lets through, m across",
    spread: [0.006, 0.0127],
    basis: CHOSEN,
  },
  covered: {
    says: "how far the lower of two valves that pass gas together is uncovered, share of its port",
    spread: [0, 1],
    basis: CHOSEN,
  },
  wasShut: {
    says: "share of draws in which an upper valve between its closing and its opening pressure has been shut",
    spread: 0.6,
    basis: CHOSEN,
  },
  astray: {
    says: "a piece of evidence is of something else: wrong unit, wrong well, a gauge that stuck; share of pieces",
    spread: 0.01,
    basis: CHOSEN,
  },
  modelPressure: {
    says: "what a predicted injection pressure is off, today as on the day of the record, share of it",
    spread: 0.02,
    basis: CHOSEN,
  },
  dayPressure: {
    says: "what an injection pressure is off beyond that from one day to the next, share of it: heads, weather, the rate not quite the same",
    spread: 0.012,
    basis: CHOSEN,
  },
  planPressure: {
    says: "operating injection pressure that is planned against what the well came to run at, share of it",
    spread: 0.025,
    basis: CHOSEN,
  },
  planWrong: {
    says: "a planned operating pressure is of another time or was never reached; share of records",
    spread: 0.25,
    basis: CHOSEN,
  },
  foundWrong: {
    says: "the well was at fault already when it was last found on lift, or the reading is of something else; share of records",
    spread: 0.12,
    basis: CHOSEN,
  },
  ranHigher: {
    says: "a well that was taken to run on its deepest point took gas higher up as well; share of wells",
    spread: 0.15,
    basis: CHOSEN,
  },
  drift: {
    says: "gradient above the point where gas enters, now over that of the day of the record, share of it: water, inflow",
    spread: 0.04,
    basis: CHOSEN,
  },
  givesLess: {
    says: "what a formation gives where a well with nothing wrong downhole is asked about, share of what is on record; half of them give what they gave",
    spread: [0.45, 1.15],
    basis: CHOSEN,
  },
  givesMore: {
    says: "what a formation gives where lift has not come down, share of what is on record; half of them give what they gave",
    spread: [1, 2.5],
    basis: CHOSEN,
  },
  notPast: {
    says: "an upper valve that passes nothing when the well is brought on keeps it from unloading any deeper; share of such wells that somebody asks about",
    spread: 0.7,
    basis: "chosen by Latchline, no source: a well that unloads past it shows nothing",
  },
  broughtOnAgain: {
    says: "a well with a fault in it has been shut in and brought on again since, and stands loaded below where gas enters; share of wells",
    spread: 0.15,
    basis: CHOSEN,
  },
  goesDeeper: {
    says: "injection over producing pressure, at a valve under liquid, at which liquid no longer stands above it, Pa",
    spread: psi(30),
    basis: CHOSEN,
  },
  notNoticed: {
    says: "a fault that moves no gauge and no gas is asked about all the same; share of such faults",
    spread: 0.2,
    basis: CHOSEN,
  },
  modelRate: {
    says: "what a predicted gas rate may be off, share of it",
    spread: 0.08,
    basis: CHOSEN,
  },
  modelSurvey: {
    says: "what a predicted survey pressure may be off, share of it",
    spread: 0.015,
    basis: CHOSEN,
  },
} as const satisfies Readonly<Record<string, Uncertain>>;

/** Spread of readings that are trusted; "fair" counts twice, "doubtful" four times. */
export const reading = {
  pressure: { spread: psi(5), share: 0.005, basis: "common practice: gauges good to 0.5 percent" },
  gasRate: { share: 0.05, basis: "common practice: orifice meters in the field" },
  surveyPressure: { spread: psi(2), share: 0.002, basis: CHOSEN },
  surveyTemperature: { spread: 0.6 * DEG_F, basis: CHOSEN },
} as const;

export const trust = { good: 1, fair: 2, doubtful: 4 } as const;
