/**
 * A gas-lift well that heads, as a published dynamic model of three states: gas in the annulus, gas and liquid in the tubing.
 *
 * Jahanshahi, Skogestad and Hansen, Control structure design for stabilizing unstable gas-lift oil wells (ADCHEM 2012), as
 * Kittelsen, Antonelo, Camponogara and Imsland print it in appendix A of Physics-informed neural networks with skip connections
 * for modeling and control of gas-lifted oil wells (Applied Soft Computing, 2024): equations A.1 to A.7, wells of table A.5. Read
 * in a text copy of the latter in a public repository. Not printed there, and from memory of the former: 20 bar behind the
 * production choke. The gas is held at a rate here, as the criteria have it; in print it comes through a choke from 140 bar.
 */
export interface HeadingWellPrinted {
  readonly name: string;
  /** kg/m3, K, m3, m */
  readonly liquidDensity: number;
  readonly annulusTemperature: number;
  readonly annulusVolume: number;
  readonly length: number;
  readonly below: number;
  readonly tubingTemperature: number;
  /** kg of formation gas a kg of liquid */
  readonly gasRatio: number;
  /** Pa, kg/s */
  readonly reservoir: number;
  readonly meanInflow: number;
  readonly tubingDiameter: number;
  readonly tubingVolume: number;
  /** kg/(s Pa) */
  readonly productivity: number;
  /** K of the injection valve and of the production choke, m2 */
  readonly injection: number;
  readonly choke: number;
}

export const printedWells: readonly HeadingWellPrinted[] = [
  {
    name: "Well 1",
    liquidDensity: 760,
    annulusTemperature: 348,
    annulusVolume: 64.34,
    length: 2048,
    below: 75,
    tubingTemperature: 369.4,
    gasRatio: 0,
    reservoir: 160e5,
    meanInflow: 18,
    tubingDiameter: 0.134,
    tubingVolume: 25.03,
    productivity: 2.47e-6,
    injection: 1.4e-4,
    choke: 2.9e-3,
  },
  {
    name: "Well 2",
    liquidDensity: 760,
    annulusTemperature: 335,
    annulusVolume: 84.82,
    length: 2700,
    below: 75,
    tubingTemperature: 355.6,
    gasRatio: 0,
    reservoir: 165e5,
    meanInflow: 11,
    tubingDiameter: 0.13,
    tubingVolume: 31,
    productivity: 2.12e-6,
    injection: 1.2e-4,
    choke: 2.43e-3,
  },
  {
    name: "Well 3",
    liquidDensity: 730,
    annulusTemperature: 360,
    annulusVolume: 56.55,
    length: 1800,
    below: 40,
    tubingTemperature: 381.2,
    gasRatio: 0.2,
    reservoir: 157e5,
    meanInflow: 30,
    tubingDiameter: 0.134,
    tubingVolume: 22.08,
    productivity: 3.89e-6,
    injection: 1.78e-4,
    choke: 3.22e-3,
  },
];

const R = 8.314;
const G = 9.81;
const VISCOSITY = 3.64e-3;
const GAS_MOLAR_MASS = 0.0167;
const SECTION_BELOW = 0.0314;
const ROUGHNESS = 2.8e-5;
const BEHIND_CHOKE = 20e5;

type State = readonly [annulusGas: number, tubingGas: number, tubingLiquid: number];

const friction = (reynolds: number, roughness: number) =>
  (-1.8 * Math.log10((roughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** -2;

/** What the model has at a state, and how fast the state changes. */
function flows(
  well: HeadingWellPrinted,
  [inAnnulus, gas, liquid]: State,
  opening: number,
  supplied: number,
) {
  const { liquidDensity, tubingVolume, tubingDiameter, length, below } = well;
  const annulusTop =
    (R * well.annulusTemperature * inAnnulus) / (GAS_MOLAR_MASS * well.annulusVolume);
  const annulusFoot = annulusTop + (inAnnulus * G * length) / well.annulusVolume;
  const gasDensity = (annulusFoot * GAS_MOLAR_MASS) / (R * well.annulusTemperature);
  const topGasDensity = gas / (tubingVolume + SECTION_BELOW * below - liquid / liquidDensity);
  const tubingTop = (topGasDensity * R * well.tubingTemperature) / GAS_MOLAR_MASS;
  const mean = (gas + liquid - liquidDensity * SECTION_BELOW * below) / tubingVolume;
  const held = (liquid - liquidDensity * SECTION_BELOW * below) / (tubingVolume * liquidDensity);
  const gasPart = well.gasRatio / (well.gasRatio + 1);
  const section = (Math.PI / 4) * tubingDiameter ** 2;
  const speed =
    ((1 - gasPart) * well.meanInflow) / (liquidDensity * section) +
    (supplied + gasPart * well.meanInflow) / (topGasDensity * section);
  const rubbed =
    (held *
      friction((mean * speed * tubingDiameter) / VISCOSITY, ROUGHNESS / tubingDiameter) *
      mean *
      speed ** 2 *
      length) /
    (2 * tubingDiameter);
  const tubingFoot = tubingTop + mean * G * length + rubbed;
  const injected = well.injection * Math.sqrt(gasDensity * Math.max(annulusFoot - tubingFoot, 0));
  const wide = Math.sqrt((4 * SECTION_BELOW) / Math.PI);
  const slow = well.meanInflow / (liquidDensity * SECTION_BELOW);
  const bottomHole =
    tubingFoot +
    liquidDensity * G * below +
    (friction((liquidDensity * slow * wide) / VISCOSITY, ROUGHNESS / wide) *
      liquidDensity *
      slow ** 2 *
      below) /
      (2 * wide);
  const inflow = well.productivity * Math.max(well.reservoir - bottomHole, 0);
  const liquidIn = (1 - gasPart) * inflow;
  const gasIn = gasPart * inflow;
  const footGasDensity = (tubingFoot * GAS_MOLAR_MASS) / (R * well.tubingTemperature);
  const atFoot =
    (liquidIn * footGasDensity) / (liquidIn * footGasDensity + (injected + gasIn) * liquidDensity);
  const atTop = 2 * held - atFoot;
  const topDensity = atTop * liquidDensity + (1 - atTop) * topGasDensity;
  const out =
    well.choke *
    opening *
    Math.sqrt(Math.max(topDensity, 0) * Math.max(tubingTop - BEHIND_CHOKE, 0));
  const gasOut = (((1 - atTop) * topGasDensity) / topDensity) * out;
  const change: State = [supplied - injected, injected + gasIn - gasOut, liquidIn - (out - gasOut)];
  return { change, gasDensity, footGasDensity, tubingFoot, liquidIn, gasIn };
}

const three = [0, 1, 2] as const;
type Matrix = readonly (readonly number[])[];

function slopes(of: (state: State) => State, at: State): Matrix {
  const columns = three.map((j) => {
    const step = 1e-5 * at[j];
    const moved = (by: number) => at.map((x, i) => (i === j ? x + by : x)) as unknown as State;
    const [up, down] = [of(moved(step)), of(moved(-step))];
    return three.map((i) => (up[i] - down[i]) / (2 * step));
  });
  return three.map((i) => three.map((j) => columns[j]?.[i] ?? 0));
}

const determinant = (m: Matrix): number => {
  const at = (i: number, j: number) => m[i % 3]?.[j % 3] ?? 0;
  return three.reduce<number>(
    (sum, j) => sum + at(0, j) * (at(1, j + 1) * at(2, j + 2) - at(1, j + 2) * at(2, j + 1)),
    0,
  );
};

/**
 * The well at rest with so much gas, and whether it stays there: all roots of its characteristic equation to the left, by
 * Routh and Hurwitz. Undefined where no rest was found.
 *
 * @param opening  of the production choke, 0 to 1
 * @param supplied kg/s of lift gas
 */
export function atRest(well: HeadingWellPrinted, opening: number, supplied: number) {
  const of = (state: State) => flows(well, state, opening, supplied).change;
  let state: State = [
    (well.annulusVolume * 90e5 * GAS_MOLAR_MASS) / (R * well.annulusTemperature),
    20 * well.tubingVolume,
    250 * well.tubingVolume,
  ];
  // Newton with a step of time that grows: implicit at first, so that it does not run off.
  for (let time = 10; time < 1e300; time *= 1.5) {
    const rates = of(state);
    const slope = slopes(of, state);
    if (Math.max(...rates.map(Math.abs)) < 1e-9) {
      const trace = three.reduce<number>((sum, i) => sum + (slope[i]?.[i] ?? 0), 0);
      const minors = three.reduce<number>((sum, i) => {
        const j = (i + 1) % 3;
        const at = (a: number, b: number) => slope[a]?.[b] ?? 0;
        return sum + at(i, i) * at(j, j) - at(i, j) * at(j, i);
      }, 0);
      const volume = determinant(slope);
      return {
        ...flows(well, state, opening, supplied),
        isSteady: trace < 0 && volume < 0 && -trace * minors > -volume,
      };
    }
    const matrix = slope.map((row, i) => row.map((x, j) => (i === j ? 1 / time : 0) - x));
    const whole = determinant(matrix);
    const step = three.map(
      (j) =>
        determinant(matrix.map((row, i) => row.map((x, k) => (k === j ? (rates[i] ?? 0) : x)))) /
        whole,
    );
    const share = Math.max(...three.map((i) => Math.abs(step[i] ?? 0) / state[i]));
    if (!Number.isFinite(share)) return undefined;
    const cut = Math.min(1, 0.05 / share);
    state = state.map((x, i) => x + cut * (step[i] ?? 0)) as unknown as State;
  }
  return undefined;
}
