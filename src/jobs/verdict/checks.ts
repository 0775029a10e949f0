import type { Writer } from "../display.ts";
import { NEAR_EDGE, RATE_SHARE } from "./doubts.ts";
import type { MandrelNow, WellAtWork } from "./mandrelNow.ts";

/** What was read of the well on lift against what its valves would do, one question at a time. */

export type Says = "consistent" | "not consistent" | "cannot be told";

export interface Check {
  readonly subject: "where gas enters" | "gas rate" | "injection pressure";
  readonly says: Says;
  /** one or two sentences, with the figures */
  readonly words: string;
  /** the figures lie so close to what they are good for that the answer may turn */
  readonly nearEdge: boolean;
  /** what is missing, where it cannot be told */
  readonly needs: readonly string[];
}

export interface Asked {
  readonly well: WellAtWork;
  readonly mandrels: readonly MandrelNow[];
  /** mandrels at which gas is to enter as planned, by their numbers */
  readonly meant: readonly number[];
  /** the deepest of them: where the well works */
  readonly operating: MandrelNow | undefined;
  /** standard m3/s; undefined: not read */
  readonly rate: number | undefined;
  readonly writer: Writer;
}

const list = new Intl.ListFormat("en-GB");
const numbers = (of: readonly MandrelNow[]) =>
  `mandrel${of.length === 1 ? "" : "s"} ${list.format(of.map(({ mandrel }) => String(mandrel)))}`;

/** The space that the gas goes down, as its gauge is called. */
export const gasSide = ({ well }: Pick<Asked, "well">): "casing" | "tubing" =>
  well.programme.well?.injectionDown === "tubing" ? "tubing" : "casing";
/** The other one. */
const producingSide = (asked: Pick<Asked, "well">) =>
  gasSide(asked) === "casing" ? "tubing" : "casing";

const byProduction = ({ valve }: MandrelNow) => valve?.kind === "production-operated";
const upper = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

interface Answer {
  readonly says: Says;
  readonly words: string;
  readonly nearEdge?: boolean;
  readonly needs?: readonly string[];
}
const answered = (
  subject: Check["subject"],
  { says, words, nearEdge = false, needs = [] }: Answer,
): Check => ({ subject, says, words, nearEdge, needs });

/** Which valves pass gas now, against those that should. */
export function entryCheck(asked: Asked): Check {
  const { mandrels, meant, rate, writer } = asked;
  const of = (passes: MandrelNow["passes"]) => mandrels.filter((each) => each.passes === passes);
  const [sure, perhaps, unknown] = [of("yes"), of("perhaps"), of("not known")];
  const extra = (each: MandrelNow) => !meant.includes(each.mandrel);
  const answer = (found: Answer) => answered("where gas enters", found);
  const enters = [
    ...(sure.length > 0 ? [`gas passes at ${numbers(sure)}`] : []),
    ...(perhaps.length > 0 ? [`may pass at ${numbers(perhaps)}`] : []),
  ].join(" and ");
  const opened = meant.length > 0 ? sure.filter(extra) : [];
  const [first] = opened;
  if (first) {
    const words = `By these pressures ${enters}; as planned it is to enter at mandrel ${list.format(meant.map(String))}. ${openInWords(first, asked)}`;
    return answer({ says: "not consistent", words, nearEdge: isNear(first) });
  }
  if (unknown.length > 0) {
    const needs = [...new Set(unknown.flatMap((each) => each.needs))];
    const rest = enters ? ` ${upper(enters)} by these pressures.` : "";
    const words = `What ${numbers(unknown)} does is not known: needs ${needs.join("; ")}.${rest}`;
    return answer({ says: "cannot be told", words, needs });
  }
  if (sure.length + perhaps.length === 0) return answer(nothingPasses(asked));
  const undecided = meant.length > 0 ? perhaps.filter((each) => extra(each) && !isEdge(each)) : [];
  if (undecided.length > 0) {
    const words = `By these pressures ${enters}. ${upper(numbers(undecided))} should be shut, and stands where it is open or shut as it was before.`;
    const needs = [`whether ${numbers(undecided)} was open before`];
    return answer({ says: "cannot be told", words, needs });
  }
  const edge = perhaps.filter(extra);
  const near =
    edge.length > 0 && meant.length > 0
      ? ` ${edge.map((each) => edgeInWords(each, writer)).join(" ")}`
      : "";
  const shut = mandrels.filter(({ passes, state }) => passes === "no" && state.gate !== "blank");
  const others = shut.length > 0 ? `, and nothing at ${numbers(shut)}` : "";
  const planned =
    meant.length > 0
      ? " That is where it is to enter as planned."
      : " What is planned is not known.";
  const as = edge.length > 0 ? "" : planned;
  const flows = rate === 0 ? " No injection gas was read." : "";
  return answer({
    says: "consistent",
    words: `By these pressures ${enters}${others}.${as}${near}${flows}`,
    nearEdge: near !== "",
  });
}

/** Shut or open by less than the figures are good for. */
function isEdge({ state, acting, closing, opening, doubt }: MandrelNow): boolean {
  if (state.gate !== "as it was") return true;
  return (
    acting !== undefined &&
    closing !== undefined &&
    opening !== undefined &&
    acting - Math.min(closing, opening) <= doubt
  );
}

const beyondOpening = ({ acting, opening }: MandrelNow) => (acting ?? 0) - (opening ?? 0);
const isNear = (each: MandrelNow) =>
  each.opening !== undefined && beyondOpening(each) < (1 + NEAR_EDGE) * each.doubt;

function edgeInWords({ mandrel, state, doubt }: MandrelNow, writer: Writer): string {
  const apart = (si: number) => writer.write("pressure difference", si);
  if (state.noDrop || state.toChange === undefined) {
    return `At mandrel ${mandrel} the two pressures are too close to each other to tell.`;
  }
  const stands = { open: "open", shut: "shut", "as it was": "between open and shut" };
  const gate = state.gate as keyof typeof stands;
  return `The valve of mandrel ${mandrel} is ${stands[gate]} by these figures, ${apart(state.toChange)} from a change, and they are good for ${apart(doubt)}: near the edge.`;
}

/** An open valve that should be shut, by the pressure that opens it, at surface where that is read. */
function openInWords(each: MandrelNow, asked: Asked): string {
  const { well, writer } = asked;
  const { mandrel, opening } = each;
  if (opening === undefined) return `Nothing in mandrel ${mandrel} shuts.`;
  const apart = writer.write("pressure difference", beyondOpening(each));
  const doubt = writer.write("pressure difference", each.doubt);
  if (byProduction(each)) {
    return `Production at mandrel ${mandrel}, ${writer.write("pressure", each.acting ?? 0)}, is ${apart} above where its valve opens; these figures are good for ${doubt}.`;
  }
  const surface = well.surfaceFor(mandrel, opening);
  const at = surface === undefined ? "" : againstRead(asked, surface, "at most");
  return `The ${gasSide(asked)} stands ${surface === undefined ? apart : writer.write("pressure difference", well.read.injection - surface)} above the opening pressure of the valve in mandrel ${mandrel}, which should be shut${at}; these figures are good for ${doubt}.`;
}

const againstRead = ({ well, writer }: Asked, expected: number, bound: "at least" | "at most") =>
  `: ${writer.write("pressure", well.read.injection)} read, ${writer.write("pressure", expected)} expected ${bound}`;

/** Every valve is shut, or production stands above injection: gas has no way in. */
function nothingPasses(asked: Asked): Answer {
  const { rate, writer } = asked;
  if (rate === 0) {
    return {
      says: "cannot be told",
      words:
        "By these pressures no valve passes gas, and none is injected: the well is not on lift.",
      needs: ["pressures and rate of the well on lift"],
    };
  }
  const nearest = nearestToPass(asked);
  const by = nearest ? ` ${nearest}` : "";
  if (rate === undefined) {
    const words = `By these pressures no valve passes gas; whether gas goes in was not read.${by}`;
    return { says: "cannot be told", words, needs: ["the injection rate"] };
  }
  return {
    says: "not consistent",
    words: `${writer.write("gas rate", rate)} goes in, and by these pressures no valve passes gas.${by}`,
  };
}

/** The valve that lacks least, and how much. */
function nearestToPass(asked: Asked): string | undefined {
  const { mandrels, well, writer } = asked;
  const lacking = mandrels.flatMap((each) => {
    const at = lowestToPass(each);
    const surface = at === undefined ? undefined : well.surfaceFor(each.mandrel, at);
    return surface === undefined ? [] : [{ each, surface }];
  });
  const [nearest] = lacking.sort((one, other) => one.surface - other.surface);
  if (!nearest) return undefined;
  const { each, surface } = nearest;
  const below = writer.write("pressure difference", surface - well.read.injection);
  const of =
    each.closing === undefined || at(each) !== each.closing
      ? `what would let gas in at mandrel ${each.mandrel}`
      : `the closing pressure of the valve in mandrel ${each.mandrel}`;
  return `The ${gasSide(asked)} stands ${below} below ${of}${againstRead(asked, surface, "at least")}.`;
}

const at = (each: MandrelNow) => lowestToPass(each);

/** Injection pressure at a mandrel below which nothing passes there; undefined where injection does not decide it. */
function lowestToPass({ valve, closing, opening, production, state }: MandrelNow) {
  if (state.gate === "blank" || production === undefined) return undefined;
  if (valve?.kind === "orifice") return production;
  if (valve?.kind !== "injection-operated") return undefined;
  if (closing === undefined || opening === undefined) return undefined;
  return Math.max(Math.min(closing, opening), production);
}

/** How much gas the open valves pass, against what was read. */
export function gasCheck(asked: Asked): Check {
  const { mandrels, rate, writer } = asked;
  const answer = (found: Answer) => answered("gas rate", found);
  const write = (si: number) => writer.write("gas rate", si);
  const open = mandrels.filter(({ passes }) => passes === "yes" || passes === "perhaps");
  const unknown = mandrels.filter(
    ({ passes, gas }) => passes === "not known" || (passes !== "no" && !gas),
  );
  const range = gasOfAll(mandrels);
  const bound = open.some(({ gas }) => gas?.by === "full port, an upper bound")
    ? ", a full port being an upper bound for a valve with a bellows"
    : "";
  const could =
    open.length === 0
      ? "No valve passes gas at these pressures"
      : range.most === undefined
        ? `The open valves pass ${write(range.least)} or more at these pressures`
        : `The open valves pass ${write(range.least)} to ${write(range.most)} at these pressures${bound}`;
  if (rate === undefined) {
    return answer({
      says: "cannot be told",
      words: `The injection rate was not read. ${could}.`,
      needs: ["the injection rate"],
    });
  }
  const [low, high] = [rate * (1 - RATE_SHARE), rate * (1 + RATE_SHARE)];
  const read = `${write(rate)} was read`;
  if (range.most !== undefined && low > range.most) {
    const words = `${read}, ${write(rate - range.most)} more than that. ${could}. Gas goes in another way as well: a valve that should be shut, a cut seat, a leak.`;
    return answer({ says: "not consistent", words, nearEdge: low < range.most * (1 + RATE_SHARE) });
  }
  if (high < range.least) {
    const words = `${read}, ${write(range.least - rate)} less than that. ${could}. A valve that should be open passes less than it should: plugged, or not open.`;
    return answer({
      says: "not consistent",
      words,
      nearEdge: high > range.least * (1 - RATE_SHARE),
    });
  }
  if (unknown.length > 0) {
    const needs = [...new Set(unknown.flatMap((each) => each.needs))];
    const words = `${read}. ${could}; what ${numbers(unknown)} passes is not known: needs ${needs.join("; ")}.`;
    return answer({ says: "cannot be told", words, needs });
  }
  const edge = (range.most !== undefined && rate > range.most) || rate < range.least;
  const words = `${read}. ${could}.${edge ? " The two lie within what rates are good for: near the edge." : ""}`;
  return answer({ says: "consistent", words, nearEdge: edge });
}

/** Least: of what passes for sure; most: of what may pass, undefined where it is not known of one. */
export function gasOfAll(mandrels: readonly MandrelNow[]): {
  readonly least: number;
  readonly most: number | undefined;
} {
  const sum = (of: readonly number[]) => of.reduce((all, each) => all + each, 0);
  const least = sum(mandrels.map(({ passes, gas }) => (passes === "yes" ? (gas?.least ?? 0) : 0)));
  const isKnown = mandrels.every(({ gas }) => gas !== undefined);
  const most = isKnown ? sum(mandrels.map(({ gas }) => gas?.most ?? 0)) : undefined;
  return { least, most };
}

/** Injection pressure against the band in which the valve works where gas is to enter. */
export function pressureCheck(asked: Asked): Check {
  const { operating, writer, well } = asked;
  const answer = (found: Answer) => answered("injection pressure", found);
  if (!operating) {
    const needs = ["where gas is to enter as planned"];
    const words = "At which mandrel the well is to work is not known.";
    return answer({ says: "cannot be told", words, needs });
  }
  const { mandrel, doubt, valve } = operating;
  if (operating.passes === "not known") {
    const words = `What the valve in mandrel ${mandrel} does, where the well is to work, is not known: needs ${operating.needs.join("; ")}.`;
    return answer({ says: "cannot be told", words, needs: operating.needs });
  }
  const apart = (si: number) => writer.write("pressure difference", Math.abs(si));
  if (byProduction(operating)) return answer(byItsProduction(operating, asked));
  const atDepth = lowestToPass(operating);
  const low = atDepth === undefined ? undefined : well.surfaceFor(mandrel, atDepth);
  if (low === undefined) {
    const words = `At which pressure the valve in mandrel ${mandrel} works cannot be worked out.`;
    return answer({ says: "cannot be told", words, needs: operating.needs });
  }
  const ceiling = lowestAbove(asked);
  const { injection } = well.read;
  const doubtHere = Math.max(doubt, well.injectionDoubt);
  const shuts =
    valve?.kind === "orifice"
      ? `the production pressure at the orifice of mandrel ${mandrel}`
      : `the closing pressure of the valve in mandrel ${mandrel}`;
  const band = ceiling
    ? `The well works at mandrel ${mandrel} between ${writer.write("pressure", low)}, ${shuts} brought to surface, and ${writer.write("pressure", ceiling.surface)}, where the valve in mandrel ${ceiling.mandrel} would open.`
    : `The well works at mandrel ${mandrel} from ${writer.write("pressure", low)} up, ${shuts} brought to surface.`;
  const short = low - injection;
  if (short > doubtHere) {
    return answer({
      says: "not consistent",
      words: `The ${gasSide(asked)} stands ${apart(short)} below ${shuts}, where gas is to enter${againstRead(asked, low, "at least")}; these figures are good for ${apart(doubtHere)}.`,
      nearEdge: short < (1 + NEAR_EDGE) * doubtHere,
    });
  }
  if (short > 0) {
    const words = `${band} ${writer.write("pressure", injection)} was read, ${apart(short)} below, and these figures are good for ${apart(doubtHere)}: near the edge.`;
    return answer({ says: "consistent", words, nearEdge: true });
  }
  const words = `${band} ${writer.write("pressure", injection)} was read.`;
  return answer({ says: "consistent", words, nearEdge: -short < doubtHere });
}

/** A production-operated valve goes by the production pressure at its depth. */
function byItsProduction(operating: MandrelNow, asked: Asked): Answer {
  const { mandrel, acting, closing, opening, doubt, state } = operating;
  const { writer } = asked;
  if (acting === undefined || closing === undefined || opening === undefined) {
    const words = `At which pressure the valve in mandrel ${mandrel} works cannot be worked out.`;
    return { says: "cannot be told", words, needs: operating.needs };
  }
  const low = Math.min(closing, opening);
  const pressure = (si: number) => writer.write("pressure", si);
  const apart = (si: number) => writer.write("pressure difference", Math.abs(si));
  const stands = `Production in the ${producingSide(asked)} at mandrel ${mandrel} is ${pressure(acting)} by the wellhead pressure read`;
  const works = `its valve, worked by production, shuts at ${pressure(low)}`;
  if (state.noDrop) {
    const words = `${stands}, above injection there, ${pressure(operating.injection ?? 0)}: nothing passes.`;
    const says = operating.passes === "no" ? "not consistent" : "consistent";
    return { says, words, nearEdge: says === "consistent" };
  }
  const short = low - acting;
  if (short > doubt) {
    const words = `${stands}, ${apart(short)} below: ${works}, and gas is to enter there; these figures are good for ${apart(doubt)}.`;
    return { says: "not consistent", words, nearEdge: short < (1 + NEAR_EDGE) * doubt };
  }
  const edge = short > 0 ? `, ${apart(short)} below what these figures are good for` : "";
  return {
    says: "consistent",
    words: `${stands}; ${works}${short > 0 ? `. That is ${apart(short)} above, and these figures are good for ${apart(doubt)}: near the edge` : ""}.`,
    nearEdge: edge !== "" || -short < doubt,
  };
}

/** The valve above the one at work that opens first, at surface. */
function lowestAbove(
  asked: Asked,
): { readonly mandrel: number; readonly surface: number } | undefined {
  const { mandrels, operating, well } = asked;
  const found = mandrels.flatMap(({ mandrel, valve, opening }) => {
    if (valve?.kind !== "injection-operated" || opening === undefined) return [];
    if (operating === undefined || mandrel >= operating.mandrel) return [];
    const surface = well.surfaceFor(mandrel, opening);
    return surface === undefined ? [] : [{ mandrel, surface }];
  });
  return found.sort((one, other) => one.surface - other.surface)[0];
}
