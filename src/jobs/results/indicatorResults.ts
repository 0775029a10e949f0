import type { Method } from "../../calc/method.ts";
import { readingFromTension, weightIndicatorMethod } from "../../calc/weightIndicator.ts";
import type { Writer } from "../display.ts";
import { type Context, measuredOr, recorded } from "./context.ts";
import { type Definitions, from, type Get, type Given, type Traced, trace } from "./traced.ts";

/** What the indicator shows of the line's pull, and what packing friction is by it. */

/** What the indicator shows for a pound on the line, in whatever stands on a reading. */
export const indicatorGiven = (get: Get): Given => from("k", get("indicator-factor"));

/** Against every movement of the line: by the readings where they were taken, else what the programme expects. */
export const packingGiven = (get: Get): Given => from("Fp", get("packing-friction"));

const factorMethod: Method = {
  ...weightIndicatorMethod,
  name: "Indicator reading over line pull",
  formula: "k = cos(a/2) / cos(c/2), a and c between the two lines at the pulley",
};

const asItIs: Method = {
  name: "Read as the line's pull",
  formula: "k = 1",
  source: "arithmetic: only a gauge that weighs a pulley sees the angle there",
  validity: [],
};

const FROM_PLAN = "job: unit and line run";

/** The two angles at the hay pulley; undefined where nothing that is known asks for them. */
function anglesAtPulley(context: Context): { angle: Given; calibrated: Given } | undefined {
  const { unit } = context.programme.job;
  if (unit?.indicator === "counter head") return undefined;
  const angle = measuredOr(
    context.measured["line angle"],
    recorded(
      context,
      "a",
      "Angle between the lines at the hay pulley",
      "line angle",
      unit?.lineAngle,
      FROM_PLAN,
    ),
  );
  const calibrated = recorded(
    context,
    "c",
    "Angle the indicator is calibrated for",
    "line angle",
    unit?.calibratedAngle,
    FROM_PLAN,
  );
  if (angle.si === undefined && calibrated.si === undefined) return undefined;
  const asCalibrated = "as it is calibrated: nobody said another";
  return {
    calibrated,
    angle:
      angle.si === undefined
        ? { ...angle, si: calibrated.si, origin: { kind: "assumed", why: asCalibrated } }
        : angle,
  };
}

function factorAsItIs({ programme }: Context): Given {
  const indicator = programme.job.unit?.indicator;
  const why = indicator
    ? "read at the angle it is calibrated for: nobody said another"
    : "taken as the line's pull: nobody said where it is read";
  return {
    symbol: "k",
    name: "Indicator reading over line pull",
    dimension: "ratio",
    si: 1,
    origin:
      indicator === "counter head"
        ? { kind: "record", where: "job: read at the counter head" }
        : { kind: "assumed", why },
  };
}

export const indicatorResults = {
  "indicator-factor": (context) => {
    const named = {
      id: "indicator-factor",
      label: "Indicator reading over line pull",
      dimension: "ratio",
    } as const;
    const angles = anglesAtPulley(context);
    return angles
      ? trace({
          ...named,
          method: factorMethod,
          givens: angles,
          work: (v) => ({ si: readingFromTension(1, v.angle, v.calibrated) }),
        })
      : trace({
          ...named,
          method: asItIs,
          givens: { factor: factorAsItIs(context) },
          work: (v) => ({ si: v.factor }),
        });
  },
  "packing-friction": (context, get) => {
    const named = {
      id: "packing-friction",
      label: "Packing friction",
      dimension: "force",
    } as const;
    const measured = context.measured["packing friction"];
    if (!measured) {
      return trace({
        ...named,
        method: {
          name: "As expected",
          formula: "Fp",
          source: "the programme, until it is measured",
          validity: [],
        },
        givens: {
          expected: recorded(
            context,
            "Fp",
            "Packing friction",
            "force",
            context.programme.job.expected.packingFriction,
            "job, expected",
          ),
        },
        work: (v) => ({ si: v.expected }),
      });
    }
    return trace({
      ...named,
      method: {
        name: "Packing friction by the line's pull",
        formula: "Fp = (Tout − Tin) / 2 / k",
        source: `common practice, dead slow in the first 100 ft; ${factorMethod.source}`,
        validity: [],
      },
      givens: {
        half: {
          symbol: "(Tout − Tin) / 2",
          name: "Half of what moving out shows more than moving in",
          dimension: "force",
          si: measured.si,
          origin: { kind: "measured", at: measured.at, by: measured.by },
        },
        indicator: indicatorGiven(get),
      },
      work: (v) => ({ si: v.half / v.indicator }),
    });
  },
} satisfies Definitions;

/** At which angle the indicator is read, or who said that it does not matter. */
export function indicatorInWords({ givens, outcome }: Traced, writer: Writer): string {
  if (outcome.state === "missing") {
    return `What the indicator shows is not known: needs ${outcome.needs.join("; ")}.`;
  }
  if (outcome.state === "no answer") return `What the indicator shows: no answer, ${outcome.why}.`;
  const [angle, calibrated] = givens;
  const degrees = (of: Given | undefined) => writer.write("line angle", of?.si ?? 0);
  if (calibrated) {
    return `As the indicator shows it: ${degrees(angle)} at the hay pulley, calibrated for ${degrees(calibrated)}.`;
  }
  return angle?.origin.kind === "assumed"
    ? `As the indicator shows it, ${angle.origin.why}.`
    : "As the indicator shows it, at the counter head.";
}
