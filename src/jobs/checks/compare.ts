/**
 * Limits compared as people mean them. A figure typed in one unit and a limit kept in another differ in the last
 * digits of their conversion, twelve of them here; a gauge or a tape shows three or four. So a millionth of the
 * figure counts as equal: what stands exactly at its limit passes.
 */
const SLACK = 1e-6;

/** value <= limit, what is equal to a millionth included. */
export function atMost(value: number, limit: number): boolean {
  return value <= limit + SLACK * Math.max(Math.abs(value), Math.abs(limit));
}

/** value >= limit, what is equal to a millionth included. */
export function atLeast(value: number, limit: number): boolean {
  return atMost(limit, value);
}
