/** Numbers of codes as people type and read them: "3 17 20-22". */

/**
 * @param count how many codes there are
 * @returns the numbers, each once and in order, or what is wrong with what was typed
 */
export function numbersIn(typed: string, count: number): readonly number[] | { why: string } {
  const found = new Set<number>();
  // A dash may have been typed with spaces around it, and some keyboards make a long one of it.
  const parts = typed.replace(/\s*[-–]\s*/g, "-").split(/[\s,;]+/);
  for (const part of parts.filter((each) => each !== "")) {
    const [, from, to = from] = /^(\d{1,6})(?:-(\d{1,6}))?$/.exec(part) ?? [];
    const [first, last] = [Number(from), Number(to)];
    if (from === undefined || first > last) {
      return {
        why: `"${part}" is no number of a code. Type numbers with spaces, as in 3 17 20-22.`,
      };
    }
    if (first < 1 || last > count) {
      return { why: `There is no code ${part}: they are numbered 1 to ${count}.` };
    }
    for (let number = first; number <= last; number += 1) found.add(number);
  }
  return [...found].sort((a, b) => a - b);
}

/** In short, to be typed on the other tablet: three and more in a row as a range. */
export function inShort(numbers: readonly number[]): string {
  const runs: { from: number; to: number }[] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last?.to === number - 1) last.to = number;
    else runs.push({ from: number, to: number });
  }
  return runs
    .map(({ from, to }) => (from === to ? `${from}` : `${from}${to - from > 1 ? "-" : " "}${to}`))
    .join(" ");
}
