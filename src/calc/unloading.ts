import type { Gas } from "./gas.ts";
import { gasColumn } from "./gasColumn.ts";
import { InputError, requireNumber } from "./inputError.ts";
import { distinctWarnings, type Method, type Warning } from "./method.ts";
import { domePressure } from "./nitrogen.ts";
import type { TemperatureProfile } from "./temperatureProfile.ts";
import { type AbsolutePa, absolutePa, type VerticalM, verticalM } from "./units.ts";
import {
  closingPressure,
  openingPressure,
  TEST_RACK_TEMPERATURE,
  type ValveBody,
} from "./valve.ts";

/** What sits in a pocket, as far as gas is concerned. */
export type Fitted =
  | { readonly kind: "bellows"; readonly body: ValveBody; readonly dome60: AbsolutePa }
  | { readonly kind: "orifice" }
  /** a dummy, or a pocket that lets nothing through */
  | { readonly kind: "blank" };

export interface FittedMandrel {
  /** true vertical, m */
  readonly depth: VerticalM;
  readonly fitted: Fitted;
}

/** The pressures and gradients that an unloading goes through. */
export interface UnloadingPlan {
  /** casing pressure that the supply can reach, absolute at surface, Pa */
  readonly kickOff: AbsolutePa;
  /** casing pressure once the well is on lift, absolute at surface, Pa: what an orifice works at */
  readonly operating: AbsolutePa;
  /** absolute, Pa, with gas coming back */
  readonly wellhead: AbsolutePa;
  /** of the liquid that fills the well before it is unloaded, Pa/m of true vertical depth */
  readonly loadGradient: number;
  /** above the point where gas enters, Pa/m of true vertical depth */
  readonly liftedGradient: number;
  readonly gas: Gas;
  /** of the well on lift */
  readonly temperatures: TemperatureProfile;
}

export const unloadingMethod: Method = {
  name: "Unloading, valve by valve",
  formula:
    "valve k is uncovered when injection at k ≥ tubing at k = pwh + glifted h(k−1) + gload (h(k) − h(k−1)), with the casing as low as valve k−1 lets it fall; valve k−1 then shuts when the casing that valve k keeps lies below its closing pressure, and stays shut when it lies below its opening pressure; where production acts, both speak of the tubing on lift",
  source:
    "common practice for continuous lift with falling closing pressures; force balance and hydrostatics, friction of the gas not counted; one gradient above the entry of gas for the whole unloading",
  validity: [],
};

/**
 * Something that an unloading needs, with how much is in hand: negative where it fails.
 *
 * An orifice counts as uncovered when gas also enters it at the operating pressure. It never shuts: as a valve
 * above it has in hand by how much the tubing stands over the casing, which is less than nothing while it passes gas.
 */
export interface UnloadingCheck {
  readonly what: "uncovered" | "opens" | "valve above shuts" | "valve above stays shut";
  /** Pa at the valve it speaks of */
  readonly inHand: number;
}

export interface UnloadingStep {
  /** place in the list given, from 0 */
  readonly mandrel: number;
  /** tubing pressure at this mandrel when gas first reaches it, absolute, Pa */
  readonly transfer: AbsolutePa;
  /** tubing pressure there once gas enters here, absolute, Pa */
  readonly lifted: AbsolutePa;
  /**
   * surface casing pressure at which the valve opens against the transfer pressure, 0 where the tubing alone opens
   * it; undefined for an orifice, or where production acts
   */
  readonly surfaceOpening: AbsolutePa | undefined;
  /** surface casing pressure at which it shuts; undefined for an orifice, or where production acts */
  readonly surfaceClosing: AbsolutePa | undefined;
  readonly checks: readonly UnloadingCheck[];
}

export interface Unloading {
  readonly steps: readonly UnloadingStep[];
  /** every check of every step holds */
  readonly reachesBottom: boolean;
  /** the deepest mandrel that gas gets to with every check on the way holding; undefined: none */
  readonly deepest: number | undefined;
  readonly warnings: readonly Warning[];
}

const SURFACE = verticalM(0);

/**
 * Whether a well unloads to its deepest valve: each valve is uncovered and opens in turn, and the one above shuts.
 *
 * @param mandrels from the top down; blanks are passed over
 * @param plan     see UnloadingPlan; the operating pressure is not above the kick-off pressure
 * @throws InputError when the mandrels are not given from the top down, none can pass gas, or a pressure or
 *         gradient is impossible
 * Holds for one string of valves served by gas down one space and fluids coming up the other. It is a check of
 * pressures: how much gas each valve passes is asked elsewhere. Source: unloadingMethod.
 */
export function unloading(mandrels: readonly FittedMandrel[], plan: UnloadingPlan): Unloading {
  requirePlan(mandrels, plan);
  const warnings: Warning[] = [];
  const stops = mandrels
    .map((each, mandrel) => ({ ...each, mandrel, valve: chargedAt(each, plan, warnings) }))
    .filter(({ fitted }) => fitted.kind !== "blank");
  if (stops.length === 0) throw new InputError("mandrels", 0, "at least one that lets gas through");

  /** Absolute pressure of the injected gas at one depth for a pressure at another; of no gas, none. */
  const carry = (pressure: AbsolutePa, from: VerticalM, to: VerticalM): AbsolutePa => {
    if (pressure <= 0) return absolutePa(0);
    const column = gasColumn(pressure, from, [to], plan.gas, plan.temperatures);
    warnings.push(...column.warnings);
    return column.pressures[0] as AbsolutePa;
  };
  const lifted = (depth: VerticalM) => absolutePa(plan.wellhead + plan.liftedGradient * depth);

  const steps: UnloadingStep[] = [];
  // The lowest casing pressure, at surface, at which gas still enters through the valve above.
  let casing = plan.kickOff;
  stops.forEach(({ mandrel, depth, valve }, place) => {
    const above = stops[place - 1];
    const lastEntry = above ? above.depth : SURFACE;
    const transfer = absolutePa(lifted(lastEntry) + plan.loadGradient * (depth - lastEntry));
    const here = lifted(depth);
    const injection = carry(casing, SURFACE, depth);
    const uncovered = injection - transfer;
    const checks: UnloadingCheck[] = [
      {
        what: "uncovered",
        inHand: valve
          ? uncovered
          : Math.min(uncovered, carry(plan.operating, SURFACE, depth) - here),
      },
    ];

    let surfaceOpening: AbsolutePa | undefined;
    let surfaceClosing: AbsolutePa | undefined;
    let keeps = plan.operating;
    let mostKept = plan.operating;
    if (valve) {
      const closing = closingPressure(valve.body, valve.dome);
      if (valve.body.kind === "injection-operated") {
        const opening = openingPressure(valve.body, valve.dome, transfer);
        // Supply is held back by the valves above only while they are open: they let it rise again.
        const most = above?.valve ? openingAbove(above.valve, lifted(above.depth)) : undefined;
        const available =
          most === undefined
            ? plan.kickOff
            : Math.min(plan.kickOff, Math.max(casing, carry(most, lastEntry, SURFACE)));
        checks.push({
          what: "opens",
          inHand: carry(absolutePa(available), SURFACE, depth) - opening,
        });
        surfaceOpening = carry(opening, depth, SURFACE);
        surfaceClosing = carry(closing, depth, SURFACE);
        // Gas enters only while the casing stands over the tubing, however low the valve would let it fall.
        keeps = closing >= here ? surfaceClosing : carry(here, depth, SURFACE);
        const reopens = carry(openingPressure(valve.body, valve.dome, here), depth, SURFACE);
        mostKept = absolutePa(Math.max(keeps, Math.min(plan.kickOff, reopens)));
      } else {
        checks.push({
          what: "opens",
          inHand: transfer - openingPressure(valve.body, valve.dome, injection),
        });
        // It does not heed the casing, which stands where the supply brings it.
        keeps = plan.kickOff;
        mostKept = plan.kickOff;
      }
    }
    if (above) {
      const lowest = carry(keeps, SURFACE, above.depth);
      const highest = carry(mostKept, SURFACE, above.depth);
      checks.push(...aboveShuts(above.valve, lifted(above.depth), lowest, highest));
    }
    steps.push({ mandrel, transfer, lifted: here, surfaceOpening, surfaceClosing, checks });
    casing = keeps;
  });
  const firstFault = steps.findIndex(({ checks }) => checks.some(({ inHand }) => inHand < 0));
  const last = firstFault === -1 ? steps.at(-1) : steps[firstFault - 1];
  return {
    steps,
    reachesBottom: firstFault === -1,
    deepest: last?.mandrel,
    warnings: distinctWarnings(warnings),
  };
}

interface Charged {
  readonly body: ValveBody;
  /** at the valve's temperature, absolute, Pa */
  readonly dome: AbsolutePa;
}

function chargedAt(
  { depth, fitted }: FittedMandrel,
  { temperatures }: UnloadingPlan,
  warnings: Warning[],
): Charged | undefined {
  if (fitted.kind !== "bellows") return undefined;
  const dome = domePressure(fitted.dome60, TEST_RACK_TEMPERATURE, temperatures.at(depth));
  warnings.push(...dome.warnings, ...temperatures.warningsAt(depth));
  return { body: fitted.body, dome: dome.pressure };
}

const openingAbove = ({ body, dome }: Charged, tubing: AbsolutePa): AbsolutePa | undefined =>
  body.kind === "injection-operated" ? openingPressure(body, dome, tubing) : undefined;

/**
 * What the valve above does once gas enters below it.
 *
 * @param above   undefined: an orifice
 * @param tubing  beside it, on lift, absolute, Pa
 * @param lowest  casing beside it, as low as the valve below lets it fall, absolute, Pa
 * @param highest casing beside it, as high as the valve below lets it rise, absolute, Pa
 */
function aboveShuts(
  above: Charged | undefined,
  tubing: AbsolutePa,
  lowest: AbsolutePa,
  highest: AbsolutePa,
): UnloadingCheck[] {
  if (!above) return [{ what: "valve above shuts", inHand: tubing - lowest }];
  const { body, dome } = above;
  const closing = closingPressure(body, dome);
  const byProduction = body.kind === "production-operated";
  // Casing on the seat helps to open: where it stands over the closing pressure, the opening one lies below that.
  const opening = openingPressure(body, dome, byProduction ? highest : tubing);
  return [
    { what: "valve above shuts", inHand: closing - (byProduction ? tubing : lowest) },
    { what: "valve above stays shut", inHand: opening - (byProduction ? tubing : highest) },
  ];
}

function requirePlan(mandrels: readonly FittedMandrel[], plan: UnloadingPlan): void {
  mandrels.forEach(({ depth }, index) => {
    const before = mandrels[index - 1];
    requireNumber(
      `mandrels[${index}].depth`,
      depth,
      before ? "deeper than the mandrel before it" : "below the surface",
      (d) => d > (before?.depth ?? 0),
    );
  });
  requireNumber("load_gradient", plan.loadGradient, "above 0", (g) => g > 0);
  requireNumber("lifted_gradient", plan.liftedGradient, "0 or more", (g) => g >= 0);
  requireNumber("wellhead_pressure", plan.wellhead, "above 0 absolute", (p) => p > 0);
  requireNumber("kick_off_pressure", plan.kickOff, "above 0 absolute", (p) => p > 0);
  requireNumber(
    "operating_pressure",
    plan.operating,
    "above 0 absolute and not above the kick-off pressure",
    (p) => p > 0 && p <= plan.kickOff,
  );
}
