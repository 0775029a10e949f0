/** What a solve returns, with the number of evaluations it cost. */
export interface Root {
  readonly x: number;
  readonly evaluations: number;
}

/**
 * Root of a function that rises from a value <= 0 at `low` to a value >= 0 at `high`.
 *
 * Newton's step is taken while it stays inside the bracket, which shrinks with every evaluation; a
 * step that would leave it is replaced by the middle of the bracket. It ends when a step is below
 * `relativeStep` of x.
 *
 * @param evaluate f(x) and its derivative df/dx
 * @param low      x with f(x) <= 0
 * @param high     x with f(x) >= 0
 * @param guess    where to begin, inside the bracket
 * @returns the root, or undefined when 100 evaluations did not reach it (a bracket that does not
 *          hold a sign change, or a function that is not finite)
 */
export function bracketedNewton(
  evaluate: (x: number) => readonly [value: number, slope: number],
  low: number,
  high: number,
  guess: number,
  relativeStep = 1e-9,
): Root | undefined {
  let below = low;
  let above = high;
  let x = guess > low && guess < high ? guess : (low + high) / 2;
  for (let evaluations = 1; evaluations <= 100; evaluations += 1) {
    const [value, slope] = evaluate(x);
    if (!Number.isFinite(value)) return undefined;
    if (value === 0) return { x, evaluations };
    if (value < 0) below = x;
    else above = x;
    const newton = x - value / slope;
    const next = newton >= below && newton <= above ? newton : (below + above) / 2;
    // Quadratic convergence: the step just made bounds the error left by far more than the limit.
    if (Math.abs(next - x) <= relativeStep * Math.abs(next)) return { x: next, evaluations };
    x = next;
  }
  return undefined;
}
