import { InputError } from "../../calc/inputError.ts";
import { absolutePa, verticalM } from "../../calc/units.ts";
import {
  type Fitted,
  type Unloading,
  type UnloadingCheck,
  unloading,
} from "../../calc/unloading.ts";
import { domeFromTestRack } from "../../calc/valve.ts";
import type { Writer } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Mandrel } from "../records/well.ts";
import { mandrelResultId, valveIn } from "./atMandrel.ts";
import { type Context, type Part, part } from "./context.ts";
import type { Results } from "./results.ts";
import { bodyGivens, bodyOf, cardGiven, isBellows, shopAtmosphere, toShop } from "./valveGivens.ts";

/** Surface pressures that an unloading is judged at: the planned ones, absolute, Pa. */
interface PlannedPressures {
  readonly kickOff: number;
  readonly operating: number;
  readonly wellhead: number;
}

export type UnloadingOutcome =
  | {
      readonly ok: true;
      readonly unloading: Unloading;
      readonly mandrels: readonly Mandrel[];
      readonly pressures: PlannedPressures;
    }
  | { readonly ok: false; readonly needs: readonly string[] };

/**
 * Whether the well unloads to its deepest valve, with the valves that the scenario puts in.
 *
 * It is a judgement of the lift as planned: what was last found, or what somebody asks about, is one moment
 * of a well, and an unloading goes through all of them.
 */
export function unloadingOf(results: Results): UnloadingOutcome {
  const { context } = results;
  const { gas, flowing, atmosphere } = context;
  const { well } = context.programme;
  const needs: string[] = [];
  const need = <T>(value: T | undefined, name: string): T | undefined => {
    if (value === undefined) needs.push(name);
    return value;
  };
  const pressure = (quantity: Quantity<"pressure"> | undefined, name: string) =>
    need(quantity && toSI("pressure", quantity, atmosphere), name) ?? Number.NaN;
  const gradient = (quantity: Quantity<"pressure gradient"> | undefined, name: string) =>
    need(quantity && toSI("pressure gradient", quantity), name) ?? Number.NaN;
  const known = <T>(of: Part<T>) => need(of.ok ? of.value : undefined, of.ok ? "" : of.missing);

  const pressures = {
    kickOff: pressure(well?.pressures.fullInjectionAtSurface, "full injection at surface"),
    operating: pressure(
      well?.pressures.operatingInjectionAtSurface,
      "operating injection at surface",
    ),
    wellhead: pressure(well?.onLift?.wellhead, "wellhead pressure on lift"),
  };
  const gradients = {
    loadGradient: gradient(well?.onLift?.loadGradient, "gradient of the load liquid"),
    liftedGradient: gradient(
      well?.onLift?.liftedGradient,
      "gradient above the point where gas enters",
    ),
  };
  const lift = { gas: known(gas), temperatures: known(flowing) };
  const mandrels = (well?.mandrels ?? [])
    .map((mandrel) => ({
      mandrel,
      depth: need(results.value(mandrelResultId("tvd", mandrel.number)), "well path"),
      fitted: known(fittedOf(context, mandrel)),
    }))
    .sort((a, b) => (a.depth ?? 0) - (b.depth ?? 0));
  const fitted = mandrels.flatMap(({ depth, fitted: valve }) =>
    depth === undefined || !valve ? [] : [{ depth: verticalM(depth), fitted: valve }],
  );
  if (needs.length > 0 || !lift.gas || !lift.temperatures) {
    return { ok: false, needs: [...new Set(needs)] };
  }
  try {
    const found = unloading(fitted, {
      ...gradients,
      kickOff: absolutePa(pressures.kickOff),
      operating: absolutePa(pressures.operating),
      wellhead: absolutePa(pressures.wellhead),
      gas: lift.gas,
      temperatures: lift.temperatures,
    });
    return {
      ok: true,
      unloading: found,
      mandrels: mandrels.map(({ mandrel }) => mandrel),
      pressures,
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { ok: false, needs: [`${error.key.replaceAll("_", " ")}: must be ${error.allowed}`] };
  }
}

/** What a pocket holds, as far as gas is concerned; what the valve's record does not say, or cannot mean, is missing. */
function fittedOf(context: Context, mandrel: Mandrel): Part<Fitted> {
  const missing = (what: string) => ({ ok: false, missing: what }) as const;
  const valve = valveIn(context, mandrel);
  if (!valve && mandrel.pocketState !== "empty") {
    return missing(`what sits in mandrel ${mandrel.number}`);
  }
  if (valve?.kind === "orifice") return { ok: true, value: { kind: "orifice" } };
  if (!valve || !isBellows(valve)) return { ok: true, value: { kind: "blank" } };
  const { bellows, seat, spring } = bodyGivens(context, valve);
  const card = cardGiven(context, valve);
  if (bellows.si === undefined) return missing(`${bellows.name} of ${valve.serial}`);
  if (seat.si === undefined)
    return missing(`${seat.needs?.join("; ") ?? seat.name} of ${valve.serial}`);
  if (card.si === undefined || spring.si === undefined) {
    return missing(`${card.name} of ${valve.serial}`);
  }
  const values = { bellows: bellows.si, seat: seat.si, spring: spring.si };
  const rack = toShop(context, valve, card.si);
  return part(`valve ${valve.serial}`, () => {
    const body = bodyOf(valve, values);
    const dome60 = domeFromTestRack(body, rack, shopAtmosphere(valve));
    return { kind: "bellows", body, dome60 };
  });
}

/** The verdict of an unloading in one sentence, with the pressures it stands on and the first check that fails. */
export function unloadingInWords(outcome: UnloadingOutcome, { write }: Writer): string {
  if (!outcome.ok) return `Not known whether the well unloads: needs ${outcome.needs.join("; ")}.`;
  const { unloading: found, mandrels, pressures } = outcome;
  const numberOf = (index: number) => mandrels[index]?.number ?? 0;
  const from = `From ${write("pressure", pressures.kickOff)} at kick-off, ${write("pressure", pressures.operating)} on lift and ${write("pressure", pressures.wellhead)} at the wellhead`;
  if (found.reachesBottom) {
    const last = found.steps.at(-1);
    return `${from} the well unloads to mandrel ${numberOf(last?.mandrel ?? 0)}: each valve is uncovered, opens, and the one above shuts.`;
  }
  const place = found.steps.findIndex(({ checks }) => checks.some(({ inHand }) => inHand < 0));
  const step = found.steps[place];
  const above = found.steps[place - 1];
  const failed = step?.checks.find(({ inHand }) => inHand < 0);
  if (!step || !failed) {
    throw new Error("an unloading without a fault that does not end; this is a defect");
  }
  const short = write("pressure difference", -failed.inHand);
  const at = `mandrel ${numberOf(step.mandrel)}`;
  const upper = `valve ${above ? numberOf(above.mandrel) : ""}`;
  const why: Readonly<Record<UnloadingCheck["what"], string>> = {
    uncovered:
      step.surfaceOpening === undefined
        ? `injection does not get above production at ${at}, it is ${short} short there`
        : `gas does not reach ${at}, it is ${short} short there`,
    opens: `the valve in ${at} does not open, it is ${short} short`,
    "valve above shuts": `${upper} does not shut when gas enters at ${at}, ${short} too high`,
    "valve above stays shut": `${upper} opens again when gas enters at ${at}, ${short} too high`,
  };
  const reached =
    found.deepest === undefined ? "" : ` It gets to mandrel ${numberOf(found.deepest)}.`;
  return `${from} the well does not unload to its deepest valve: ${why[failed.what]}.${reached}`;
}
