/**
 * The charge in a dome: nitrogen at constant volume by Peng and Robinson's equation (Ind. Eng. Chem. Fundam. 15, 1976),
 * with nitrogen's critical point and acentric factor (126.19 K, 3.396 MPa, 0.037; NIST Chemistry WebBook).
 */
const R = 8.314463;
const CRITICAL_T = 126.19;
const CRITICAL_P = 3.396e6;
const KAPPA = 0.37464 + 1.54226 * 0.037 - 0.26992 * 0.037 ** 2;
const B = (0.0778 * R * CRITICAL_T) / CRITICAL_P;

function attraction(temperature: number): number {
  const alpha = (1 + KAPPA * (1 - Math.sqrt(temperature / CRITICAL_T))) ** 2;
  return ((0.45724 * (R * CRITICAL_T) ** 2) / CRITICAL_P) * alpha;
}

function pressureOf(volume: number, temperature: number): number {
  return (
    (R * temperature) / (volume - B) -
    attraction(temperature) / (volume * (volume + B) + B * (volume - B))
  );
}

/** Pa absolute: what a charge of one pressure and temperature has at another temperature. */
export function chargeAt(pressure: number, temperature: number, wanted: number): number {
  let low = 1.01 * B;
  let high = (5 * R * temperature) / pressure;
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (pressureOf(middle, temperature) > pressure) low = middle;
    else high = middle;
  }
  return pressureOf((low + high) / 2, wanted);
}
