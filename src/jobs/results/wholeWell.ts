import { type Gate, type GateState, gateState } from "../../calc/gate.ts";
import { absolutePa } from "../../calc/units.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import { mandrelResultId, valveIn } from "./atMandrel.ts";
import type { Results } from "./results.ts";
import type { MandrelFigure } from "./traced.ts";

/** What a pocket does to gas while the well is on lift. */
export interface MandrelState {
  readonly mandrel: Mandrel;
  readonly valve: Valve | undefined;
  /** "always open" for an orifice, "blank" for a dummy or an empty pocket, "not known" says what it needs */
  readonly gate: Gate | "always open" | "blank" | "not known";
  /** Pa, see GateState; undefined where nothing changes */
  readonly toChange: number | undefined;
  /** Production stands at or above injection: whatever the gate does, nothing passes. */
  readonly noDrop: boolean;
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
    noDrop: false,
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
  const noDrop = production >= injection;
  if (valve.kind === "orifice") {
    return state({ gate: "always open", noDrop, mayPass: !noDrop });
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
  return state({ gate, toChange, noDrop, mayPass: gate !== "shut" && !noDrop });
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

const list = new Intl.ListFormat("en-GB");

/** Where gas should enter by calculation: the mandrels that pass, or may pass, from the top down. */
export function entryInWords(states: readonly MandrelState[]): string {
  const unknown = states.filter(({ gate }) => gate === "not known");
  const known = states.filter(({ gate }) => gate !== "not known");
  if (known.every(({ gate }) => gate === "blank")) {
    const needs = [...new Set(unknown.flatMap((state) => state.needs))];
    return `Not known where gas enters: needs ${needs.join("; ") || "a valve in a pocket"}.`;
  }
  const sure = states.filter(({ mayPass, gate }) => mayPass && gate !== "as it was");
  const maybe = states.filter(({ mayPass, gate }) => mayPass && gate === "as it was");
  const at = (of: readonly MandrelState[]) =>
    list.format(of.map(({ mandrel }) => String(mandrel.number)));
  const mandrels = (of: readonly MandrelState[]) => `mandrel${of.length > 1 ? "s" : ""} ${at(of)}`;
  const enters =
    sure.length > 0
      ? `By these pressures gas should enter at ${mandrels(sure)}`
      : maybe.length > 0
        ? "By these pressures gas should enter nowhere for sure"
        : "By these pressures no valve passes gas";
  const perhaps = maybe.length > 0 ? `, and at ${at(maybe)} if open before` : "";
  const open = unknown.length > 0 ? `; not known at ${at(unknown)}` : "";
  return `${enters}${perhaps}${open}.`;
}
