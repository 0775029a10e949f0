/** A lift gas with what the AGA 8 DETAIL equation gives for its composition. */
export interface GasCase {
  readonly name: string;
  readonly gravity: number;
  readonly co2: number;
  readonly n2: number;
  /** mole fractions by AGA 8 component */
  readonly composition: Readonly<Record<string, number>>;
  /** degF, psia, z */
  readonly points: readonly (readonly [degF: number, psia: number, z: number])[];
}

/**
 * z of four lift gases, 80 to 200 degF, 400 to 2,200 psia.
 * Source: NIST AGA8 program (DETAIL equation, AGA Report No. 8 Part 1 / ISO 20765-1) on the composition behind each
 * gravity; GERG-2008 agrees within 0.1 percent.
 */
export const liftGases: readonly GasCase[] = [
  {
    name: "lean",
    gravity: 0.5927,
    co2: 0.008,
    n2: 0.006,
    composition: {
      methane: 0.945,
      ethane: 0.028,
      propane: 0.008,
      n_butane: 0.003,
      isobutane: 0.002,
      nitrogen: 0.006,
      carbon_dioxide: 0.008,
    },
    points: [
      [80, 400, 0.94801],
      [80, 1000, 0.87625],
      [80, 1600, 0.82151],
      [80, 2200, 0.79517],
      [140, 400, 0.96582],
      [140, 1000, 0.92118],
      [140, 1600, 0.88882],
      [140, 2200, 0.87301],
      [200, 400, 0.97761],
      [200, 1000, 0.94998],
      [200, 1600, 0.93155],
      [200, 2200, 0.92413],
    ],
  },
  {
    name: "typical lift gas",
    gravity: 0.6573,
    co2: 0.01,
    n2: 0.01,
    composition: {
      methane: 0.87,
      ethane: 0.06,
      propane: 0.03,
      n_butane: 0.01,
      isobutane: 0.005,
      n_pentane: 0.003,
      isopentane: 0.002,
      nitrogen: 0.01,
      carbon_dioxide: 0.01,
    },
    points: [
      [80, 400, 0.9338],
      [80, 1000, 0.83971],
      [80, 1600, 0.76801],
      [80, 2200, 0.73872],
      [140, 400, 0.95587],
      [140, 1000, 0.89681],
      [140, 1600, 0.85321],
      [140, 2200, 0.83213],
      [200, 400, 0.97038],
      [200, 1000, 0.93269],
      [200, 1600, 0.90639],
      [200, 2200, 0.89443],
    ],
  },
  {
    name: "rich",
    gravity: 0.726,
    co2: 0.01,
    n2: 0.005,
    composition: {
      methane: 0.8,
      ethane: 0.095,
      propane: 0.05,
      n_butane: 0.018,
      isobutane: 0.009,
      n_pentane: 0.005,
      isopentane: 0.005,
      hexane: 0.003,
      nitrogen: 0.005,
      carbon_dioxide: 0.01,
    },
    points: [
      [80, 400, 0.91388],
      [80, 1000, 0.78632],
      [80, 1600, 0.69243],
      [80, 2200, 0.66891],
      [140, 400, 0.94211],
      [140, 1000, 0.8624],
      [140, 1600, 0.80329],
      [140, 2200, 0.77752],
      [200, 400, 0.96042],
      [200, 1000, 0.90863],
      [200, 1600, 0.87152],
      [200, 2200, 0.85414],
    ],
  },
  {
    name: "high CO2",
    gravity: 0.7235,
    co2: 0.1,
    n2: 0.015,
    composition: {
      methane: 0.8,
      ethane: 0.05,
      propane: 0.02,
      n_butane: 0.008,
      isobutane: 0.004,
      n_pentane: 0.002,
      isopentane: 0.001,
      nitrogen: 0.015,
      carbon_dioxide: 0.1,
    },
    points: [
      [80, 400, 0.93415],
      [80, 1000, 0.83983],
      [80, 1600, 0.76604],
      [80, 2200, 0.73288],
      [140, 400, 0.95609],
      [140, 1000, 0.89682],
      [140, 1600, 0.85201],
      [140, 2200, 0.82863],
      [200, 400, 0.97051],
      [200, 1000, 0.93261],
      [200, 1600, 0.90546],
      [200, 2200, 0.89194],
    ],
  },
];

/**
 * Pressure in columns of three of these gases: surface psig against 14.696 psia; [ft, degF] points of true vertical
 * depth and temperature, straight between; [ft, psig] expected.
 * Source: NIST AGA8 program (DETAIL) on the composition, fourth-order Runge-Kutta in steps of 100 ft.
 */
export const gasColumns = [
  {
    name: "typical lift gas",
    gas: { specificGravity: 0.6573, co2: 0.01, h2s: 0, n2: 0.01 },
    surface: 1000,
    temperatures: [
      [0, 100],
      [8000, 200],
    ],
    expected: [
      [2000, 1051.52],
      [4000, 1102.31],
      [6000, 1152.45],
      [8000, 1202.02],
    ],
  },
  {
    name: "lean",
    gas: { specificGravity: 0.5927, co2: 0.008, h2s: 0, n2: 0.006 },
    surface: 800,
    temperatures: [
      [0, 80],
      [6000, 160],
    ],
    expected: [
      [1500, 827.82],
      [3000, 855.22],
      [4500, 882.25],
      [6000, 908.94],
    ],
  },
  {
    name: "rich",
    gas: { specificGravity: 0.726, co2: 0.01, h2s: 0, n2: 0.005 },
    surface: 1400,
    temperatures: [
      [0, 90],
      [3000, 140],
      [10000, 230],
    ],
    expected: [
      [2500, 1514.37],
      [5000, 1622.59],
      [7500, 1728.14],
      [10000, 1831.56],
    ],
  },
] as const;

/**
 * The equation itself: ppr, tpr, z to 7 digits.
 * Source: zFactor (R package), example output of its Dranchuk-AbouKassem function
 * (rdrr.io/cran/zFactor/man/Dranchuk-AbouKassem.html).
 */
export const dranchukAbouKassemTable: readonly (readonly [ppr: number, tpr: number, z: number])[] =
  [
    [0.5, 1.3, 0.9203019],
    [2.5, 1.3, 0.6377871],
    [3.5, 1.3, 0.6339357],
    [5.5, 1.3, 0.7663247],
    [6.5, 1.3, 0.8499523],
    [1.5, 1.5, 0.8593144],
    [2.5, 1.5, 0.7929993],
    [4.5, 1.5, 0.7896224],
    [5.5, 1.5, 0.8331893],
    [0.5, 1.7, 0.9681353],
    [1.5, 1.7, 0.9128087],
    [3.5, 1.7, 0.8619509],
    [4.5, 1.7, 0.8721085],
    [6.5, 1.7, 0.9409634],
    [0.5, 2.0, 0.9824731],
    [2.5, 2.0, 0.9400752],
    [3.5, 2.0, 0.9385273],
    [5.5, 2.0, 0.9715388],
    [6.5, 2.0, 1.001556],
  ];
