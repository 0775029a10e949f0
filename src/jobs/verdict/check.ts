import type { Writer } from "../display.ts";
import { surfaceGauges } from "../programme.ts";
import { NEAR_EDGE } from "./doubts.ts";
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
  /** what is lacked to say that */
  readonly meantNeeds: readonly string[];
  /** the deepest of them: where the well works */
  readonly operating: MandrelNow | undefined;
  /** standard m3/s; undefined: not read */
  readonly rate: number | undefined;
  readonly writer: Writer;
}

const list = new Intl.ListFormat("en-GB");
export const inList = (of: readonly number[]) => list.format(of.map(String));
export const mandrelsOf = (of: readonly MandrelNow[]) =>
  `mandrel${of.length === 1 ? "" : "s"} ${inList(of.map(({ mandrel }) => mandrel))}`;

/** The spaces of the well, as their gauges at surface are called. */
export const gaugesOf = ({ well }: Pick<Asked, "well">) => surfaceGauges(well.programme);

export const isByProduction = ({ valve }: MandrelNow) => valve?.kind === "production-operated";

/** A check without what is usual in one. */
export interface Answer {
  readonly says: Says;
  readonly words: string;
  readonly nearEdge?: boolean;
  readonly needs?: readonly string[];
}
export const answered = (
  subject: Check["subject"],
  { says, words, nearEdge = false, needs = [] }: Answer,
): Check => ({ subject, says, words, nearEdge, needs });

export const againstRead = (
  { well, writer }: Asked,
  expected: number,
  bound: "at least" | "at most",
) =>
  `: ${writer.write("pressure", well.read.injection)} read, ${writer.write("pressure", expected)} expected ${bound}`;

/** Injection pressure at a mandrel below which nothing passes there; undefined where injection does not decide it. */
export function lowestToPass({
  valve,
  closing,
  opening,
  production,
  state,
}: MandrelNow): number | undefined {
  if (state.gate === "blank" || production === undefined) return undefined;
  if (valve?.kind === "orifice") return production;
  if (valve?.kind !== "injection-operated") return undefined;
  if (closing === undefined || opening === undefined) return undefined;
  return Math.max(Math.min(closing, opening), production);
}

export interface Lacking {
  readonly each: MandrelNow;
  /** at surface, from which on gas passes there */
  readonly surface: number;
  /** it lacks little more than the figures are good for */
  readonly isNear: boolean;
}

/** Where nothing passes: the valve that lacks least. */
export function lacksLeast({ mandrels, well }: Asked): Lacking | undefined {
  const lacking = mandrels.flatMap((each): Lacking[] => {
    const at = lowestToPass(each);
    const surface = at === undefined ? undefined : well.surfaceFor(each.mandrel, at);
    if (surface === undefined) return [];
    const good = at === each.production ? each.dropDoubt : each.doubt;
    const isNear = surface - well.read.injection < (1 + NEAR_EDGE) * good;
    return [{ each, surface, isNear }];
  });
  return lacking.sort((one, other) => one.surface - other.surface)[0];
}

/** What that pressure is, in words. */
export function lowestInWords(each: MandrelNow): string {
  return lowestToPass(each) === each.production
    ? `the production pressure at mandrel ${each.mandrel}`
    : `the closing pressure of the valve in mandrel ${each.mandrel}`;
}
