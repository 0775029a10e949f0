type Point = readonly [number, number];

/**
 * A line with fewer points that looks the same: those kept are points of it, in its order, the first and the last
 * among them, and every other lies within the tolerance of the stretch that takes its place.
 *
 * @param points    [n], any n; two that follow each other may be the same
 * @param tolerance 0 or more, in the units of the points
 * Source: Douglas and Peucker (1973), with the distance from the stretch in place of that from the endless line, so
 * that a line that turns back beyond its end keeps its turn.
 */
export function thinned(points: readonly Point[], tolerance: number): [number, number][] {
  const kept = new Set<number>([0, points.length - 1]);
  const stretches: [number, number][] = [[0, points.length - 1]];
  // A list in place of calling itself: a long scribble must not run out of stack.
  for (let next = stretches.pop(); next; next = stretches.pop()) {
    const [from, to] = next;
    const farthest = farthestOf(points, from, to);
    if (!farthest || farthest.away <= tolerance) continue;
    kept.add(farthest.index);
    stretches.push([from, farthest.index], [farthest.index, to]);
  }
  return points.flatMap(([x, y], index): [number, number][] => (kept.has(index) ? [[x, y]] : []));
}

/** The point strictly between two that is farthest from the stretch between them. */
function farthestOf(points: readonly Point[], from: number, to: number) {
  const [start, end] = [points[from], points[to]];
  if (!start || !end) return undefined;
  let farthest: { index: number; away: number } | undefined;
  for (let index = from + 1; index < to; index += 1) {
    const point = points[index];
    const away = point ? fromStretch(point, start, end) : 0;
    if (!farthest || away > farthest.away) farthest = { index, away };
  }
  return farthest;
}

/** Distance of a point from the stretch between two others. */
export function fromStretch([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / square;
  const t = Math.min(Math.max(along, 0), 1);
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}
