/**
 * Numbers that look random and are the same every time: uniform in [0, 1), from a seed.
 *
 * A sampled result has to be one that can be worked out again, so chance has no place in it. The
 * generator is a 32-bit counter through a finaliser that mixes its bits (Weyl sequence, odd step of
 * the golden ratio); its mean, spread and independence are tested, and no more is asked of it.
 *
 * @param seed any integer
 */
export function pseudoRandom(seed: number): () => number {
  let counter = seed >>> 0;
  return () => {
    counter = (counter + 0x9e3779b9) >>> 0;
    let mixed = counter;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    mixed ^= mixed >>> 16;
    return (mixed >>> 0) / 2 ** 32;
  };
}
