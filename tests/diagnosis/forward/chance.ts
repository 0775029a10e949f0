/**
 * Chance from a seed, for cases that can be made again: the Park-Miller generator with 48271 ("Random number generators:
 * good ones are hard to find", CACM 31, 1988, with the multiplier of the 1993 correspondence), and what is drawn with it.
 */
export class Chance {
  #state: number;

  constructor(seed: number) {
    // Seeds that follow on one another must not give draws that do: the generator is linear, the mixing here is not.
    let mixed = Math.imul(seed + 1, 0x9e3779b1);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x2c1b3c6d);
    mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39);
    this.#state = ((mixed ^ (mixed >>> 15)) >>> 0) % 2147483647 || 1;
  }

  /** in (0, 1) */
  next(): number {
    this.#state = (this.#state * 48271) % 2147483647;
    return this.#state / 2147483647;
  }

  between(least: number, most: number): number {
    return least + (most - least) * this.next();
  }

  whole(least: number, most: number): number {
    return Math.min(most, least + Math.floor((most - least + 1) * this.next()));
  }

  yes(probability: number): boolean {
    return this.next() < probability;
  }

  /** Box and Muller, cut at three standard deviations: a gauge that is further off is a wrong record, drawn apart. */
  normal(mean: number, spread: number): number {
    const z = Math.sqrt(-2 * Math.log(this.next())) * Math.cos(2 * Math.PI * this.next());
    return mean + spread * Math.max(-3, Math.min(3, z));
  }

  pick<T>(from: readonly T[]): T {
    const one = from[this.whole(0, from.length - 1)];
    if (one === undefined) throw new RangeError("nothing to pick from");
    return one;
  }

  /** by weights */
  weighed<T>(from: readonly (readonly [T, number])[]): T {
    const all = from.reduce((sum, [, weight]) => sum + weight, 0);
    let left = all * this.next();
    for (const [one, weight] of from) {
      left -= weight;
      if (left <= 0) return one;
    }
    return this.pick(from)[0];
  }
}
