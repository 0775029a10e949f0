import {
  type BellowsGate,
  type LiftPath,
  type LiftState,
  liftedPressures,
  liftState,
  neededSize,
  type ProducingSide,
} from "../../calc/liftNetwork.ts";
import { type Draw, holeOf, logBetween, type Surface, type WellDraw } from "./draws.ts";
import type { Candidate } from "./hypotheses.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Pocket } from "./pocket.ts";
import type { Fault } from "./ranking.ts";
import { type Stalled, stalledAt } from "./stalled.ts";
import { uncertain } from "./uncertain.ts";

/** The well under one hypothesis in one draw. */
export interface Condition {
  readonly state: LiftState;
  /** everything gas may pass, the pockets first and in their order */
  readonly paths: readonly LiftPath[];
  /** gas entering at each pocket, past its valve or beside it, m3/s */
  readonly entries: readonly number[];
  /** where lift has not come down past a point: see stalledAt */
  readonly stalled: Stalled | undefined;
  /** a hole in the tubing, where the hypothesis has one */
  readonly leak: { readonly depth: number; readonly rate: number } | undefined;
  /** true vertical depth at which liquid stands in a tubing that is no longer lifted, m */
  readonly standing?: number;
  readonly draw: Draw;
  /** what the formation gives over what it gave */
  readonly inflow: number;
  readonly surface: Surface;
  /** ln of how much this draw of the fault counts: how likely it is over how often it is drawn */
  readonly weight: number;
}

/** Pressure on the producing side at a true vertical depth, where a survey says it. */
export type SurveyedAt = (depth: number) => number;

/** The sound well's paths in a draw: a hypothesis changes one or two of them. */
export function soundPaths(lifted: LiftedWell, draw: WellDraw): LiftPath[] {
  const operating = lifted.pockets.findLast(({ size }) => size > 0);
  return lifted.pockets.map((pocket, i) =>
    soundPath(lifted, pocket, i, draw, pocket === operating),
  );
}

function soundPath(
  lifted: LiftedWell,
  pocket: Pocket,
  index: number,
  draw: WellDraw,
  isOperating: boolean,
): LiftPath {
  const [a, b, c] = lifted.column.riseAt(pocket.depth);
  const rise = 1 + uncertain.column.spread * draw.column;
  const own = draw.pockets[index] as Draw["pockets"][number];
  const empty = pocket.holds === "nothing" ? uncertain.emptyPocket.spread : undefined;
  const size = empty
    ? holeOf(logBetween(empty, own.span))
    : pocket.size * Math.exp(uncertain.passage.spread * own.passage);
  const path = {
    depth: pocket.depth,
    rise: [a * rise, b * rise, c * rise] as const,
    temperature: pocket.temperature,
    size,
  };
  return pocket.bellows
    ? { ...path, gate: gateOf(lifted, pocket, index, draw, isOperating) }
    : { ...path, gate: { kind: "hole" } };
}

function gateOf(
  lifted: LiftedWell,
  pocket: Pocket,
  index: number,
  draw: WellDraw,
  isOperating: boolean,
): BellowsGate {
  const own = draw.pockets[index] as Draw["pockets"][number];
  const set = pocket.bellows;
  if (!set) throw new Error("a gate without a bellows; this is a defect");
  const { body } = set;
  // The policy's tolerance is a limit without a shape: its standard deviation is a root of three smaller.
  const setSpread = Math.hypot(lifted.setTolerance / Math.sqrt(3), uncertain.setPressure.spread);
  const kelvins =
    Math.max(uncertain.temperatureOfWell.spread, lifted.temperatureUncertainty) * draw.temperature +
    uncertain.temperatureOfValve.spread * own.temperature;
  const guess = set.isGuess ? 1 + uncertain.noCard.spread * own.set : 1;
  const charge =
    set.dome * guess * Math.exp(set.domePerKelvin * kelvins) +
    (set.isGuess ? 0 : set.domePerRack * setSpread * own.set);
  const areaRatio = Math.min(
    0.9,
    body.areaRatio * Math.max(0.3, 1 + uncertain.areaRatio.spread * own.areaRatio),
  );
  return {
    kind: "bellows",
    operatedBy: set.operatedBy,
    dome: Math.max(1, charge + uncertain.effectiveClosing.spread * own.closing),
    areaRatio,
    spring: body.springPressure,
    span: set.span
      ? set.span * Math.exp(0.3 * (2 * own.span - 1))
      : logBetween(uncertain.span.spread, own.span),
    was: isOperating || draw.wasShut >= uncertain.wasShut.spread ? "open" : "shut",
  };
}

/** What was read that draws are taken around: few are then wasted where it says the well is not. */
export interface Around {
  readonly survey: SurveyedAt | undefined;
  /** injection pressure at surface, absolute, Pa */
  readonly injection: number | undefined;
}

/** The well in balance under a hypothesis, or sound. */
export function conditionOf(
  lifted: LiftedWell,
  candidate: Candidate | undefined,
  draw: Draw,
  sound: readonly LiftPath[],
  surface: Surface,
  around: Around,
): Condition {
  const faulty: Faulty = candidate ? withFault(lifted, candidate, draw, sound) : { paths: sound };
  const { pocket, covered } = faulty;
  const supply = {
    pressure: surface.supply,
    temperature: lifted.supply.temperature,
    size: surface.choke,
    held: surface.held,
  };
  const inflow = candidate ? inflowOf(candidate.hypothesis.fault, draw) : 1;
  const side = producingSide(lifted, faulty.paths, draw, inflow, surface, around.survey);
  const { paths, weight } = holed(faulty, draw, (hole) =>
    around.injection === undefined
      ? undefined
      : neededSize(
          faulty.paths,
          hole,
          around.injection - draw.offset,
          supply,
          side,
          lifted.passage,
        ),
  );
  const state = liftState(paths, supply, side, lifted.passage);
  const entries = state.rates.slice(0, sound.length);
  const extraRate = state.rates[sound.length] ?? 0;
  if (pocket !== undefined) entries[pocket] = (entries[pocket] ?? 0) + extraRate;
  const extra = paths[sound.length];
  const leak = extra && pocket === undefined ? { depth: extra.depth, rate: extraRate } : undefined;
  const stalled =
    covered === undefined ? undefined : stalledAt(lifted, sound, state, draw, covered);
  return { state, paths, entries, stalled, leak, draw, inflow, surface, weight };
}

/** The well's paths with a fault in them; those beyond the sound well's are holes that it brings. */
interface Faulty {
  readonly paths: readonly LiftPath[];
  /** the pocket that gas passes beside its valve; undefined of the tubing */
  readonly pocket?: number;
  /** a hole of no known size: its place in `paths`, and the limits of its Cd A, m2 */
  readonly hole?: { readonly at: number; readonly limits: readonly [number, number] };
  /** index of the first pocket that liquid still stands above, where lift has not come down to the deepest */
  readonly covered?: number;
}

/** ln of a size that goes with what was read: how far from it draws are taken. */
const NEAR_NEEDED = 0.15;

/**
 * The hole given its size: even in the logarithm between its limits, and half of the draws near the size that the injection
 * pressure asks for, each counted by how likely it is over how often it is drawn.
 */
function holed(
  { paths, hole }: Faulty,
  draw: Draw,
  neededAt: (hole: number) => number | undefined,
): { readonly paths: readonly LiftPath[]; readonly weight: number } {
  if (!hole) return { paths, weight: 0 };
  const { at, limits } = hole;
  const sized = (size: number) => paths.map((path, i) => (i === at ? { ...path, size } : path));
  const needed = neededAt(at);
  if (needed === undefined) return { paths: sized(logBetween(limits, draw.size)), weight: 0 };
  const size =
    draw.asNeeded < 0.5
      ? needed * Math.exp(NEAR_NEEDED * draw.near)
      : logBetween(limits, draw.size);
  if (size < limits[0] || size > limits[1]) return { paths: sized(size), weight: -Infinity };
  const prior = 1 / Math.log(limits[1] / limits[0]);
  const near =
    Math.exp(-0.5 * (Math.log(size / needed) / NEAR_NEEDED) ** 2) /
    (NEAR_NEEDED * Math.sqrt(2 * Math.PI));
  return { paths: sized(size), weight: Math.log(prior / (0.5 * prior + 0.5 * near)) };
}

function withFault(
  lifted: LiftedWell,
  { hypothesis: { fault }, between }: Candidate,
  draw: Draw,
  sound: readonly LiftPath[],
): Faulty {
  const indexOf = (number: number) =>
    lifted.pockets.findIndex((pocket) => pocket.number === number);
  const changed = (number: number, change: (path: LiftPath) => LiftPath) => {
    const at = indexOf(number);
    return { paths: sound.map((path, i) => (i === at ? change(path) : path)) };
  };
  const beside = (number: number, limits: readonly [number, number]): Faulty => {
    const pocket = indexOf(number);
    return {
      paths: [...sound, { ...(sound[pocket] as LiftPath), gate: { kind: "hole" } }],
      pocket,
      hole: { at: sound.length, limits },
    };
  };
  const ofPort = (number: number, [least, most]: readonly [number, number]) => {
    const { size } = sound[indexOf(number)] as LiftPath;
    return [least * size, most * size] as const;
  };
  const across = ([least, most]: readonly [number, number]) =>
    [holeOf(least), holeOf(most)] as const;
  switch (fault.kind) {
    case "nothing downhole":
    case "supply":
    case "back-pressure at surface":
      return { paths: sound };
    case "stuck open":
      return {
        ...changed(fault.mandrel, (path) => ({ ...path, gate: { kind: "hole" } })),
        hole: {
          at: indexOf(fault.mandrel),
          limits: ofPort(fault.mandrel, uncertain.stuckOpen.spread),
        },
      };
    case "leaking":
      return beside(fault.mandrel, ofPort(fault.mandrel, uncertain.leaking.spread));
    case "plugged": {
      const plugged = changed(fault.mandrel, (path) => ({
        ...path,
        // Half of them pass nothing at all.
        size: path.size * Math.max(0, 2 * draw.size - 1) * uncertain.plugged.spread[1],
      }));
      return notPast(plugged.paths, indexOf(fault.mandrel), draw);
    }
    case "set too low":
      return changed(fault.mandrel, (path) =>
        shifted(path, -logBetween(uncertain.setOff.spread, draw.size)),
      );
    case "set too high": {
      const { paths } = changed(fault.mandrel, (path) =>
        shifted(path, logBetween(uncertain.setOff.spread, draw.size)),
      );
      return notPast(paths, indexOf(fault.mandrel), draw);
    }
    case "latch or packing leaks":
      return beside(fault.mandrel, across(uncertain.packingLeak.spread));
    case "tubing leak": {
      const [top, bottom] = between ?? [fault.depthM, fault.depthM];
      const depth = top + (bottom - top) * draw.place;
      const [a, b, c] = lifted.column.riseAt(depth);
      const rise = 1 + uncertain.column.spread * draw.column;
      return {
        paths: [
          ...sound,
          {
            depth,
            rise: [a * rise, b * rise, c * rise],
            temperature: sound[0]?.temperature ?? lifted.supply.temperature,
            size: 0,
            gate: { kind: "hole" },
          },
        ],
        hole: { at: sound.length, limits: across(uncertain.tubingLeak.spread) },
      };
    }
    case "wrong depth": {
      const [one, other] = [indexOf(fault.mandrel), indexOf(fault.other)];
      const swapped = (at: number, from: number): LiftPath => {
        const path = sound[at] as LiftPath;
        const { gate, size } = sound[from] as LiftPath;
        if (gate.kind === "hole") return { ...path, size, gate };
        // The charge comes along and takes the temperature of where it now sits.
        const warmer =
          (path.temperature - (sound[from] as LiftPath).temperature) * domePerKelvin(lifted, from);
        return {
          ...path,
          size,
          gate: {
            ...gate,
            dome: gate.dome * Math.exp(warmer),
            was: path.gate.kind === "bellows" ? path.gate.was : "open",
          },
        };
      };
      return {
        paths: sound.map((path, i) =>
          i === one ? swapped(one, other) : i === other ? swapped(other, one) : path,
        ),
      };
    }
    case "multi-point": {
      const [upper, lower] = [
        indexOf(fault.mandrels[0] as number),
        indexOf(fault.mandrels[1] as number),
      ];
      return {
        paths: sound.map((path, i) => {
          if (i === upper)
            return path.gate.kind === "bellows"
              ? { ...path, gate: { ...path.gate, was: "open" } }
              : path;
          if (i === lower) {
            // Half of the time still under liquid; else more or less of its port is free.
            const free = Math.max(0, 2 * draw.size - 1) * uncertain.covered.spread[1];
            const gate =
              path.gate.kind === "bellows" ? { ...path.gate, was: "open" as const } : path.gate;
            return { ...path, size: path.size * free, gate };
          }
          return i > lower ? { ...path, size: 0 } : path;
        }),
        covered: draw.size > 0.5 ? lower + 1 : lower,
      };
    }
  }
}

/**
 * A valve that should have passed gas on the way down and does not: of the draws in which the well has not come past it,
 * nothing below it takes gas, and what lifted the well above it has not shut since.
 */
function notPast(paths: readonly LiftPath[], at: number, { turn }: Draw): Faulty {
  const isDeepest = !paths.some(({ size }, i) => i > at && size > 0);
  if (isDeepest || turn >= uncertain.notPast.spread) return { paths };
  return {
    paths: paths.map((path, i) => {
      if (i > at) return { ...path, size: 0 };
      return i === at - 1 && path.gate.kind === "bellows"
        ? { ...path, gate: { ...path.gate, was: "open" } }
        : path;
    }),
    covered: at + 1,
  };
}

const domePerKelvin = (lifted: LiftedWell, index: number) =>
  lifted.pockets[index]?.bellows?.domePerKelvin ?? 0;

function shifted(path: LiftPath, by: number): LiftPath {
  if (path.gate.kind !== "bellows") return path;
  return { ...path, gate: { ...path.gate, dome: Math.max(1, path.gate.dome + by) } };
}

/** Gradient below the entry in one draw, Pa/m. */
export const belowEntry = (lifted: LiftedWell, { below }: WellDraw): number =>
  lifted.gradients.below * Math.max(0.3, 1 + uncertain.gradientBelow.spread * below);

function producingSide(
  lifted: LiftedWell,
  paths: readonly LiftPath[],
  draw: Draw,
  inflow: number,
  surface: Surface,
  survey: SurveyedAt | undefined,
): ProducingSide {
  const depths = paths.map(({ depth }) => depth);
  if (survey) {
    const pressures = depths.map(survey);
    return { movesWithRates: false, pressures: () => pressures };
  }
  const gradients = gradientsOf(lifted, draw, draw.drift, inflow);
  return {
    movesWithRates: true,
    pressures: (rates) => liftedPressures(depths, rates, surface.wellhead, gradients),
  };
}

/** What the formation gives over what it gave when the well was put on record. */
function inflowOf({ kind }: Fault, { turn }: Draw): number {
  if (turn >= 0.5) return 1;
  if (kind === "nothing downhole") return logBetween(uncertain.givesLess.spread, 2 * turn);
  return kind === "multi-point" ? logBetween(uncertain.givesMore.spread, 2 * turn) : 1;
}

/**
 * Gradients of the producing side in a draw, as far as they have drifted since the well is on record.
 *
 * Where the same gas lifts less liquid the lifted column is lighter: by the root of the liquid, since what does not flow slips
 * back and stays. Chosen by Latchline, no source; no gas lift makes it heavier than what is below.
 */
export function gradientsOf(lifted: LiftedWell, draw: WellDraw, drift: number, inflow: number) {
  const below = belowEntry(lifted, draw);
  const share =
    Math.max(0.2, 1 + uncertain.liftedGradient.spread * draw.lifted) *
    Math.max(0.5, 1 + uncertain.drift.spread * drift) *
    Math.sqrt(inflow);
  const { gradients, rate: design } = lifted;
  return { lifted: Math.min(below, gradients.lifted * share), below, design, slip: gradients.slip };
}

/** What a gauge on the injection side shows in a condition. */
export function injectionRead({ state, surface, draw }: Condition): number {
  // At supply pressure nothing is left that a prediction could have wrong.
  return state.atSupply
    ? state.surface
    : Math.min(state.surface + draw.offset, Math.max(state.surface, surface.supply));
}
