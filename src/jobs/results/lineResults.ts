import { largestPull, largestPullMethod } from "../../calc/linePull.ts";
import {
  fractionOfBreaking,
  leastGoingIn,
  lineTension,
  lineTensionMethod,
  overpullAvailable,
  overpullAvailableMethod,
} from "../../calc/lineTension.ts";
import { pushOutBalance, pushOutForce, pushOutMethod } from "../../calc/pushOut.ts";
import { absolutePa, alongHoleM } from "../../calc/units.ts";
import { asEntered } from "../display.ts";
import { toSI } from "../quantity.ts";
import type { Line, ToolString } from "../records/equipment.ts";
import { BELOW_TARGET } from "./boresOnTheWay.ts";
import { atmosphereGiven, type Context, recorded } from "./context.ts";
import { indicatorGiven, packingGiven } from "./indicatorResults.ts";
import { wellheadGiven } from "./levelling.ts";
import {
  density,
  diameterGiven,
  fluidGiven,
  holeOf,
  lineGivens,
  lineName,
  stringWeight,
  weightGiven,
} from "./lineInHole.ts";
import { pinsUnderPull } from "./pinResults.ts";
import {
  type Definitions,
  from,
  type Get,
  type Given,
  type ResultId,
  type Traced,
  trace,
} from "./traced.ts";

/** Push-out, what the line may carry and what it should read, from the wellhead pressure that stands. */

/** The string with least weight: the one that push-out is hardest on. A catcher's is looked at by itself. */
export function lightestString({ programme }: Context): ToolString | undefined {
  const { gauge, pull, set } = programme.strings;
  const strings = [gauge, pull, set].filter((s) => s !== undefined);
  return strings.sort((a, b) => stringWeight(a) - stringWeight(b))[0];
}

/** Just under the closed valve the hole is vertical and no wire weight helps: the least of the job. */
function balanceGivens(context: Context, get: Get) {
  return {
    pushOut: from("F", get("push-out")),
    friction: packingGiven(get),
    fluid: fluidGiven(context),
    density,
    weight: weightGiven(lightestString(context), "Weight of the lightest string in air"),
  };
}

function balance(v: {
  pushOut: number;
  friction: number;
  weight: number;
  density: number;
  fluid: number;
}) {
  const string = { inAir: v.weight, meanDensity: v.density };
  return pushOutBalance(v.pushOut, v.friction, string, v.fluid);
}

/**
 * Whether a string goes down at all: what is left on the line at the worst place of its way, on the line itself and
 * not as the indicator shows it.
 */
function least(
  context: Context,
  get: Get,
  id: ResultId,
  string: ToolString | undefined,
  name: ToolString["purpose"],
): Traced {
  return trace({
    id,
    label: `Least line pull going in with the ${name} string, anywhere down to the mandrel`,
    dimension: "force",
    method: {
      ...lineTensionMethod,
      formula: `least T going in, of every depth of the string down to L + 30 ft and all along the line; below 0 it does not go. ${lineTensionMethod.formula}`,
    },
    givens: { ...lineGivens(context, get, string), depth: from("L", get("target-depth")) },
    work: (v) => ({
      si: leastGoingIn(holeOf(context, v), alongHoleM(v.depth + BELOW_TARGET)).tension,
    }),
  });
}

const SLACK_TEXT =
  "going in, the line goes slack below while the indicator still shows a pull: the string does not go there by its weight";

/** What the indicator should show with a string at the mandrel: going in, hanging still, coming out. */
function pull(
  context: Context,
  get: Get,
  id: ResultId,
  string: ToolString | undefined,
  which: "runningIn" | "hanging" | "pullingOut",
): Traced {
  const purpose = id.split("-")[1];
  const words = {
    runningIn: "going in",
    hanging: "hanging",
    pullingOut: "coming out",
  };
  return trace({
    id,
    label: `Line pull ${words[which]} with the ${purpose} string at the mandrel, as the indicator shows it`,
    dimension: "force",
    method: { ...lineTensionMethod, formula: `${lineTensionMethod.formula}; read T k` },
    givens: {
      ...lineGivens(context, get, string),
      depth: from("L", get("target-depth")),
      indicator: indicatorGiven(get),
    },
    work: (v) => {
      const tension = lineTension(holeOf(context, v), alongHoleM(v.depth));
      const text =
        which === "hanging"
          ? "without drag: going in reads less, coming out more; a sign, never proof of what hangs below"
          : "by one friction coefficient all along; a sign, never proof of what hangs below";
      const isSlack = which === "runningIn" && tension.slack !== undefined;
      return {
        si: tension[which] * v.indicator,
        warnings: [
          ...tension.warnings,
          ...(isSlack ? [{ kind: "note" as const, text: SLACK_TEXT }] : []),
          { kind: "note", text },
        ],
      };
    },
  });
}

/** Breaking strength of a line as it is now, N: worn wire is weaker by the area it has lost. */
export function strengthAsWorn({ breakingStrength, wornDiameter, diameter }: Line): number {
  const share = wornDiameter ? toSI("diameter", wornDiameter) / toSI("diameter", diameter) : 1;
  return toSI("force", breakingStrength) * Math.min(1, share) ** 2;
}

function strengthGiven(context: Context): Given {
  const { line } = context.programme;
  const worn = line?.wornDiameter ? `, worn to ${asEntered(line.wornDiameter)}` : "";
  return {
    symbol: "Fb",
    name: `Breaking strength (${line?.strengthFrom ?? "not given"})${worn}`,
    dimension: "force",
    si: line && strengthAsWorn(line),
    origin: { kind: "record", where: lineName(context) },
  };
}

/** The weakest tool of strings that says what it stands. */
function weakestTool(strings: readonly (ToolString | undefined)[]) {
  return strings
    .flatMap((string) => string?.tools ?? [])
    .flatMap((tool) => (tool.strength ? [{ tool, strength: toSI("force", tool.strength) }] : []))
    .sort((a, b) => a.strength - b.strength)[0];
}

/** What the line may carry with one of these strings on it, whichever it is, and what is weaker than it. */
function limitGivens(context: Context, strings: readonly (ToolString | undefined)[]) {
  const { line, policy } = context.programme;
  const weakest = weakestTool(strings);
  return {
    strength: strengthGiven(context),
    fraction: {
      symbol: "f",
      name: "Fraction of it allowed",
      dimension: "ratio",
      si: policy?.lineFraction.value,
      origin: policy
        ? { kind: "policy", basis: policy.lineFraction.basis }
        : { kind: "record", where: "policy" },
    } as Given,
    socket: recorded(
      context,
      "Fs",
      "Rope socket strength",
      "force",
      line?.ropeSocketStrength,
      lineName(context),
    ),
    weakest: {
      symbol: "Ft",
      name: weakest ? `Weakest tool: ${weakest.tool.name}` : "Weakest tool",
      dimension: "force",
      si: weakest?.strength ?? Number.MAX_VALUE,
      ...(!weakest && { shown: "no tool says what it stands" }),
      origin: { kind: "record", where: weakest ? weakest.tool.name : "tool strings" },
    } as Given,
  };
}

/** What the largest permitted pull at surface leaves at the tool, besides what hangs there. */
function overpull(
  context: Context,
  get: Get,
  id: ResultId,
  label: string,
  string: ToolString | undefined,
): Traced {
  return trace({
    id,
    label,
    dimension: "force",
    method: overpullAvailableMethod,
    givens: {
      ...lineGivens(context, get, string),
      // What another string could not stand does not hang on the line now.
      ...limitGivens(context, [string]),
      depth: from("L", get("target-depth")),
    },
    work: (v) => {
      const available = overpullAvailable(holeOf(context, v), alongHoleM(v.depth), {
        breakingStrength: v.strength,
        fraction: v.fraction,
        ropeSocketStrength: Math.min(v.socket, v.weakest),
      });
      return { si: available.overpull };
    },
  });
}

/** Over picking up, N: the middle of 100 to 200 lbf (common practice). */
const TEST_OVERPULL = toSI("force", { value: 150, unit: "lbf" });

export const lineResults = {
  "push-out": (context) =>
    trace({
      id: "push-out",
      label: "Push-out on the line",
      dimension: "force",
      method: {
        ...pushOutMethod,
        name: "Push-out at the packing",
        formula: "F = (p − patm) π d² / 4",
      },
      givens: {
        wellhead: wellheadGiven(context),
        diameter: diameterGiven(context),
        atmosphere: atmosphereGiven(context),
      },
      work: (v) => ({ si: pushOutForce(absolutePa(v.wellhead), context.atmosphere, v.diameter) }),
    }),
  "push-out-ratio": (context, get) =>
    trace({
      id: "push-out-ratio",
      label: "Effective weight over push-out and packing friction",
      dimension: "ratio",
      method: pushOutMethod,
      givens: balanceGivens(context, get),
      // Nothing pushes and nothing rubs: any weight beats it.
      work: (v) => ({ si: balance(v).ratio ?? Number.POSITIVE_INFINITY }),
    }),
  "weight-needed": (context, get) =>
    trace({
      id: "weight-needed",
      label: "Weight in air that only just balances",
      dimension: "weight",
      method: pushOutMethod,
      givens: balanceGivens(context, get),
      work: (v) => ({ si: balance(v).weightNeeded }),
    }),
  "least-in-gauge": (context, get) =>
    least(context, get, "least-in-gauge", context.programme.strings.gauge, "gauge"),
  "in-gauge": (context, get) =>
    pull(context, get, "in-gauge", context.programme.strings.gauge, "runningIn"),
  "hanging-gauge": (context, get) =>
    pull(context, get, "hanging-gauge", context.programme.strings.gauge, "hanging"),
  "out-gauge": (context, get) =>
    pull(context, get, "out-gauge", context.programme.strings.gauge, "pullingOut"),
  "least-in-pull": (context, get) =>
    least(context, get, "least-in-pull", context.programme.strings.pull, "pull"),
  "in-pull": (context, get) =>
    pull(context, get, "in-pull", context.programme.strings.pull, "runningIn"),
  "hanging-pull": (context, get) =>
    pull(context, get, "hanging-pull", context.programme.strings.pull, "hanging"),
  "out-pull": (context, get) =>
    pull(context, get, "out-pull", context.programme.strings.pull, "pullingOut"),
  "least-in-set": (context, get) =>
    least(context, get, "least-in-set", context.programme.strings.set, "set"),
  "in-set": (context, get) =>
    pull(context, get, "in-set", context.programme.strings.set, "runningIn"),
  "hanging-set": (context, get) =>
    pull(context, get, "hanging-set", context.programme.strings.set, "hanging"),
  "out-set": (context, get) =>
    pull(context, get, "out-set", context.programme.strings.set, "pullingOut"),
  "overpull-pull": (context, get) =>
    overpull(
      context,
      get,
      "overpull-pull",
      "Overpull the line can bring to the pulling tool",
      context.programme.strings.pull,
    ),
  "overpull-set": (context, get) =>
    overpull(
      context,
      get,
      "overpull-set",
      "Overpull the line can bring to the running tool",
      context.programme.strings.set,
    ),
  "fraction-of-breaking": (context, get) =>
    trace({
      id: "fraction-of-breaking",
      label: "Line pull coming out with the pull string, of breaking strength",
      dimension: "fraction",
      method: lineTensionMethod,
      givens: {
        ...lineGivens(context, get, context.programme.strings.pull),
        depth: from("L", get("target-depth")),
        strength: strengthGiven(context),
      },
      work: (v) => {
        const { largest, warnings } = lineTension(holeOf(context, v), alongHoleM(v.depth));
        return { si: fractionOfBreaking(largest.tension, v.strength), warnings };
      },
    }),
  "sheave-ratio": (context) =>
    trace({
      id: "sheave-ratio",
      label: "Smallest sheave, in wire diameters",
      dimension: "ratio",
      method: {
        name: "Sheave to wire",
        formula: "D / d",
        source: "arithmetic; what is wanted is policy",
        validity: [],
      },
      givens: {
        sheave: recorded(
          context,
          "D",
          "Smallest sheave",
          "diameter",
          context.programme.job.unit?.smallestSheave,
          "job: unit and line run",
        ),
        diameter: diameterGiven(context),
      },
      work: (v) => ({ si: v.sheave / v.diameter }),
    }),
  "largest-pull": (context, get) =>
    trace({
      id: "largest-pull",
      label: "Largest permitted line pull at surface, as the indicator shows it",
      dimension: "force",
      method: {
        ...largestPullMethod,
        formula: `${largestPullMethod.formula}; read Tmax k`,
      },
      givens: {
        ...limitGivens(context, Object.values(context.programme.strings)),
        indicator: indicatorGiven(get),
      },
      work: (v) => ({
        si: largestPull(v.strength, v.fraction, Math.min(v.socket, v.weakest)) * v.indicator,
      }),
    }),
  "release-pull": (context, get) => {
    const { release } = context.programme.job;
    const pins = pinsUnderPull(context, "pull");
    const pulling = pins && get("pulling-pins");
    return trace({
      id: "release-pull",
      label: "Largest line pull while jarring the old valve out",
      dimension: "force",
      method: {
        name: "Limit of the pull run",
        formula:
          "smallest of the line's largest permitted pull, the programme's limit and what shears the pulling tool's pins",
        source: "the programme; policy",
        validity: [],
      },
      givens: {
        line: from("Tmax", get("largest-pull")),
        programme: {
          ...recorded(context, "Tp", "Limit of the programme", "force", release?.mostPull, "job"),
          ...(!release?.mostPull && { si: Number.MAX_VALUE, shown: "none stated" }),
        },
        pins: pinsLimit(pulling, "pull"),
        indicator: indicatorGiven(get),
      },
      work: (v) => ({ si: Math.min(v.line, v.programme * v.indicator, v.pins) }),
    });
  },
  "test-pull": (_, get) =>
    trace({
      id: "test-pull",
      label: "Test pull on the latch, about",
      dimension: "force",
      method: {
        name: "Light pull over picking up",
        formula: "T = Tout + ΔT k",
        source: "100 to 200 lbf over picking up (common practice); the middle of it",
        validity: [],
      },
      givens: {
        out: from("Tout", get("out-set")),
        over: {
          symbol: "ΔT",
          name: "Over picking up",
          dimension: "force",
          si: TEST_OVERPULL,
          origin: { kind: "assumed", why: "100 to 200 lbf, common practice" },
        },
        indicator: indicatorGiven(get),
      },
      work: (v) => ({ si: v.out + v.over * v.indicator }),
    }),
  "test-pull-most": (context, get) =>
    trace({
      id: "test-pull-most",
      label: "Largest line pull while the latch is tested",
      dimension: "force",
      method: {
        name: "Limit of the test pull",
        formula:
          "smaller of the line's largest permitted pull and what shears the running tool's pins, at least",
        source: "arithmetic; pins that go in the test leave the valve untested",
        validity: [],
      },
      givens: {
        line: from("Tmax", get("largest-pull")),
        pins: pinsLimit(pinsUnderPull(context, "set") && get("running-pins"), "set"),
      },
      work: (v) => ({ si: Math.min(v.line, v.pins) }),
    }),
} satisfies Definitions;

/** Pins that a pull does not load, or of which too little is known, keep no pull from being known. */
function pinsLimit(pins: Traced | undefined, purpose: "pull" | "set"): Given {
  if (pins?.outcome.state === "known") return from("Ts", pins);
  const name = purpose === "pull" ? "pulling tool" : "running tool";
  const needs = pins?.outcome.state === "missing" ? pins.outcome.needs.join("; ") : undefined;
  return {
    symbol: "Ts",
    name: `Pins of the ${name}`,
    dimension: "force",
    si: Number.MAX_VALUE,
    shown: pins ? "not known" : "none that a pull would shear",
    origin: { kind: "record", where: `${purpose} string` },
    ...(pins && {
      warnings: [
        {
          kind: "note" as const,
          text: `what shears the ${name}'s pins is not in it${needs ? `: needs ${needs}` : ""}`,
        },
      ],
    }),
  };
}
