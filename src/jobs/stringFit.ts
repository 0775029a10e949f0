import { lubricatorFit } from "../calc/lubricatorFit.ts";
import { assemble } from "./assemble.ts";
import { atLeast } from "./checks/compare.ts";
import { kickoverOf } from "./checks/valveChecks.ts";
import { type MakeUp, makeUpOf } from "./makeUp.ts";
import { targetMandrel } from "./programme.ts";
import { type Quantity, toSI } from "./quantity.ts";
import type { Tool, ToolString } from "./records/equipment.ts";
import type { Job } from "./records/job.ts";
import type { Programme } from "./records/programme.ts";
import type { Mandrel } from "./records/well.ts";
import { weighedAs } from "./results/lineChart.ts";
import { stringWeight } from "./results/lineInHole.ts";
import { type Results, resultsOf } from "./results/results.ts";
import { lengthsOpen, stringLength, usableLengths, valveOn } from "./results/stringInStack.ts";
import type { ResultId } from "./results/traced.ts";
import type { Library } from "./store/library.ts";
import { figuresOf } from "./toolString.ts";

/** A tool string against what it has to fit, job by job. Pure. */

/** A negative spare is what is lacking. */
interface Known {
  readonly state: "fits" | "does not fit";
  readonly spare: number;
}

/** What there is against what the string asks for, m. */
export interface Room extends Known {
  readonly available: number;
  readonly asked: number;
}

/** Weight in air against what beats push-out and packing friction with the policy's ratio, N. */
export interface PushOutFit extends Known {
  readonly weight: number;
  readonly needed: number;
  /** upward force at the packing, N */
  readonly force: number;
  /** of the packing, N */
  readonly friction: number;
  /** effective weight over both; infinite where nothing holds it up */
  readonly ratio: number;
  readonly wanted: number;
}

/** What is on the line, N: spare is the least of it going in, anywhere on the way down. */
export interface GoingInFit extends Known {
  /** with the string at the mandrel */
  readonly goingIn: number;
  readonly hanging: number;
  /** along hole, m */
  readonly depth: number;
}

export interface KickoverFit extends Known {
  readonly tool: Tool | undefined;
  readonly says: string;
}

/** Whether the tools stand in an order that can work. */
export interface OrderFit extends Known, MakeUp {}

export interface NotKnown {
  readonly state: "not known";
  readonly needs: readonly string[];
}

/** A string against one of the jobs that use it. */
export interface JobFit {
  readonly string: ToolString;
  readonly job: Job;
  readonly well: string;
  readonly mandrel: Mandrel | undefined;
  readonly stack: string;
  /** The narrowest bore on the way to the mandrel, and what it is, against the largest tool. */
  readonly bore: Room | NotKnown;
  readonly narrowest: string;
  /** Usable length above the closed valve against string, valve on it and margin. */
  readonly lubricator: Room | NotKnown;
  readonly pushOut: PushOutFit | NotKnown;
  /** Whether its weight takes it to the mandrel. */
  readonly goingIn: GoingInFit | NotKnown;
  /** A gauge string goes past the pocket: it is not asked. */
  readonly kickover: KickoverFit | NotKnown | undefined;
  readonly order: OrderFit | NotKnown;
  /** m; the parts of what the lubricator has to hold besides the string */
  readonly valve: number;
  readonly margin: number;
  /** m; what a drawing needs: usable lengths bottom up, the stack's bore, the tubing's drift, where known */
  readonly sections: readonly number[];
  readonly stackBore: number | undefined;
  readonly drift: number | undefined;
}

const aspects = ["bore", "lubricator", "pushOut", "goingIn", "kickover", "order"] as const;
export type Aspect = (typeof aspects)[number];

/** The jobs that a string is chosen for, the latest first. */
const jobsOf = ({ id }: ToolString, { jobs }: Library): Job[] =>
  jobs
    .filter(({ strings }) => Object.values(strings).includes(id))
    .sort((a, b) => b.day.localeCompare(a.day));

/**
 * A string as it stands on the screen against every job that uses it, as its plan is now.
 *
 * @param over jobs for which nothing goes into the hole any more
 */
export function fitsOf(
  string: ToolString,
  library: Library,
  over: ReadonlySet<string> = new Set(),
): JobFit[] {
  return jobsOf(string, library)
    .filter(({ id }) => !over.has(id))
    .map((job) => fitOf(string, assemble(job, library)));
}

/** @param programme of a job that the string is chosen for */
export function fitOf(string: ToolString, programme: Programme): JobFit {
  const { stack, policy, well } = programme;
  // The job's own results, asked for this string alone.
  const results = resultsOf({ ...programme, strings: { [weighedAs(string)]: string } }, {});
  return {
    string,
    job: programme.job,
    well: well?.name ?? "a well that is not here",
    mandrel: targetMandrel(programme),
    stack: stack?.name ?? "pressure equipment not chosen",
    ...boreFit(string, results),
    lubricator: lubricatorRoom(string, programme),
    pushOut: pushOutFit(string, programme, results),
    goingIn: goingInFit(string, results),
    kickover: kickoverFit(string, programme),
    order: orderFit(string),
    valve: valveOn(string, programme).valve,
    margin: policy ? toSI("length", policy.lubricatorMargin.value) : 0,
    sections: usableLengths(stack),
    stackBore: least(stack?.items.flatMap(({ bore }) => bore ?? [])),
    drift: least(well?.tubing.map(({ drift }) => drift)),
  };
}

const notKnown = (needs: readonly string[]): NotKnown => ({ state: "not known", needs });
const stateOf = (fits: boolean) => (fits ? "fits" : "does not fit");

const least = (diameters: readonly Quantity<"diameter">[] = []) =>
  diameters.length > 0
    ? Math.min(...diameters.map((diameter) => toSI("diameter", diameter)))
    : undefined;

function lubricatorRoom(string: ToolString, programme: Programme): Room | NotKnown {
  const { valve, needs } = valveOn(string, programme);
  const { policy, stack } = programme;
  const sections = usableLengths(stack);
  const toJudge = [
    sections.length === 0 && "usable lengths of the pressure equipment",
    policy === undefined && "policy",
    string.tools.length === 0 && "tools",
  ].filter((need) => typeof need === "string");
  const open = [...toJudge, ...lengthsOpen(string), ...needs];
  if (toJudge.length > 0 || !policy) return notKnown(open);
  const margin = toSI("length", policy.lubricatorMargin.value);
  const { fits, available, needed, spare } = lubricatorFit(
    sections,
    stringLength(string),
    valve,
    margin,
  );
  // What is too long already is so whatever is not on record.
  if (fits && open.length > 0) return notKnown(open);
  return { state: stateOf(fits), available, asked: needed, spare };
}

function boreFit(
  string: ToolString,
  results: Results,
): { readonly bore: Room | NotKnown; readonly narrowest: string } {
  const { largest } = figuresOf(string);
  if (!largest) return { bore: notKnown(["tools"]), narrowest: "" };
  const drift = results.get("drift-clearance");
  const bore = drift?.givens.find(({ symbol }) => symbol === "bore");
  const narrowest = bore?.name ?? "";
  if (drift?.outcome.state !== "known" || bore?.si === undefined) {
    const needs = drift?.outcome.state === "missing" ? drift.outcome.needs : ["well"];
    return { bore: notKnown(needs), narrowest };
  }
  const spare = drift.outcome.si;
  // As the job's own check: a tool as large as the bore does not pass it.
  const state = stateOf(spare > 0);
  return { bore: { state, available: bore.si, asked: largest.diameter, spare }, narrowest };
}

/** @returns the values by id, or what has to be known for them first */
function valuesOf<I extends ResultId>(
  results: Results,
  ...ids: readonly I[]
): { readonly values: Readonly<Record<I, number>> } | NotKnown {
  const needs = ids.flatMap((id): readonly string[] => {
    const traced = results.get(id);
    if (!traced) return [id];
    const { outcome, label } = traced;
    if (outcome.state === "missing") return outcome.needs;
    return outcome.state === "known" ? [] : [`${label}, which has no answer: ${outcome.why}`];
  });
  if (needs.length > 0) return notKnown([...new Set(needs)]);
  const entries = ids.map((id) => [id, results.value(id)]);
  return { values: Object.fromEntries(entries) as Record<I, number> };
}

/** The least of the way down is just under the closed valve, where no wire weight helps yet. */
function pushOutFit(
  string: ToolString,
  { policy }: Programme,
  results: Results,
): PushOutFit | NotKnown {
  if (string.tools.length === 0) return notKnown(["tools"]);
  if (!policy) return notKnown(["policy"]);
  const found = valuesOf(results, "push-out-ratio", "push-out", "weight-needed");
  if ("needs" in found) return found;
  const { "push-out-ratio": ratio, "push-out": force, "weight-needed": balanced } = found.values;
  const givens = results.get("push-out-ratio")?.givens;
  const wanted = policy.pushOutRatio.value;
  const weight = stringWeight(string);
  const needed = balanced * wanted;
  return {
    state: stateOf(atLeast(ratio, wanted)),
    spare: weight - needed,
    weight,
    needed,
    force,
    friction: givens?.find(({ symbol }) => symbol === "Fp")?.si ?? 0,
    ratio,
    wanted,
  };
}

function goingInFit(string: ToolString, results: Results): GoingInFit | NotKnown {
  if (string.tools.length === 0) return notKnown(["tools"]);
  const purpose = weighedAs(string);
  const [least, goingIn, hanging] = [
    `least-in-${purpose}`,
    `in-${purpose}`,
    `hanging-${purpose}`,
  ] as const;
  const found = valuesOf(results, least, goingIn, hanging, "target-depth", "indicator-factor");
  if ("needs" in found) return found;
  const { values } = found;
  return {
    state: stateOf(values[least] > 0),
    spare: values[least],
    // The indicator's words stay with the indicator.
    goingIn: values[goingIn] / values["indicator-factor"],
    hanging: values[hanging] / values["indicator-factor"],
    depth: values["target-depth"],
  };
}

function orderFit(string: ToolString): OrderFit | NotKnown {
  if (string.tools.length === 0) return notKnown(["tools"]);
  const made = makeUpOf(string);
  return { state: stateOf(made.wrong.length === 0), spare: 0, ...made };
}

function kickoverFit(string: ToolString, programme: Programme): KickoverFit | NotKnown | undefined {
  if (string.purpose === "gauge" || string.purpose === "catcher") return undefined;
  if (string.tools.length === 0) return notKnown(["tools"]);
  const mandrel = targetMandrel(programme);
  const { state, says } = kickoverOf(string.purpose, string, mandrel);
  if (state === "not known") return notKnown(["whether the mandrel has an orienting sleeve"]);
  const tool = string.tools.find(({ kind }) => kind === "kickover tool");
  return { state: stateOf(state === "passes"), spare: 0, tool, says };
}

const rank = { "does not fit": 0, "not known": 1, fits: 2 } as const;

/** The job in which a string fits worst. */
export function worstOf(fits: readonly JobFit[], aspect: Aspect): JobFit | undefined {
  const order = (fit: JobFit) => {
    const given = fit[aspect];
    return given
      ? [{ fit, rank: rank[given.state], spare: "spare" in given ? given.spare : 0 }]
      : [];
  };
  return fits.flatMap(order).sort((a, b) => a.rank - b.rank || a.spare - b.spare)[0]?.fit;
}

/** One thing that a string is held against, in the job in which it fits worst. */
export interface Verdict {
  readonly aspect: Aspect;
  readonly fit: JobFit;
  readonly state: "fits" | "does not fit" | "not known";
}

/** What a string is held against, what it does not fit first, then what is not known. */
export function verdictsOf(fits: readonly JobFit[]): Verdict[] {
  return aspects
    .flatMap((aspect): Verdict[] => {
      const fit = worstOf(fits, aspect);
      const state = fit?.[aspect]?.state;
      return fit && state ? [{ aspect, fit, state }] : [];
    })
    .sort((a, b) => rank[a.state] - rank[b.state]);
}

/** Whether a tool itself stands in the way: larger than the narrowest bore of a job, or as large. */
export function isTooLarge(tool: Tool, fit: JobFit | undefined): boolean {
  return (
    fit !== undefined &&
    fit.bore.state !== "not known" &&
    toSI("diameter", tool.outsideDiameter) >= fit.bore.available
  );
}
