import type { CheckContext } from "./checks/check.ts";
import type { OpenPoint } from "./readiness.ts";
import { gasesOf } from "./results/sourResults.ts";

/** What line, string and pins leave open the day before. */
export function linePoints(context: CheckContext): OpenPoint[] {
  return [
    ...goesDown(context),
    ...comesOut(context),
    ...indicator(context),
    ...sheave(context),
    ...pins(context),
    ...toolsAtTheEnd(context),
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
    return [
      point(
        `The ${purpose} string does not go to the mandrel by its weight: on its way the line would have to push with ${writer.write("force", -left)}. Add stem, or rollers.`,
        "fails",
      ),
    ];
  });
}

/** What the line may bear, against what coming out with the pull string takes of it. */
function comesOut({ programme, results, writer }: CheckContext): OpenPoint[] {
  const fraction = results.value("fraction-of-breaking");
  const allowed = programme.policy?.lineFraction.value;
  const points: OpenPoint[] = [];
  if (fraction !== undefined && allowed !== undefined && fraction > allowed) {
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

/** A reading is the line's pull only where it is known what is read. */
function indicator({ programme, results }: CheckContext): OpenPoint[] {
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
  return unit.indicator === "hay pulley" && !unit.calibratedAngle
    ? [point("The angle that the indicator at the hay pulley is calibrated for is not stated.")]
    : [];
}

/** Small wheels tire wire. What is wanted is policy. */
function sheave({ programme, results }: CheckContext): OpenPoint[] {
  const ratio = results.value("sheave-ratio");
  const wanted = programme.policy?.sheaveRatio?.value;
  if (ratio === undefined || wanted === undefined || ratio >= wanted) return [];
  return [
    point(
      `The smallest sheave is ${ratio.toFixed(0)} wire diameters; at least ${wanted} are wanted. The wire tires faster: cut back more often.`,
    ),
  ];
}

/** Pins that a steady pull can shear may go while the valve is being seated or tested. */
function pins({ programme, results, writer }: CheckContext): OpenPoint[] {
  const shear = results.value("pin-shear");
  const overpull = results.value("overpull-set");
  if (programme.job.pins && shear === undefined) {
    const traced = results.get("pin-shear");
    const needs = traced?.outcome.state === "missing" ? traced.outcome.needs.join("; ") : "";
    return [point(`What shears the running-tool pins is not known: needs ${needs}.`)];
  }
  const points = [
    ["pin-over-blow", "the jars cannot shear them: fewer pins, or heavier jars"],
    ["pin-over-latch", "the latch gives before they do: the valve comes out again"],
  ] as const;
  const tooStrong = points
    .filter(([id]) => (results.value(id) ?? 0) > 1)
    .map(([, why]) => point(`The running-tool pins are too strong: ${why}.`, "fails"));
  if (shear === undefined || overpull === undefined || shear >= overpull) return tooStrong;
  return [
    ...tooStrong,
    point(
      `A steady pull of ${writer.write("force", shear)} shears the running-tool pins, and the line can bring ${writer.write("force", overpull)}: keep the test pull well below it.`,
    ),
  ];
}

/** What takes the valve, and what lets it go: without it a string comes back as it went. */
function toolsAtTheEnd({ programme: { strings } }: CheckContext): OpenPoint[] {
  return (
    [
      ["pull", "pulling tool"],
      ["set", "running tool"],
    ] as const
  )
    .filter(([purpose, kind]) => strings[purpose]?.tools.every((tool) => tool.kind !== kind))
    .map(([purpose, kind]) => point(`The ${purpose} string has no ${kind}.`));
}

/** What the pull run may do before it stops, and how its tool lets go. */
function release({ programme }: CheckContext): OpenPoint[] {
  const { job, strings } = programme;
  if (!strings.pull) return [];
  const tool = strings.pull.tools.find((each) => each.kind === "pulling tool");
  const open = [
    tool && !tool.shear && "the pins of the pulling tool and which way they shear",
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
