/** Degrees of freedom of a survey's errors: few, so that one wild stop does not decide. */
const FREEDOM = 5;

/** By count: what does not hang on the residuals is asked for every draw. */
const constants: number[] = [];

/**
 * ln density of a multivariate Student's t with FREEDOM degrees.
 *
 * @param count   of residuals
 * @param square  rᵀ C⁻¹ r
 * @param logRoot ln of the root of |C|
 */
export function logStudent(count: number, square: number, logRoot: number): number {
  constants[count] ??=
    logGammaHalf(FREEDOM + count) -
    logGammaHalf(FREEDOM) -
    (count / 2) * Math.log(FREEDOM * Math.PI);
  return (
    constants[count] - logRoot - ((FREEDOM + count) / 2) * Math.log1p(Math.max(0, square) / FREEDOM)
  );
}

/** ln Γ(twice / 2) for whole `twice` above 0. */
function logGammaHalf(twice: number): number {
  let log = twice % 2 === 0 ? 0 : Math.log(Math.sqrt(Math.PI));
  for (let x = twice % 2 === 0 ? 1 : 0.5; x < twice / 2; x += 1) log += Math.log(x);
  return log;
}
