import { type Gate, type GateState, gateState } from "../../calc/gate.ts";
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
import { toSI } from "../quantity.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import { type Context, recorded } from "./context.ts";
import { mandrelResultId, valveIn } from "./mandrelResults.ts";
import { liftWellhead } from "./onLift.ts";
import type { Results } from "./results.ts";
import type { MandrelFigure } from "./traced.ts";
import { bodyGivens, bodyOf, cardGiven, isBellows, shopAtmosphere, toShop } from "./valveGivens.ts";

/** What a pocket does to gas while the well is on lift. */
export interface MandrelState {
  readonly mandrel: Mandrel;
  readonly valve: Valve | undefined;
  /** "always open" for an orifice, "blank" for a dummy or an empty pocket, "not known" says what it needs */
  readonly gate: Gate | "always open" | "blank" | "not known";
  /** Pa, see GateState; undefined where nothing changes */
  readonly toChange: number | undefined;
  /** Injection stands above production and the gate may be open. */
  readonly mayPass: boolean;
  readonly needs: readonly string[];
}

/** The state of every mandrel, from the top down. */
export function mandrelStates(results: Results): MandrelState[] {
  const { context } = results;
  const mandrels = context.programme.well?.mandrels ?? [];
  return [...mandrels]
    .sort((a, b) => a.number - b.number)
    .map((mandrel) => stateOf(results, mandrel));
}

function stateOf(results: Results, mandrel: Mandrel): MandrelState {
  const { context } = results;
  const valve = valveIn(context, mandrel);
  const values = (...figures: MandrelFigure[]) => figuresOf(results, mandrel, figures);
  const state = (of: Partial<MandrelState> & Pick<MandrelState, "gate">): MandrelState => ({
    mandrel,
    valve,
    toChange: undefined,
    mayPass: false,
    needs: [],
    ...of,
  });
  if (!valve && mandrel.pocketState !== "empty") {
    return state({ gate: "not known", needs: ["what sits in the pocket"] });
  }
  if (!valve || valve.kind === "dummy") return state({ gate: "blank" });
  const ends = values("injection", "production");
  if ("needs" in ends) return state({ gate: "not known", needs: ends.needs });
  const [injection, production] = ends.si as [number, number];
  if (valve.kind === "orifice") {
    return state({ gate: "always open", mayPass: injection > production });
  }
  const limits = values("opening", "closing");
  if ("needs" in limits) return state({ gate: "not known", needs: limits.needs });
  const [opening, closing] = limits.si as [number, number];
  const acting = valve.kind === "production-operated" ? production : injection;
  const { gate, toChange }: GateState = gateState(
    absolutePa(acting),
    absolutePa(opening),
    absolutePa(closing),
  );
  return state({ gate, toChange, mayPass: gate !== "shut" && injection > production });
}

function figuresOf(
  results: Results,
  { number }: Mandrel,
  figures: readonly MandrelFigure[],
): { readonly si: readonly number[] } | { readonly needs: readonly string[] } {
  const traced = figures.map((figure) => results.get(mandrelResultId(figure, number)));
  const needs = traced.flatMap((each) => {
    if (!each || each.outcome.state === "known") return [];
    return each.outcome.state === "missing"
      ? each.outcome.needs
      : [`${each.label}: ${each.outcome.why}`];
  });
  if (needs.length > 0) return { needs: [...new Set(needs)] };
  return {
    si: traced.map((each) => (each?.outcome.state === "known" ? each.outcome.si : Number.NaN)),
  };
}

/** Where gas enters by calculation: the mandrels that pass, or may pass, from the top down. */
export function entryInWords(states: readonly MandrelState[]): string {
  const unknown = states.filter(({ gate }) => gate === "not known");
  const sure = states.filter(({ mayPass, gate }) => mayPass && gate !== "as it was");
  const maybe = states.filter(({ mayPass, gate }) => mayPass && gate === "as it was");
  const list = (of: readonly MandrelState[]) => of.map(({ mandrel }) => mandrel.number).join(", ");
  const parts = [
    sure.length > 0 && `Gas enters at mandrel ${list(sure)}`,
    maybe.length > 0 &&
      `${sure.length > 0 ? "and" : "Gas enters"} at ${list(maybe)} if it was open before`,
  ].filter((part) => part !== false);
  const sentence = parts.length > 0 ? parts.join(", ") : "By these pressures no valve passes gas";
  return unknown.length > 0 ? `${sentence}; not known at ${list(unknown)}.` : `${sentence}.`;
}

export type UnloadingOutcome =
  | { readonly ok: true; readonly unloading: Unloading; readonly mandrels: readonly Mandrel[] }
  | { readonly ok: false; readonly needs: readonly string[] };

/** Whether the well unloads to its deepest valve, with the valves that the scenario puts in. */
export function unloadingOf(results: Results): UnloadingOutcome {
  const { context } = results;
  const { programme, atmosphere, gas, flowing } = context;
  const { well } = programme;
  const needs: string[] = [];
  const need = (si: number | undefined, name: string): number => {
    if (si === undefined) needs.push(name);
    return si ?? Number.NaN;
  };
  const pressure = (quantity: Parameters<typeof recorded<"pressure">>[4], name: string) =>
    need(recorded(context, "", name, "pressure", quantity, "").si, name);
  const gradient = (key: "loadGradient" | "liftedGradient", name: string) =>
    need(well?.onLift?.[key] && toSI("pressure gradient", well.onLift[key]), name);
  const mandrels = [...(well?.mandrels ?? [])].sort((a, b) => a.number - b.number);
  const fitted = mandrels.map((mandrel) => {
    const depth = results.value(mandrelResultId("tvd", mandrel.number));
    return {
      depth: verticalM(need(depth, "Well path")),
      fitted: fittedOf(context, mandrel, needs),
    };
  });
  const planned = { ...context, scenario: { ...context.scenario, lift: "as planned" as const } };
  const plan = {
    kickOff: absolutePa(
      pressure(well?.pressures.fullInjectionAtSurface, "full injection at surface"),
    ),
    operating: absolutePa(
      pressure(well?.pressures.operatingInjectionAtSurface, "operating injection at surface"),
    ),
    wellhead: absolutePa(need(liftWellhead(planned).si, "wellhead pressure on lift")),
    loadGradient: gradient("loadGradient", "gradient of the load liquid"),
    liftedGradient: gradient("liftedGradient", "gradient above the point where gas enters"),
  };
  if (!gas.ok) needs.push(gas.missing);
  if (!flowing.ok) needs.push(flowing.missing);
  if (needs.length > 0 || !gas.ok || !flowing.ok || atmosphere <= 0) {
    return { ok: false, needs: [...new Set(needs)] };
  }
  try {
    const found = unloading(fitted, { ...plan, gas: gas.value, temperatures: flowing.value });
    return { ok: true, unloading: found, mandrels };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { ok: false, needs: [`${error.key} must be ${error.allowed}`] };
  }
}

function fittedOf(context: Context, mandrel: Mandrel, needs: string[]): Fitted {
  const valve = valveIn(context, mandrel);
  if (!valve && mandrel.pocketState !== "empty")
    needs.push(`what sits in mandrel ${mandrel.number}`);
  if (valve?.kind === "orifice") return { kind: "orifice" };
  if (!valve || !isBellows(valve)) return { kind: "blank" };
  const { bellows, seat, spring } = bodyGivens(context, valve);
  const card = cardGiven(context, valve);
  for (const given of [bellows, seat, spring, card]) {
    if (given.si === undefined) needs.push(`${given.name} of ${valve.serial}`);
  }
  if (bellows.si === undefined || seat.si === undefined || spring.si === undefined) {
    return { kind: "blank" };
  }
  if (card.si === undefined) return { kind: "blank" };
  const body = bodyOf(valve, { bellows: bellows.si, seat: seat.si, spring: spring.si });
  const dome60 = domeFromTestRack(body, toShop(context, valve, card.si), shopAtmosphere(valve));
  return { kind: "bellows", body, dome60 };
}

/** The verdict of an unloading in one sentence, with the first check that fails and by how much. */
export function unloadingInWords(outcome: UnloadingOutcome, { write }: Writer): string {
  if (!outcome.ok) return `Not known whether the well unloads: needs ${outcome.needs.join("; ")}.`;
  const { unloading: found, mandrels } = outcome;
  const numberOf = (index: number) => mandrels[index]?.number ?? 0;
  if (found.reachesBottom) {
    const last = found.steps.at(-1);
    return `By these pressures the well unloads to mandrel ${numberOf(last?.mandrel ?? 0)}: each valve is uncovered, opens, and the one above shuts.`;
  }
  const place = found.steps.findIndex(({ checks }) => checks.some(({ inHand }) => inHand < 0));
  const step = found.steps[place];
  const above = found.steps[place - 1];
  const failed = step?.checks.find(({ inHand }) => inHand < 0);
  if (!step || !failed)
    throw new Error("an unloading without a fault that does not end; this is a defect");
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
  return `The well does not unload to its deepest valve: ${why[failed.what]}.${reached}`;
}
