import type { Fault } from "../../../src/jobs/diagnosis/ranking.ts";
import { type Investigation, investigation } from "../../../src/jobs/records/investigation.ts";
import { type Valve, valve } from "../../../src/jobs/records/valve.ts";
import { type Well, well } from "../../../src/jobs/records/well.ts";
import { Chance } from "./chance.ts";
import { drawWell } from "./design.ts";
import { type Amount, drawKinds, measure } from "./evidence.ts";
import { records } from "./records.ts";
import type { Moment, Simulation, WellTruth } from "./simulation.ts";
import {
  type DrawnFault,
  type DrawnKind,
  drawFault,
  isOnItsOrifice,
  type Seen,
  seen,
  shows,
  unload,
} from "./truth.ts";
import { HOUR } from "./units.ts";
import { field, metric, type Write, writing } from "./written.ts";

/** A well with a truth that is known, and what an office would have of it. */
export interface Case {
  readonly seed: number;
  readonly truth: Fault;
  readonly well: Well;
  readonly valves: readonly Valve[];
  readonly investigation: Investigation;
  readonly amount: Amount;
  /** what is wrong in the records or the readings beside the fault */
  readonly wrong: readonly string[];
  /** the well before and with the fault */
  readonly before: Seen;
  readonly now: Seen;
}

interface Wanted {
  readonly kind?: DrawnKind | "multi-point";
  readonly amount?: Amount;
}

/** A well that has its fault and has come to rest with it, before anybody measures. */
export interface FaultyWell extends Pick<Case, "truth" | "well" | "valves" | "before" | "now"> {
  readonly simulation: Simulation;
  /** of the last twelve hours */
  readonly moments: readonly Moment[];
  /** what the records have wrong */
  readonly wrongRecord: string | undefined;
}

interface Attempt extends FaultyWell {
  readonly write: Write;
}

const ATTEMPTS = 400;

/** A well with a fault of a kind: what is measured of it is the asker's. The same seed gives the same well. */
export function drawFaulty(seed: number, kind: DrawnKind): FaultyWell {
  const chance = new Chance(seed);
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    const found = attemptWell(chance, kind);
    if (found) return found;
  }
  throw new Error(`no well from seed ${seed}`);
}

/** A case from a seed: the same seed gives the same case. Wells and faults that show nothing are drawn again. */
export function drawCase(seed: number, wanted: Wanted = {}): Case {
  const chance = new Chance(seed);
  const kind = wanted.kind ?? (chance.yes(0.08) ? "multi-point" : undefined);
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    const found = attemptCase(seed, chance, kind, wanted.amount);
    if (found) return found;
  }
  throw new Error(`no case from seed ${seed}`);
}

function attemptWell(chance: Chance, kind: Wanted["kind"]): Attempt | undefined {
  const drawn = drawWell(chance);
  if (!drawn) return undefined;
  const { truth } = drawn;
  const healthy = unload(truth);
  if (!healthy.atRest || healthy.now.liquidOut < 1e-4) return undefined;
  const write = writing(chance.yes(0.75) ? field : metric);
  const before = healthy.now;
  const lasts = truth.pockets.length;

  let simulation = healthy.simulation;
  let written: ReturnType<typeof records>;
  let fault: DrawnFault;
  if (!isOnItsOrifice(before, lasts)) return undefined;
  if (kind === "multi-point") {
    // Nothing is broken: brought on again with a formation that gives more than the design was made for, the well stays
    // on several valves as they are set.
    written = records(drawn, simulation, before, chance, write);
    const found = stuckOnSeveral(truth, chance);
    if (!found) return undefined;
    simulation = found.simulation;
    fault = {
      fault: { kind, mandrels: found.passing },
      truth: simulation.truth,
      came: "before unloading",
    };
  } else {
    written = records(drawn, simulation, before, chance, write);
    fault = drawFault(truth, chance, kind);
    if (fault.came === "before unloading") {
      const again = unload(fault.truth);
      if (!again.atRest) return undefined;
      simulation = again.simulation;
    } else {
      simulation.change(fault.truth);
      simulation.run(10 * HOUR, 600);
    }
  }
  const moments = simulation.run(12 * HOUR, 300);
  const now = seen(moments.slice(-48));
  const quiet = fault.fault.kind === "nothing downhole" || fault.fault.kind === "multi-point";
  if (!quiet && !shows(before, now)) return undefined;
  // Of a well whose formation gives less, only what stays on its orifice has nothing wrong downhole.
  if (fault.fault.kind === "nothing downhole" && !isOnItsOrifice(now, lasts)) return undefined;

  return {
    truth: fault.fault,
    well: well.parse(written.well),
    valves: written.valves.map((one) => valve.parse(one)),
    before,
    now,
    simulation,
    moments,
    write,
    wrongRecord: written.wrongRecord,
  };
}

function attemptCase(
  seed: number,
  chance: Chance,
  kind: Wanted["kind"],
  amountWanted: Amount | undefined,
): Case | undefined {
  const found = attemptWell(chance, kind);
  if (!found) return undefined;
  const { truth, simulation, moments, write, wrongRecord, ...given } = found;
  const amount =
    amountWanted ??
    chance.weighed([
      ["little", 5],
      ["some", 9],
      ["much", 6],
    ] as const);
  const measured = measure(
    drawKinds(amount, chance),
    simulation,
    moments,
    given.now,
    truth,
    chance,
    write,
  );
  return {
    ...given,
    seed,
    truth,
    investigation: investigation.parse({
      id: "investigation",
      revision: 1,
      well: given.well.id,
      opened: "2026-03-12T06:00:00.000Z",
      openedBy: "office",
      evidence: measured.evidence,
    }),
    amount,
    wrong: [
      ...(wrongRecord ? [wrongRecord] : []),
      ...(measured.wrongReading ? ["casing gauge"] : []),
    ],
  };
}

function stuckOnSeveral(truth: WellTruth, chance: Chance) {
  for (let attempt = 0; attempt < 3; attempt += 1) {
    const { simulation, atRest, now } = unload({
      ...truth,
      productivity: truth.productivity * chance.between(1.2, 3),
      reservoirPressure: truth.reservoirPressure * chance.between(1, 1.12),
      liquidDensity: truth.liquidDensity * chance.between(1, 1.03),
    });
    const passing = truth.pockets.flatMap((_, i) => ((now.shares[i] ?? 0) > 0.07 ? [i + 1] : []));
    if (atRest && passing.length > 1) return { simulation, passing };
  }
  return undefined;
}
