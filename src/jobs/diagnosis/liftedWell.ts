import { relaxationDistance } from "../../calc/flowingTemperature.ts";
import { gasByGravity } from "../../calc/gasByGravity.ts";
import { InputError } from "../../calc/inputError.ts";
import type { LiftedStream } from "../../calc/liftedStream.ts";
import {
  atDepth,
  type InjectionColumn,
  injectionColumn,
  type PassageTable,
  passageTable,
  slipOf,
} from "../../calc/liftNetwork.ts";
import type { WellPath } from "../../calc/path.ts";
import { circle } from "../../calc/seat.ts";
import type { TemperatureProfile } from "../../calc/temperatureProfile.ts";
import { alongHoleM, M_PER_FT, PA_PER_PSI, verticalM } from "../../calc/units.ts";
import { lookedAt } from "../lookedAt.ts";
import { toSI } from "../quantity.ts";
import type { Policy } from "../records/policy.ts";
import { defaultLimits } from "../records/policy.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel, Well } from "../records/well.ts";
import { type Context, contextOf, part } from "../results/context.ts";
import { flowingStream } from "../results/correlatedTemperatures.ts";
import { traversedGradients } from "../results/productionOnLift.ts";
import { liftedStreamOf } from "../results/streamTraverse.ts";
import { emptyLibrary } from "../store/library.ts";
import { middleOf, type Observations } from "./observations.ts";
import { contents, type Pocket } from "./pocket.ts";
import { type RanAt, ranAtInWords, ranAtOf } from "./ranAt.ts";
import type { NoRanking } from "./ranking.ts";

export interface Spaces {
  /** of the side the gas goes down and of the side that produces, m2 */
  readonly downArea: number;
  readonly upArea: number;
  /** of the injection side down to the deepest mandrel, m3 */
  readonly volume: number;
}

/** The well as the records have it, SI, ready to be drawn around. */
export interface LiftedWell {
  readonly atmosphere: number;
  /** from the top */
  readonly pockets: readonly Pocket[];
  readonly column: InjectionColumn;
  readonly passage: PassageTable;
  readonly temperatures: TemperatureProfile;
  readonly path: WellPath;
  /** deepest true vertical depth that is looked at, m */
  readonly bottom: number;
  readonly wellhead: number;
  readonly supply: { readonly pressure: number; readonly temperature: number };
  /** Cd A of the injection choke that gives the planned rate, m2 */
  readonly choke: number;
  readonly rate: number;
  /** injection pressure at surface as it is meant to be */
  readonly operating: number;
  /** how the sound well is on record to have run */
  readonly ranAt: readonly RanAt[];
  readonly gradients: {
    readonly lifted: number;
    readonly below: number;
    /** k of liftedPressures */
    readonly slip: number;
  };
  readonly setTolerance: number;
  readonly temperatureUncertainty: number;
  readonly assumed: readonly string[];
  /** areas and volumes that times need; undefined where the records do not have them */
  readonly spaces: Spaces | undefined;
  /** what is produced as liquid, and the gas of the well's own, as planned */
  readonly stream:
    | {
        readonly liquidRate: number;
        readonly ownGas: number;
        readonly entersAt: number;
        /** kg/m3 */
        readonly liquidDensity: number;
        /** J, (m3/s)/Pa */
        readonly productivityIndex: number | undefined;
        /** undefined where something of it is not on record */
        readonly flowing: LiftedStream | undefined;
        /** of the flowing temperature, along hole, m; undefined where it is not by correlation */
        readonly relaxation: number | undefined;
      }
    | undefined;
  readonly injectionDown: Well["injectionDown"];
  readonly molarMass: number;
  /** depth along hole of a true vertical depth, m, between wellhead and the deepest mandrel */
  readonly alongHoleAt: (depth: number) => number;
}

/** Ideal-gas ratio of heat capacities of a lift gas. */
const HEAT_CAPACITY_RATIO = 1.27;
const CHOKE_COEFFICIENT = 0.85;
/** k of liftedPressures where no stream is on record: that of 500 bbl/d and 700 Mscf/d in 2-7/8 in tubing. */
const GUESSED_SLIP = 0.4;
const PSI_FT = PA_PER_PSI / M_PER_FT;

interface Given {
  readonly well: Well;
  readonly valves: readonly Valve[];
  readonly policy: Policy | undefined;
}

type Need = NoRanking["needs"][number];

/** Cd A of a choke from its bore. */
export const chokeSize = (across: number) => CHOKE_COEFFICIENT * circle(across);

/** @param opened when somebody asked: what was found before that is of the sound well */
export function liftedWellOf(
  given: Given,
  seen: Observations,
  opened: string,
): LiftedWell | NoRanking {
  const { well, valves, policy } = given;
  const context = contextOf(
    lookedAt(well, { ...emptyLibrary, wells: [well], valves, policies: policy ? [policy] : [] }),
    {},
  );
  const needs: Need[] = [];
  const assumed: string[] = [];
  const { atmosphere } = context;
  const limits = policy ?? defaultLimits;
  if (!policy)
    assumed.push(
      "No policy is on record: set-pressure tolerance and temperature by Latchline's own.",
    );
  const temperatures = temperaturesOf(context, needs, assumed);
  if (!context.path.ok) needs.push({ says: `Well path: ${context.path.missing}`, at: "path" });
  const stated = (quantity: Parameters<typeof toSI<"pressure">>[1] | undefined) =>
    quantity && toSI("pressure", quantity, atmosphere);
  const wellhead =
    stated(well.onLift?.wellhead) ?? middleOf(seen.wellhead) ?? stated(well.lastFound?.wellhead);
  if (wellhead === undefined)
    needs.push({ says: "Wellhead pressure on lift", at: "onLift.wellhead" });
  const planned = well.onLift?.injectionRate ?? well.lastFound?.injectionRate;
  const plannedRate = planned && toSI("gas rate", planned);
  const rate = plannedRate && plannedRate > 0 ? plannedRate : middleOf(seen.rate);
  if (!rate || rate <= 0)
    needs.push({ says: "Injection rate of the well on lift, above 0", at: "onLift.injectionRate" });
  const operating =
    stated(well.pressures.operatingInjectionAtSurface) ??
    stated(well.lastFound?.injectionAtSurface) ??
    middleOf(seen.injection);
  if (operating === undefined) {
    needs.push({
      says: "Operating injection pressure at surface",
      at: "pressures.operatingInjectionAtSurface",
    });
  }
  well.mandrels.forEach((mandrel, index) => {
    if (!isKnown(mandrel, valves)) {
      needs.push({
        says: `What sits in mandrel ${mandrel.number}`,
        at: `mandrels.${index}.pocketState`,
      });
    }
  });
  if (needs.length > 0 || !context.path.ok || !temperatures || !rate || !wellhead || !operating) {
    return { needs };
  }
  const supplyPressure =
    stated(well.pressures.fullInjectionAtSurface) ??
    Math.max(1.15 * operating, middleOf(seen.supplyPressure) ?? 0);
  if (!well.pressures.fullInjectionAtSurface) {
    assumed.push(
      middleOf(seen.supplyPressure) === undefined
        ? "Full injection pressure is not on record: 15 percent above the operating pressure taken."
        : "Full injection pressure is not on record: the supply pressure that was read is taken as sound.",
    );
  }
  const gradients = gradientsOf(context, assumed);
  if (seen.choke.length === 0) {
    assumed.push(
      "No injection choke was read: a fixed choke and a controller that holds the rate are both reckoned with.",
    );
  }
  if (well.injectionDown === "tubing") {
    assumed.push(
      "Gas goes down the tubing: its friction is not counted, and the spread of the gas column has to carry it.",
    );
  }
  const ranAt = ranAtOf(well, atmosphere, opened);
  assumed.push(...ranAtInWords(well, ranAt));
  const path = context.path.value;
  try {
    const gas = context.gas.ok
      ? context.gas.value
      : gasByGravity({ specificGravity: 0.65, co2: 0, h2s: 0, n2: 0 });
    if (!context.gas.ok) assumed.push("Injection gas is not on record: gravity 0.65 taken.");
    const passage = passageTable({
      molarMass: gas.molarMass,
      heatCapacityRatio: HEAT_CAPACITY_RATIO,
    });
    const places = well.mandrels.map((mandrel) => {
      const alongHole = toSI("length", mandrel.depthAlongHole);
      return { mandrel, alongHole, depth: path.at(alongHoleM(alongHole)).vertical as number };
    });
    const bottom = 1.1 * Math.max(...places.map(({ depth }) => depth), 100);
    const highest = 1.5 * Math.max(supplyPressure, operating);
    const column = injectionColumn(gas, temperatures, bottom, highest);
    const supply = { pressure: supplyPressure, temperature: temperatures.at(verticalM(0)) };
    const perArea = passage.rate(
      1,
      supplyPressure,
      Math.min(operating, 0.97 * supplyPressure),
      supply.temperature,
    );
    const pockets = places
      .map(({ mandrel, alongHole, depth }) => {
        const temperature: number = temperatures.at(verticalM(depth));
        const there = { number: mandrel.number, alongHole, depth, temperature };
        return {
          ...there,
          ...contents(
            context,
            mandrel,
            valves,
            there,
            {
              injectionThere: atDepth(column.riseAt(depth), operating),
              productionThere: wellhead + depth * gradients.lifted,
            },
            assumed,
          ),
        };
      })
      .sort((a, b) => a.depth - b.depth);
    if (!pockets.some(({ size }) => size > 0)) {
      return {
        needs: [
          { says: "A mandrel whose valve can pass gas: all pockets hold dummies", at: "mandrels" },
        ],
      };
    }
    const spaces = spacesOf(well, pockets, assumed);
    const stream = well.stream && {
      liquidRate: toSI("liquid rate", well.stream.liquidRate),
      ownGas: Math.max(0, toSI("gas rate", well.stream.gasRate) - rate),
      entersAt: path.at(alongHoleM(toSI("length", well.stream.entersAlongHole))).vertical as number,
      liquidDensity: toSI("density", well.stream.liquidDensity),
      productivityIndex:
        well.stream.productivityIndex && toSI("productivity index", well.stream.productivityIndex),
      flowing: liftedStreamOf(context),
      relaxation: relaxationOf(well, wellhead),
    };
    const operatingAt = pockets.findLast(({ size }) => size > 0);
    return {
      atmosphere,
      pockets,
      column,
      passage,
      temperatures,
      path,
      bottom,
      wellhead,
      supply,
      choke: rate / perArea,
      rate,
      operating,
      ranAt,
      gradients: {
        ...gradients,
        slip:
          stream && spaces
            ? slipOf(
                { lift: rate, own: stream.ownGas, liquid: stream.liquidRate },
                spaces.upArea,
                wellhead + 0.5 * gradients.lifted * (operatingAt?.depth ?? bottom),
                supply.temperature,
              )
            : GUESSED_SLIP,
      },
      setTolerance: toSI("pressure difference", limits.setPressureTolerance.value),
      temperatureUncertainty: limits.temperatureUncertainty
        ? toSI("temperature difference", limits.temperatureUncertainty.value)
        : 0,
      assumed,
      spaces,
      stream,
      injectionDown: well.injectionDown,
      molarMass: gas.molarMass,
      alongHoleAt: (depth) => alongHoleAt(pockets, depth),
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return {
      needs: [
        {
          says: `The well as entered cannot be worked out: ${error.key} must be ${error.allowed}`,
          at: undefined,
        },
      ],
    };
  }
}

function relaxationOf({ stream }: Well, wellhead: number): number | undefined {
  if (!stream) return undefined;
  const found = part("relaxation of the flowing temperature", () =>
    relaxationDistance(flowingStream(stream, wellhead)),
  );
  return found.ok ? found.value : undefined;
}

/** Between the wellhead and where gas enters, and below: stated, by the stream's traverse, or as is common. Pa/m */
function gradientsOf(
  context: Context,
  assumed: string[],
): Pick<LiftedWell["gradients"], "lifted" | "below"> {
  const { onLift } = context.programme.well ?? {};
  const stated = (key: "liftedGradient" | "gradientBelow") =>
    onLift?.[key] && toSI("pressure gradient", onLift[key]);
  const [lifted, below] = [stated("liftedGradient"), stated("gradientBelow")];
  const stream =
    lifted === undefined || below === undefined ? traversedGradients(context) : undefined;
  const missing = [
    ...(lifted === undefined ? ["above"] : []),
    ...(below === undefined ? ["below"] : []),
  ].join(" and ");
  if (missing) {
    assumed.push(
      stream
        ? `Gradient ${missing} the point where gas enters is not on record: worked out from the well's stream by Beggs and Brill (1973).`
        : `Gradient ${missing} the point where gas enters is not on record: 0.12 psi/ft above and 0.38 psi/ft below taken, common practice.`,
    );
  }
  const above = lifted ?? stream?.lifted ?? 0.12 * PSI_FT;
  return { lifted: above, below: Math.max(below ?? stream?.below ?? 0.38 * PSI_FT, above) };
}

function temperaturesOf(
  context: Context,
  needs: Need[],
  assumed: string[],
): TemperatureProfile | undefined {
  if (context.flowing.ok) return context.flowing.value;
  if (context.shutIn.ok) {
    assumed.push(
      "Flowing temperatures are not on record: the shut-in ones are taken, and the valves are hotter than that.",
    );
    return context.shutIn.value;
  }
  needs.push({
    says: `Flowing temperatures: ${context.flowing.missing}`,
    at: "temperatures.flowing",
  });
  return undefined;
}

const isKnown = ({ pocketState, valve }: Mandrel, valves: readonly Valve[]) =>
  pocketState === "empty" ||
  (pocketState === "holds a valve" && valves.some(({ id }) => id === valve));

/** Free areas; the tubing's inside by its stream or its drift. */
function spacesOf(well: Well, pockets: readonly Pocket[], assumed: string[]): Spaces | undefined {
  const { annulus, stream, tubing } = well;
  if (!annulus) return undefined;
  const drift = tubing[0]?.drift;
  const inside = stream?.tubingInside ?? drift;
  if (!inside) return undefined;
  if (!stream?.tubingInside) {
    assumed.push("Inside of the tubing is not on record: its drift is taken where gas comes up.");
  }
  const outer = toSI("diameter", annulus.tubingOutside);
  const casing = circle(toSI("diameter", annulus.casingInside)) - circle(outer);
  const bore = circle(toSI("diameter", inside));
  if (!(casing > 0 && bore > 0)) return undefined;
  const [downArea, upArea] = well.injectionDown === "annulus" ? [casing, bore] : [bore, casing];
  return { downArea, upArea, volume: downArea * (pockets.at(-1)?.alongHole ?? 0) };
}

/** Straight between wellhead and mandrels, and on below them as at the last. */
function alongHoleAt(pockets: readonly Pocket[], depth: number): number {
  const marks = [{ depth: 0, alongHole: 0 }, ...pockets];
  const found = marks.findIndex((mark, i) => i > 0 && mark.depth >= depth);
  const next = found === -1 ? marks.length - 1 : found;
  const [a, b] = [marks[next - 1], marks[next]];
  if (!a || !b || b.depth === a.depth) return depth;
  return a.alongHole + ((depth - a.depth) / (b.depth - a.depth)) * (b.alongHole - a.alongHole);
}
