import { chanceInWords, percent } from "./inWords.ts";
import type { Fault, InSum, Ranked, Ranking } from "./ranking.ts";
import { pocketsOf } from "./work.ts";

/**
 * What a ranking says of each mandrel and of each kind of fault, whatever else it leaves open: where several hypotheses
 * explain the same, none of them is likely by itself and all of them together may be.
 *
 * @param ranked with all hypotheses in it, most probable first
 * @returns most probable first; two valves that are exchanged count at both of their mandrels
 */
export function inSumOf(ranked: readonly Ranked[]): InSum {
  const mandrels = new Map<number, number>();
  const kinds = new Map<Fault["kind"], number>();
  for (const { hypothesis, probability } of ranked) {
    const { fault } = hypothesis;
    kinds.set(fault.kind, (kinds.get(fault.kind) ?? 0) + probability);
    for (const mandrel of pocketsOf(fault)) {
      mandrels.set(mandrel, (mandrels.get(mandrel) ?? 0) + probability);
    }
  }
  return {
    mandrels: [...mandrels]
      .map(([mandrel, probability]) => ({ mandrel, probability }))
      .sort((a, b) => b.probability - a.probability || a.mandrel - b.mandrel),
    kinds: [...kinds]
      .map(([kind, probability]) => ({ kind, probability }))
      .sort((a, b) => b.probability - a.probability),
  };
}

/** A sum is worth a line from here on, and where it says so much more than its first member. Chosen by Latchline, no source. */
const WORTH_SAYING = { sum: 0.5, more: 0.1 } as const;
/** Members that take part in a sum by less than this are not named. */
const NAMED = 0.05;

const kindWords: Readonly<Record<Fault["kind"], readonly [as: string, of: string]>> = {
  "nothing downhole": ["nothing wrong downhole", "Nothing wrong downhole"],
  supply: ["gas supply", "The gas supply"],
  "back-pressure at surface": ["back-pressure", "Back-pressure at surface"],
  "tubing leak": ["hole in the tubing", "A hole in the tubing"],
  "stuck open": ["stuck open", "A valve stuck open"],
  leaking: ["leaks at its seat", "A valve that leaks at its seat"],
  plugged: ["plugged or will not open", "A valve plugged or that will not open"],
  "set too low": ["set too low", "A valve set too low"],
  "set too high": ["set too high", "A valve set too high"],
  "latch or packing leaks": ["latch or packing leaks", "A latch or packing that leaks"],
  "wrong depth": ["exchanged with another", "Two valves exchanged"],
  "multi-point": ["lift not transferred", "Lift that has not transferred"],
};

/**
 * The sum in one or two plain sentences, where it says more than the first hypothesis alone: the mandrel, which is what a
 * crew goes to, before the kind. Undefined where one answer stands out, or nothing does.
 */
export function sayInSum({
  ranked,
  inSum,
  verdict,
}: Pick<Ranking, "ranked" | "inSum" | "verdict">): string | undefined {
  if (verdict !== "two or more") return undefined;
  const [mandrel] = inSum.mandrels;
  const [kind] = inSum.kinds;
  const saysMore = (sum: number, members: readonly Ranked[]) =>
    sum >= WORTH_SAYING.sum && sum >= (members[0]?.probability ?? 0) + WORTH_SAYING.more;
  const list = (members: readonly Ranked[], name: (one: Ranked) => string) =>
    members
      .filter(({ probability }) => probability >= NAMED)
      .map((one) => `${name(one)} ${percent(one.probability)}`)
      .join(", ");
  if (mandrel) {
    const there = ranked.filter(({ hypothesis }) =>
      pocketsOf(hypothesis.fault).includes(mandrel.mandrel),
    );
    if (saysMore(mandrel.probability, there)) {
      const what = list(there, ({ hypothesis }) => kindWords[hypothesis.fault.kind][0]);
      return `Something is wrong at mandrel ${mandrel.mandrel}, ${chanceInWords(mandrel.probability)} in sum. What it is there is not told apart: ${what}.`;
    }
  }
  if (kind) {
    const alike = ranked.filter(({ hypothesis }) => hypothesis.fault.kind === kind.kind);
    if (saysMore(kind.probability, alike)) {
      const where = list(alike, ({ hypothesis }) => placeOf(hypothesis.fault, hypothesis.id));
      return `${kindWords[kind.kind][1]}, ${chanceInWords(kind.probability)} in sum. Which is not told apart: ${where}.`;
    }
  }
  return undefined;
}

/** "at mandrel 3"; of a supply what it is, of a hole between which mandrels. */
function placeOf(fault: Fault, id: string): string {
  if (fault.kind === "supply") return fault.what;
  if (fault.kind === "tubing leak") return id.replace("tubing leak ", "");
  if (fault.kind === "multi-point") return `below mandrel ${fault.mandrels[0]}`;
  const pockets = pocketsOf(fault);
  return `${pockets.length > 1 ? "mandrels" : "at mandrel"} ${pockets.join(" and ")}`;
}
