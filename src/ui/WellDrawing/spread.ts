/**
 * Moves labels apart so that none covers another: each as near to its own place as the order allows.
 *
 * @param places [n] wanted, rising
 * @param gap    least distance between two
 * @returns [n] places, between `from` and `to` where they fit
 */
export function spread(places: readonly number[], gap: number, from: number, to: number): number[] {
  const down: number[] = [];
  for (const place of places) {
    down.push(Math.max(place, (down.at(-1) ?? from - gap) + gap));
  }
  let limit = to;
  for (let i = down.length - 1; i >= 0; i -= 1) {
    down[i] = Math.min(down[i] ?? limit, limit);
    limit = (down[i] ?? limit) - gap;
  }
  return down;
}
