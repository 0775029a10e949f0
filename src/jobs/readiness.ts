import type { CheckContext, Finding } from "./checks/check.ts";
import {
  clearBore,
  lubricatorLength,
  pushOutBeaten,
  stackCoversTestPressure,
  wireValvesInStack,
} from "./checks/envelopeChecks.ts";
import { kickoverFinding } from "./checks/valveChecks.ts";
import { writer as makeWriter, type Writer } from "./display.ts";
import { linePoints } from "./linePoints.ts";
import { focus, pocketsOf } from "./pockets.ts";
import { targetMandrel, valveToPull } from "./programme.ts";
import { toSI } from "./quantity.ts";
import type { Programme } from "./records/programme.ts";
import type { Valve } from "./records/valve.ts";
import { wholeWellOf } from "./results/mandrelResults.ts";
import { resultsOf } from "./results/results.ts";
import type { ResultId } from "./results/traced.ts";
import { unloadingInWords, unloadingOf } from "./results/unloadingResult.ts";
import { beyondSurvey } from "./results/wellGivens.ts";
import { sheetWanted } from "./sheet/sheetWanted.ts";
import { sheetPoints } from "./sheetPoints.ts";
import { foldJob } from "./state/jobState.ts";

export const readinessGroups = ["well", "valve", "string", "stack", "people", "sheet"] as const;
export type ReadinessGroup = (typeof readinessGroups)[number];

/** Something that is missing, that fails, or that somebody has to look at. */
export interface OpenPoint {
  readonly group: ReadinessGroup;
  readonly weight: "fails" | "missing" | "ask";
  readonly says: string;
  /** It keeps the programme from being issued. */
  readonly stops: boolean;
}

export interface Readiness {
  /** worst first; of one weight, what keeps it from being issued */
  readonly points: readonly OpenPoint[];
  /** worst of each group; "ready" when nothing is open */
  readonly groups: Readonly<Record<ReadinessGroup, OpenPoint["weight"] | "ready">>;
}

const rank = { fails: 0, missing: 1, ask: 2 } as const;

/** What keeps a job from being ready: worked out from its programme, never ticked. */
export function readinessOf(programme: Programme, writer?: Writer): Readiness {
  const context = contextOf(programme, writer);
  const points = [
    ...ofEveryPocket(programme, writer),
    ...stringPoints(programme),
    ...checkPoint("stack", stackCoversTestPressure(context)),
    ...checkPoint("stack", wireValvesInStack(context)),
    ...certificatePoints(programme),
    ...peoplePoints(programme),
    ...sheetPoints(context),
  ].sort((a, b) => rank[a.weight] - rank[b.weight] || Number(b.stops) - Number(a.stops));
  const distinct = points.filter(
    ({ says }, index) => points.findIndex((each) => each.says === says) === index,
  );
  const worst = (group: ReadinessGroup) =>
    distinct.find((point) => point.group === group)?.weight ?? "ready";
  return {
    points: distinct,
    groups: {
      well: worst("well"),
      valve: worst("valve"),
      string: worst("string"),
      stack: worst("stack"),
      people: worst("people"),
      sheet: worst("sheet"),
    },
  };
}

function contextOf(programme: Programme, writer: Writer | undefined): CheckContext {
  const results = resultsOf(programme, {});
  return {
    programme,
    state: foldJob([]),
    results,
    now: "",
    writer: writer ?? makeWriter("field", results.context.atmosphere),
    reading: () => undefined,
    asks: () => false,
  };
}

/** What stands open for each pocket of the job. What a further one adds is said with its mandrel. */
function ofEveryPocket(programme: Programme, writer: Writer | undefined): OpenPoint[] {
  const [first = "", ...further] = pocketsOf(programme.job);
  const points = pocketPoints(contextOf(focus(programme, first), writer));
  const said = new Set(points.map(({ says }) => says));
  for (const pocket of further) {
    const { number } = programme.well?.mandrels.find(({ id }) => id === pocket) ?? {};
    const named = `Mandrel ${number ?? "?"}`;
    for (const point of pocketPoints(contextOf(focus(programme, pocket), writer))) {
      if (said.has(point.says)) continue;
      const isNamed = new RegExp(`\\b${named}\\b`, "i").test(point.says);
      points.push(isNamed ? point : { ...point, says: `${named}: ${point.says}` });
    }
  }
  return [...points, ...twicePoints(programme)];
}

/** What differs from pocket to pocket. */
function pocketPoints(context: CheckContext): OpenPoint[] {
  const { programme } = context;
  return [
    ...wellPoints(programme),
    ...missingResults(context, "well", [
      "temperature-shut-in",
      "temperature-flowing",
      "injection-at-mandrel",
      "tubing-at-mandrel",
      "casing-level",
    ]),
    ...valvePoints(context),
    ...liftPoints(context),
    ...unloads(context),
    ...checkPoint("string", clearBore(context)),
    ...checkPoint("string", pushOutBeaten(context)),
    ...checkPoint("string", kickoverFinding(programme)),
    ...pushOutAtTheWorst(context),
    ...missingResults(context, "string", ["largest-pull", ...pullsOf(programme)]),
    ...linePoints(context),
    ...checkPoint("stack", lubricatorLength(context)),
  ];
}

/** One pocket, or one valve, in two places of the job. */
function twicePoints({ job, well, replacement, replacements = [] }: Programme): OpenPoint[] {
  const twice = (ids: readonly (string | undefined)[]) =>
    new Set(ids.filter((id, index) => id !== undefined && ids.indexOf(id) !== index));
  const pockets = [...twice(pocketsOf(job))].map((pocket): OpenPoint => {
    const number = well?.mandrels.find(({ id }) => id === pocket)?.number ?? "?";
    const says = `Mandrel ${number} is named twice. Each pocket is worked once in a rig-up.`;
    return { group: "well", weight: "fails", says, stops: true };
  });
  const goIn = [job.replacement, ...(job.also ?? []).map((each) => each.replacement)];
  const valves = [...twice(goIn)].map((valve): OpenPoint => {
    const serial = [replacement, ...replacements].find((each) => each?.id === valve)?.serial;
    const says = `Valve ${serial ?? valve} is to go into two pockets. Choose another for one of them.`;
    return { group: "valve", weight: "fails", says, stops: true };
  });
  return [...pockets, ...valves];
}

function checkPoint(group: ReadinessGroup, found: Finding): OpenPoint[] {
  if (found.state === "passes") return [];
  const weight = found.state === "fails" ? "fails" : "missing";
  return [{ group, weight, says: found.says, stops: true }];
}

/** Whether each string that is chosen goes down and comes out again; what is not chosen is asked for by name. */
function pullsOf({ strings: { gauge, pull, set } }: Programme): ResultId[] {
  return [
    ...(gauge ? (["least-in-gauge"] as const) : []),
    ...(pull ? (["least-in-pull", "overpull-pull", "fraction-of-breaking"] as const) : []),
    ...(set ? (["least-in-set", "overpull-set"] as const) : []),
  ];
}

/** What keeps results from being known. What several of them lack, or refuse, is said once. */
function missingResults(
  { results }: CheckContext,
  group: ReadinessGroup,
  ids: readonly ResultId[],
): OpenPoint[] {
  const refused = new Set<string>();
  return ids.flatMap((id): OpenPoint[] => {
    const traced = results.get(id);
    if (!traced || traced.outcome.state === "known") return [];
    const { outcome } = traced;
    if (outcome.state === "no answer") {
      if (refused.has(outcome.why)) return [];
      refused.add(outcome.why);
    }
    return outcome.state === "missing"
      ? outcome.needs.map((need) => ({
          group,
          weight: "missing" as const,
          says: `${need.charAt(0).toUpperCase()}${need.slice(1)}: not known.`,
          // The annulus level may only be found on location.
          stops: need !== "liquid level in the annulus",
        }))
      : [
          {
            group,
            weight: "fails" as const,
            says: `${traced.label}: ${outcome.why}.`,
            stops: true,
          },
        ];
  });
}

/** The well may stand at its largest pressure when the string goes in: worth knowing the day before. */
function pushOutAtTheWorst(context: CheckContext): OpenPoint[] {
  const { programme, results, writer } = context;
  const most = results.value("expected-maximum");
  if (most === undefined) return [];
  const wellhead = { si: most, at: "", by: "", event: "" };
  const worst = { ...context, results: resultsOf(programme, { "wellhead pressure": wellhead }) };
  const found = pushOutBeaten(worst);
  if (found.state !== "fails" || pushOutBeaten(context).state === "fails") return [];
  const says = `At the largest pressure expected, ${writer.write("pressure", most)}: ${found.says}`;
  return [{ group: "string", weight: "ask", says, stops: false }];
}

/** Figures of the lift that cannot be meant as they stand: two of them were swapped, or belong to another well. */
function liftPoints({ programme, results, writer }: CheckContext): OpenPoint[] {
  const { well } = programme;
  const { atmosphere } = results.context;
  const ask = (says: string): OpenPoint => ({ group: "well", weight: "ask", says, stops: false });
  const points: OpenPoint[] = [];
  const gradient = (key: "loadGradient" | "gradientBelow" | "liftedGradient") => {
    const stated = well?.onLift?.[key];
    return stated && toSI("pressure gradient", stated);
  };
  const lifted = gradient("liftedGradient");
  for (const [key, name] of [
    ["gradientBelow", "the gradient below the entry of gas"],
    ["loadGradient", "the gradient of the load liquid"],
  ] as const) {
    const heavier = gradient(key);
    if (lifted !== undefined && heavier !== undefined && heavier < lifted) {
      points.push(
        ask(
          `${name.replace(/^./, (first) => first.toUpperCase())} (${writer.write("pressure gradient", heavier)}) is less than the lifted one (${writer.write("pressure gradient", lifted)}). Are they swapped?`,
        ),
      );
    }
  }
  const pressure = (key: "fullInjectionAtSurface" | "operatingInjectionAtSurface") => {
    const stated = well?.pressures[key];
    return stated && toSI("pressure", stated, atmosphere);
  };
  const [full, operating] = [
    pressure("fullInjectionAtSurface"),
    pressure("operatingInjectionAtSurface"),
  ];
  if (full !== undefined && operating !== undefined && operating > full) {
    points.push(
      ask(
        `Operating injection (${writer.write("pressure", operating)}) is above full injection (${writer.write("pressure", full)}).`,
      ),
    );
  }
  return points;
}

/** With the replacement in place the well has to unload; what keeps it from that is worth knowing before wire goes in. */
function unloads(context: CheckContext): OpenPoint[] {
  const open = staysOpen(context);
  if (open.length > 0) return open;
  const { programme, writer } = context;
  if (!programme.well || !programme.replacement) return [];
  const planned = wholeWellOf(programme, { lift: "as planned", pocket: "with the replacement" });
  const outcome = unloadingOf(planned);
  if (outcome.ok && outcome.unloading.reachesBottom) return [];
  const says = `With ${programme.replacement?.serial ?? "the replacement"} in place: ${unloadingInWords(outcome, writer)}`;
  return [{ group: "valve", weight: "ask", says, stops: false }];
}

/** An unloading valve that stays open at the operating pressure is the fault that is being cured. */
function staysOpen({ programme, results, writer }: CheckContext): OpenPoint[] {
  const mandrel = targetMandrel(programme);
  const below = programme.well?.mandrels.some(
    (each) => each.number > (mandrel?.number ?? 0) && each.pocketState === "holds a valve",
  );
  const injection = results.value("injection-at-mandrel");
  const closing = results.value("replacement-closing");
  const kind = programme.replacement?.kind;
  if (kind !== "injection-operated" || !below) return [];
  if (injection === undefined || closing === undefined || injection <= closing) return [];
  const says = `On lift ${writer.write("pressure", injection)} stands at mandrel ${mandrel?.number}, and the replacement closes at ${writer.write("pressure", closing)}: it would stay open, with valves below it.`;
  return [{ group: "valve", weight: "ask", says, stops: false }];
}

function wellPoints(programme: Programme): OpenPoint[] {
  const { well } = programme;
  const mandrel = targetMandrel(programme);
  const fails = (says: string): OpenPoint => ({
    group: "well",
    weight: "fails",
    says,
    stops: true,
  });
  if (!well)
    return [
      { group: "well", weight: "missing", says: "The well is not in the library.", stops: true },
    ];
  if (!mandrel)
    return [{ group: "well", weight: "missing", says: "No mandrel is chosen.", stops: true }];
  const points: OpenPoint[] = [];
  if (mandrel.construction === "conventional") {
    points.push(
      fails(
        `Mandrel ${mandrel.number} is conventional: it carries its valve outside, as part of the tubing string. Wireline cannot serve it.`,
      ),
    );
  }
  if (mandrel.pocket === "not known" || !mandrel.latchProfile) {
    points.push(
      fails(
        `Pocket size or latch profile of mandrel ${mandrel.number} is not known. Ask before mobilising.`,
      ),
    );
  }
  const { work } = sheetWanted(programme.job);
  const wanted = work === "set into an empty pocket" ? "empty" : "holds a valve";
  if (mandrel.pocketState !== wanted) {
    const found = {
      empty: "the pocket is empty",
      "holds a valve": "the pocket holds a valve",
      "not known": "not known what sits in the pocket",
    }[mandrel.pocketState];
    points.push(fails(`Mandrel ${mandrel.number}: ${found}, and the job is to ${work}.`));
  }
  if (well.crownValveTurns === undefined) {
    points.push({
      group: "well",
      weight: "missing",
      says: "Turns of the crown valve: not known. Without them no count proves that nothing hangs across it.",
      stops: true,
    });
  }
  const beyond = beyondSurvey(well);
  if (beyond) points.push({ group: "well", weight: "ask", says: beyond, stops: false });
  if (well.injectionDown === "tubing") {
    points.push({
      group: "well",
      weight: "ask",
      says: "Injection goes down the tubing: the injection gas stands in the tubing, fluids come up the annulus, and the valve's check looks the other way. Read every pressure with that in mind.",
      stops: false,
    });
  }
  return points;
}

function valvePoints(context: CheckContext): OpenPoint[] {
  const { programme, results, writer } = context;
  const { replacement, policy } = programme;
  const mandrel = targetMandrel(programme);
  if (!replacement) {
    return [
      { group: "valve", weight: "missing", says: "No replacement valve is chosen.", stops: true },
    ];
  }
  const points = missingResults(context, "valve", ["test-rack-needed", "card-difference"]);
  if (mandrel && mandrel.pocket !== "not known" && replacement.size !== mandrel.pocket) {
    points.push({
      group: "valve",
      weight: "fails",
      says: `Valve ${replacement.serial} is ${replacement.size}, the pocket is ${mandrel.pocket}.`,
      stops: true,
    });
  }
  if (mandrel?.latchProfile && replacement.latch !== mandrel.latchProfile) {
    points.push({
      group: "valve",
      weight: replacement.latch ? "fails" : "missing",
      says: `Latch of valve ${replacement.serial} is ${replacement.latch ?? "not known"}, the pocket takes ${mandrel.latchProfile}.`,
      stops: true,
    });
  }
  const difference = results.value("card-difference");
  const needed = results.value("test-rack-needed");
  const allowed = policy && toSI("pressure difference", policy.setPressureTolerance.value);
  if (
    difference !== undefined &&
    needed !== undefined &&
    allowed !== undefined &&
    Math.abs(difference) > allowed
  ) {
    points.push({
      group: "valve",
      weight: "fails",
      says: `Card of valve ${replacement.serial} is ${writer.write("pressure difference", Math.abs(difference))} ${difference < 0 ? "below" : "above"} the ${writer.write("pressure", needed)} needed.`,
      stops: true,
    });
  }
  points.push(...whereItIs(programme, replacement));
  const { work } = sheetWanted(programme.job);
  if (work === "pull and dummy off" && replacement.kind !== "dummy") {
    points.push({
      group: "valve",
      weight: "fails",
      says: `Valve ${replacement.serial} is of kind ${replacement.kind}; the pocket is to be blanked with a dummy.`,
      stops: true,
    });
  }
  if (work !== "pull and dummy off" && replacement.kind === "dummy") {
    points.push({
      group: "valve",
      weight: "ask",
      says: `Valve ${replacement.serial} is a dummy, and the job is to ${work}. Should the pocket be blanked?`,
      stops: false,
    });
  }
  if (work !== "set into an empty pocket" && !valveToPull(programme)) {
    points.push({
      group: "valve",
      weight: "ask",
      says: "The valve in the pocket has no record.",
      stops: false,
    });
  }
  return points;
}

/** A valve that is gone, or that came out of a pocket and was not looked at since. */
function whereItIs({ well }: Programme, { id, serial, state }: Valve): OpenPoint[] {
  const sitsIn = well?.mandrels.find(
    ({ valve, pocketState }) => valve === id && pocketState === "holds a valve",
  );
  if (sitsIn) {
    const says = `Valve ${serial} sits in mandrel ${sitsIn.number} of this well by its record. Choose another, or mend the record.`;
    return [{ group: "valve", weight: "fails", says, stops: true }];
  }
  if (state === "scrapped") {
    const says = `Valve ${serial} is scrapped by its record. Choose another.`;
    return [{ group: "valve", weight: "fails", says, stops: true }];
  }
  if (state === "pulled") {
    const says = `Valve ${serial} was pulled, and its record does not say that it is back in stock. Was it repaired and tested?`;
    return [{ group: "valve", weight: "ask", says, stops: false }];
  }
  return [];
}

function stringPoints({ strings, job, line }: Programme): OpenPoint[] {
  const points: OpenPoint[] = [];
  const missing = (says: string) =>
    points.push({ group: "string", weight: "missing", says, stops: true });
  for (const purpose of ["gauge", "pull", "set"] as const) {
    if (!strings[purpose]) missing(`The ${purpose} string is not chosen.`);
  }
  if (!job.pins) missing("Running-tool pins are not stated.");
  else if (job.pins.material !== "brass") {
    points.push({
      group: "string",
      weight: "fails",
      says: `Running-tool pins are ${job.pins.material}: only brass shears as it should. The set run stays locked without an exception.`,
      // The crew may find brass pins on location; the hold point decides there.
      stops: false,
    });
  }
  if (line?.strengthFrom === "from memory, unverified") {
    points.push({
      group: "string",
      weight: "ask",
      says: "Breaking strength of the line is from memory, unverified. Take the certificate.",
      stops: false,
    });
  }
  return points;
}

function certificatePoints({ stack, job }: Programme): OpenPoint[] {
  return (stack?.items ?? []).flatMap((item): OpenPoint[] => {
    if (!item.certificateUntil) {
      return [
        { group: "stack", weight: "ask", says: `${item.name}: no certificate date.`, stops: false },
      ];
    }
    return item.certificateUntil < job.day
      ? [
          {
            group: "stack",
            weight: "fails",
            says: `${item.name}: certificate ended ${item.certificateUntil}.`,
            stops: true,
          },
        ]
      : [];
  });
}

function peoplePoints({ job, policy }: Programme): OpenPoint[] {
  const points: OpenPoint[] = [];
  const missing = (says: string) =>
    points.push({ group: "people", weight: "missing", says, stops: true });
  if (!job.crew.supervisor) missing("No wireline supervisor is named.");
  if (!job.crew.engineer) missing("No production engineer is named.");
  if (!job.crew.fieldOperator) {
    points.push({
      group: "people",
      weight: "ask",
      says: "No field operator is named.",
      stops: false,
    });
  }
  if (!policy) missing("No policy is chosen.");
  return points;
}
