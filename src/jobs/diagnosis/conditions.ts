import {
  type BellowsGate,
  type LiftPath,
  type LiftState,
  liftedPressures,
  liftState,
  type ProducingSide,
} from "../../calc/liftNetwork.ts";
import { type Draw, holeOf, logBetween, type Surface } from "./draws.ts";
import type { Candidate } from "./hypotheses.ts";
import type { LiftedWell, Pocket } from "./liftedWell.ts";
import { uncertain } from "./uncertain.ts";

/** The well under one hypothesis in one draw. */
export interface Condition {
  readonly state: LiftState;
  /** everything gas may pass, the pockets first and in their order */
  readonly paths: readonly LiftPath[];
  /** gas entering at each pocket, past its valve or beside it, m3/s */
  readonly entries: readonly number[];
  /** a hole in the tubing, where the hypothesis has one */
  readonly leak: { readonly depth: number; readonly rate: number } | undefined;
  readonly draw: Draw;
  readonly surface: Surface;
}

/** Pressure on the producing side at a true vertical depth, where a survey says it. */
export type SurveyedAt = (depth: number) => number;

/** The sound well's paths in every draw: a hypothesis changes one or two of them. */
export function soundPaths(lifted: LiftedWell, draws: readonly Draw[]): LiftPath[][] {
  const operating = lifted.pockets.findLast(({ size }) => size > 0);
  return draws.map((draw) =>
    lifted.pockets.map((pocket, i) => soundPath(lifted, pocket, i, draw, pocket === operating)),
  );
}

function soundPath(
  lifted: LiftedWell,
  pocket: Pocket,
  index: number,
  draw: Draw,
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
  draw: Draw,
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

/** The well in balance under a hypothesis. */
export function conditionOf(
  lifted: LiftedWell,
  candidate: Candidate,
  draw: Draw,
  sound: readonly LiftPath[],
  surface: Surface,
  survey: SurveyedAt | undefined,
): Condition {
  const { paths, extra } = withFault(lifted, candidate, draw, sound);
  const all = extra ? [...paths, extra.path] : paths;
  const side = producingSide(lifted, all, draw, surface, survey);
  const state = liftState(
    all,
    {
      pressure: surface.supply,
      temperature: lifted.supply.temperature,
      size: surface.choke,
      held: surface.held,
    },
    side,
    lifted.passage,
  );
  const entries = state.rates.slice(0, sound.length);
  const extraRate = state.rates[sound.length] ?? 0;
  if (extra?.pocket !== undefined) entries[extra.pocket] = (entries[extra.pocket] ?? 0) + extraRate;
  const leak =
    extra && extra.pocket === undefined ? { depth: extra.path.depth, rate: extraRate } : undefined;
  return { state, paths: all, entries, leak, draw, surface };
}

interface Extra {
  readonly path: LiftPath;
  /** the pocket that gas passes beside its valve; undefined of the tubing */
  readonly pocket: number | undefined;
}

function withFault(
  lifted: LiftedWell,
  { hypothesis: { fault }, between }: Candidate,
  draw: Draw,
  sound: readonly LiftPath[],
): { readonly paths: readonly LiftPath[]; readonly extra?: Extra } {
  const indexOf = (number: number) =>
    lifted.pockets.findIndex((pocket) => pocket.number === number);
  const changed = (number: number, change: (path: LiftPath) => LiftPath) => {
    const at = indexOf(number);
    return { paths: sound.map((path, i) => (i === at ? change(path) : path)) };
  };
  const beside = (number: number, size: number): { paths: readonly LiftPath[]; extra: Extra } => {
    const at = indexOf(number);
    return {
      paths: sound,
      extra: { path: { ...(sound[at] as LiftPath), size, gate: { kind: "hole" } }, pocket: at },
    };
  };
  switch (fault.kind) {
    case "nothing downhole":
    case "supply":
    case "back-pressure at surface":
      return { paths: sound };
    case "stuck open":
      return changed(fault.mandrel, (path) => ({
        ...path,
        size: path.size * logBetween(uncertain.stuckOpen.spread, draw.size),
        gate: { kind: "hole" },
      }));
    case "leaking": {
      const { size } = sound[indexOf(fault.mandrel)] as LiftPath;
      return beside(fault.mandrel, size * logBetween(uncertain.leaking.spread, draw.size));
    }
    case "plugged":
      return changed(fault.mandrel, (path) => ({
        ...path,
        // Half of them pass nothing at all.
        size: path.size * Math.max(0, 2 * draw.size - 1) * uncertain.plugged.spread[1],
      }));
    case "set too low":
      return changed(fault.mandrel, (path) =>
        shifted(path, -logBetween(uncertain.setOff.spread, draw.size)),
      );
    case "set too high":
      return changed(fault.mandrel, (path) =>
        shifted(path, logBetween(uncertain.setOff.spread, draw.size)),
      );
    case "latch or packing leaks":
      return beside(fault.mandrel, holeOf(logBetween(uncertain.packingLeak.spread, draw.size)));
    case "tubing leak": {
      const [top, bottom] = between ?? [fault.depthM, fault.depthM];
      const depth = top + (bottom - top) * draw.place;
      const [a, b, c] = lifted.column.riseAt(depth);
      const rise = 1 + uncertain.column.spread * draw.column;
      return {
        paths: sound,
        extra: {
          path: {
            depth,
            rise: [a * rise, b * rise, c * rise],
            temperature: sound[0]?.temperature ?? lifted.supply.temperature,
            size: holeOf(logBetween(uncertain.tubingLeak.spread, draw.size)),
            gate: { kind: "hole" },
          },
          pocket: undefined,
        },
      };
    }
    case "wrong depth": {
      const [one, other] = [indexOf(fault.mandrel), indexOf(fault.other)];
      const swapped = (at: number, from: number): LiftPath => {
        const path = sound[at] as LiftPath;
        const { gate, size } = sound[from] as LiftPath;
        if (gate.kind !== "bellows" || path.gate.kind !== "bellows") return path;
        // The charge comes along and takes the temperature of where it now sits.
        const warmer =
          (path.temperature - (sound[from] as LiftPath).temperature) * domePerKelvin(lifted, from);
        return {
          ...path,
          size,
          gate: { ...gate, dome: gate.dome * Math.exp(warmer), was: path.gate.was },
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
      };
    }
  }
}

const domePerKelvin = (lifted: LiftedWell, index: number) =>
  lifted.pockets[index]?.bellows?.domePerKelvin ?? 0;

function shifted(path: LiftPath, by: number): LiftPath {
  if (path.gate.kind !== "bellows") return path;
  return { ...path, gate: { ...path.gate, dome: Math.max(1, path.gate.dome + by) } };
}

/** Gradient below the entry in one draw, Pa/m. */
export const belowEntry = (lifted: LiftedWell, { below }: Draw): number =>
  lifted.gradients.below * Math.max(0.3, 1 + uncertain.gradientBelow.spread * below);

function producingSide(
  lifted: LiftedWell,
  paths: readonly LiftPath[],
  draw: Draw,
  surface: Surface,
  survey: SurveyedAt | undefined,
): ProducingSide {
  const depths = paths.map(({ depth }) => depth);
  if (survey) {
    const pressures = depths.map(survey);
    return { movesWithRates: false, pressures: () => pressures };
  }
  const below = belowEntry(lifted, draw);
  const gradients = {
    lifted: Math.min(
      below,
      lifted.gradients.lifted * Math.max(0.2, 1 + uncertain.liftedGradient.spread * draw.lifted),
    ),
    below,
    design: lifted.rate,
    slip: lifted.gradients.slip,
  };
  return {
    movesWithRates: true,
    pressures: (rates) => liftedPressures(depths, rates, surface.wellhead, gradients),
  };
}
