import type { CheckContext } from "./checks/check.ts";
import { atLeast, atMost } from "./checks/compare.ts";
import type { Writer } from "./display.ts";
import { makeUpOf } from "./makeUp.ts";
import { toSI } from "./quantity.ts";
import type { OpenPoint } from "./readiness.ts";
import { gasesOf } from "./results/sourResults.ts";
import { pinsDisagree } from "./results/toolPins.ts";

/** What line, string and pins leave open the day before. */
export function linePoints(context: CheckContext): OpenPoint[] {
  return [
    ...goesDown(context),
    ...comesOut(context),
    ...friction(context),
    ...strengths(context),
    ...indicator(context),
    ...sheave(context),
    ...pins(context),
    ...order(context),
    ...release(context),
    ...sour(context),
  ];
}

const point = (
  says: string,
  weight: OpenPoint["weight"] = "ask",
  group: OpenPoint["group"] = "string",
): OpenPoint => ({ group, weight, says, stops: weight === "fails" });

/** Deviation and friction can hold a string that beats push-out at surface. */
function goesDown({ results, writer }: CheckContext): OpenPoint[] {
  return (["gauge", "pull", "set"] as const).flatMap((purpose) => {
    const left = results.value(`least-in-${purpose}`);
    if (left === undefined || left > 0) return [];
    return [point(staysUp(purpose, left, writer), "fails")];
  });
}

/** @param least N, the least tension in the line on the way down; not above 0 */
export const staysUp = (name: string, least: number, writer: Writer): string =>
  `The ${name} string does not go to the mandrel by its weight: on its way the line would have to push with ${writer.write("force", -least)}. Add stem, or rollers.`;

/** What the line may bear, against what coming out with the pull string takes of it. */
function comesOut({ programme, results, writer }: CheckContext): OpenPoint[] {
  const fraction = results.value("fraction-of-breaking");
  const allowed = programme.policy?.lineFraction.value;
  const points: OpenPoint[] = [];
  if (fraction !== undefined && allowed !== undefined && !atMost(fraction, allowed)) {
    points.push(
      point(
        `Coming out with the pull string takes ${writer.write("fraction", fraction)} of the line's strength; ${writer.write("fraction", allowed)} is allowed.`,
        "fails",
      ),
    );
  }
  for (const [id, tool] of [
    ["overpull-pull", "pulling"],
    ["overpull-set", "running"],
  ] as const) {
    const overpull = results.value(id);
    if (overpull !== undefined && overpull <= 0) {
      points.push(point(`The line can bring no overpull to the ${tool} tool.`, "fails"));
    }
  }
  return points;
}

/** Every pull stands on it, and none was measured yet. */
function friction({ programme, results }: CheckContext): OpenPoint[] {
  if (programme.job.expected.friction) return [];
  const taken = results.get("in-pull")?.givens.find(({ symbol }) => symbol === "μ")?.origin;
  if (taken?.kind !== "assumed") return [];
  return [
    point(`The friction coefficient of wire and string is not stated: ${taken.why} is taken.`),
  ];
}

/** A tool of which nobody said what it stands counts as stronger than the line, and may not be. */
function strengths({ programme: { strings } }: CheckContext): OpenPoint[] {
  return (["gauge", "pull", "set", "catcher"] as const).flatMap((purpose) => {
    const unsaid = strings[purpose]?.tools.filter(({ strength }) => !strength) ?? [];
    if (unsaid.length === 0) return [];
    const names = unsaid.map(({ name }) => name).join("; ");
    return [
      point(
        `What pull tools of the ${purpose} string stand is not stated, and they count as stronger than the line: ${names}.`,
      ),
    ];
  });
}

/** A reading is the line's pull only where it is known what is read. */
function indicator({ programme, results, writer }: CheckContext): OpenPoint[] {
  const { unit } = programme.job;
  if (!unit?.indicator) {
    const angles = results.get("indicator-factor")?.givens.some(({ symbol }) => symbol === "c");
    const taken = angles
      ? "it is taken to be read at the hay pulley, for which an angle is stated"
      : "readings are taken as the line's pull";
    return [
      point(
        `Where the line's pull is read, at the hay pulley or at the counter head, is not stated: ${taken}.`,
      ),
    ];
  }
  if (unit.indicator !== "hay pulley") return [];
  if (!unit.calibratedAngle) {
    return [
      point("The angle that the indicator at the hay pulley is calibrated for is not stated."),
    ];
  }
  return unit.lineAngle
    ? []
    : [
        point(
          `The angle between the lines at the hay pulley is not stated: it is taken to be the ${writer.write("line angle", toSI("line angle", unit.calibratedAngle))} of the indicator's calibration. A wider one puts more on the line than is read.`,
        ),
      ];
}

/** Small wheels tire wire. What is wanted is policy. */
function sheave({ programme, results }: CheckContext): OpenPoint[] {
  const ratio = results.value("sheave-ratio");
  const wanted = programme.policy?.sheaveRatio?.value;
  if (ratio === undefined || wanted === undefined || atLeast(ratio, wanted)) return [];
  return [
    point(
      `The smallest sheave is ${ratio.toFixed(0)} wire diameters; at least ${wanted} are wanted. The wire tires faster: cut back more often.`,
    ),
  ];
}

/** Pins that a steady pull can shear may go while the valve is being seated or tested; others the jars have to shear. */
function pins({ programme, results, writer }: CheckContext): OpenPoint[] {
  const { strings, job } = programme;
  const running = strings.set?.tools.find(({ kind }) => kind === "running tool");
  const differs = running ? pinsDisagree(running, job) : [];
  const open =
    differs.length > 0
      ? [
          point(
            `The running tool's pins are ${differs.join("; ")}. The job's are counted with: look which are in it.`,
          ),
        ]
      : [];
  const least = results.value("pin-shear");
  const overpull = results.value("overpull-set");
  if (job.pins && least === undefined) {
    const traced = results.get("pin-shear");
    const needs = traced?.outcome.state === "missing" ? traced.outcome.needs.join("; ") : "";
    return [...open, point(`What shears the running-tool pins is not known: needs ${needs}.`)];
  }
  const assumed = job.pins !== undefined && job.pins.strength === undefined;
  const against = [
    [
      "pin-over-blow",
      "the jars cannot shear them: fewer pins, or heavier jars",
      "what blow the jars give",
    ],
    [
      "pin-over-latch",
      "the latch gives before they do: the valve comes out again",
      "what the latch holds",
    ],
  ] as const;
  const tooStrong = against
    .filter(([id]) => (results.value(id) ?? 0) > 1)
    .map(([, why]) =>
      point(
        `The running-tool pins ${assumed ? "may be" : "are"} too strong: ${why}${assumed ? "; or state the shear strength of their batch" : ""}.`,
        "fails",
      ),
    );
  if (least === undefined || overpull === undefined) return [...open, ...tooStrong];
  if (least < overpull) {
    return [
      ...open,
      ...tooStrong,
      point(
        `A steady pull of ${writer.write("force", least)} shears the running-tool pins, and the line can bring ${writer.write("force", overpull)}: keep the test pull well below it.`,
      ),
    ];
  }
  const unstated = against
    .filter(([id]) => results.value(id) === undefined)
    .map(([, , what]) => what);
  return [
    ...open,
    ...tooStrong,
    ...(unstated.length > 0
      ? [
          point(
            `Only the jars can shear the running-tool pins, and it is not stated ${unstated.join(" or ")}.`,
          ),
        ]
      : []),
  ];
}

/** A string whose order cannot be meant comes back as it went, or does not come back. */
function order({ programme: { strings } }: CheckContext): OpenPoint[] {
  return (["gauge", "pull", "set", "catcher"] as const).flatMap((purpose) => {
    const string = strings[purpose];
    if (!string) return [];
    const { wrong, remarks } = makeUpOf({ ...string, purpose });
    return [
      ...wrong.map((each) => point(`The ${purpose} string ${each}.`, "fails")),
      ...remarks.map((each) => point(`The ${purpose} string ${each}.`)),
    ];
  });
}

/** What the pull run may do before it stops, and how its tool lets go. */
function release({ programme }: CheckContext): OpenPoint[] {
  const { job, strings } = programme;
  if (!strings.pull) return [];
  const tool = strings.pull.tools.find((each) => each.kind === "pulling tool");
  const open = [
    tool && !tool.shear && "the pins of the pulling tool and which way they shear",
    tool?.shear?.material === "not known" && "what the pins of the pulling tool are made of",
    job.release?.mostHits === undefined && "jar hits, at most",
    job.release?.cutBackAfter === undefined && "wire cut back after jarring",
    !job.release?.kickover && "how the kickover tool lets go",
  ].filter((each) => typeof each === "string");
  return open.length > 0 ? [point(`Not in the plan of the pull run: ${open.join("; ")}.`)] : [];
}

/** Hydrogen sulfide embrittles hard wire below any threshold a standard knows. */
function sour({ programme, results, writer }: CheckContext): OpenPoint[] {
  const outcome = results.get("sour-partial-pressure")?.outcome;
  const known = outcome?.state === "known";
  const open =
    outcome && !known
      ? [
          point(
            `How much hydrogen sulfide can come to the wire is not known: ${outcome.state === "missing" ? `needs ${outcome.needs.join("; ")}` : outcome.why}.`,
          ),
        ]
      : [];
  const holdsSome = gasesOf(results.context).some(({ si }) => si !== undefined && si > 0);
  if (!holdsSome) return open;
  const much = known
    ? `up to ${writer.write("partial pressure", outcome.si)} of it can come to it. Below the standard's threshold is no clearance for wire`
    : "gas that holds it can come to it";
  const parts = [
    ...(programme.line ? [programme.line] : []),
    ...(programme.stack?.items ?? []).filter(({ kind }) => kind !== "hose or gauge"),
  ];
  return [
    ...open,
    ...parts
      .filter((part) => part.sour !== "declared fit")
      .map((part) =>
        point(
          `${part.name} is ${part.sour ?? "not declared"} for hydrogen sulfide; ${much}.`,
          part.sour === "declared not fit" ? "fails" : "ask",
          part === programme.line ? "string" : "stack",
        ),
      ),
  ];
}
