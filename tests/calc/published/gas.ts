/** A lift gas with what the AGA 8 DETAIL equation gives for its composition. */
export interface GasCase {
  readonly name: string;
  readonly gravity: number;
  readonly co2: number;
  readonly n2: number;
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
