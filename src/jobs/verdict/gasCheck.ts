import { type Answer, type Asked, answered, type Check, lacksLeast, mandrelsOf } from "./check.ts";
import { RATE_SHARE } from "./doubts.ts";
import type { MandrelNow } from "./mandrelNow.ts";

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
      ? `No valve ${unknown.length > 0 ? "is known to pass" : "passes"} gas at these pressures`
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
  const read = `${write(rate)} was read.`;
  if (range.most !== undefined && low > range.most) {
    const words = `${read} ${could}: ${write(rate - range.most)} less than what goes in. A port cut wider, a valve that should be shut, a leak; or the rate or a record is wrong.`;
    const isNear =
      open.length === 0
        ? (lacksLeast(asked)?.isNear ?? false)
        : low < range.most * (1 + RATE_SHARE);
    return answer({ says: "not consistent", words, nearEdge: isNear });
  }
  if (high < range.least) {
    const words = `${read} ${could}: ${write(range.least - rate)} more than what goes in. What should be open is plugged or shut; or the rate or a record is wrong.`;
    const nearEdge = high > range.least * (1 - RATE_SHARE);
    return answer({ says: "not consistent", words, nearEdge });
  }
  if (unknown.length > 0) {
    const needs = [...new Set(unknown.flatMap((each) => each.needs))];
    const words = `${read} ${could}; what ${mandrelsOf(unknown)} ${unknown.length === 1 ? "passes" : "pass"} is not known: needs ${needs.join("; ")}.`;
    return answer({ says: "cannot be told", words, needs });
  }
  const isBeyond = (range.most !== undefined && rate > range.most) || rate < range.least;
  const edge = isBeyond
    ? " The two differ by less than what they are good for: near the edge."
    : "";
  return answer({ says: "consistent", words: `${read} ${could}.${edge}`, nearEdge: isBeyond });
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
