import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Gas } from "../../src/calc/gas.ts";
import { gasByGravity } from "../../src/calc/gasByGravity.ts";
import { gasColumn } from "../../src/calc/gasColumn.ts";
import { InputError } from "../../src/calc/inputError.ts";
import { domePressure } from "../../src/calc/nitrogen.ts";
import { temperatureProfile } from "../../src/calc/temperatureProfile.ts";
import {
  type AbsolutePa,
  absolutePa,
  fromDegF,
  fromFeetVertical,
  fromPsia,
  type Kelvin,
  M_PER_FT,
  PA_PER_PSI,
} from "../../src/calc/units.ts";
import {
  type Fitted,
  type FittedMandrel,
  type Unloading,
  type UnloadingPlan,
  unloading,
} from "../../src/calc/unloading.ts";
import { TEST_RACK_TEMPERATURE, type ValveKind } from "../../src/calc/valve.ts";

const psiPerFoot = (gradient: number) => (gradient * PA_PER_PSI) / M_PER_FT;
const psi = (pascal: number) => Math.round((pascal / PA_PER_PSI) * 100) / 100;
const flat = (temperature: Kelvin) =>
  temperatureProfile([
    { depth: fromFeetVertical(0), temperature },
    { depth: fromFeetVertical(10_000), temperature },
  ]);

/**
 * A gas that weighs next to nothing, at the test rack's temperature all the way: a casing pressure is the same at
 * every depth and a dome keeps its charge, so that everything below can be worked by hand. 1e-7 kg/mol puts
 * 0.001 psi on 1,000 in 4,000 ft; figures are compared to 0.01 psi.
 */
const weightless: Gas = {
  method: { name: "almost weightless", formula: "", source: "this test", validity: [] },
  molarMass: 1e-7,
  z: () => 1,
  warningsAt: () => [],
};
const plan: UnloadingPlan = {
  kickOff: fromPsia(1000),
  operating: fromPsia(820),
  wellhead: fromPsia(100),
  loadGradient: psiPerFoot(0.5),
  liftedGradient: psiPerFoot(0.1),
  gas: weightless,
  temperatures: flat(TEST_RACK_TEMPERATURE),
};

const bellows = (
  dome: number,
  areaRatio = 0.2,
  kind: ValveKind = "injection-operated",
): Fitted => ({
  kind: "bellows",
  body: { kind, areaRatio, springPressure: 0 },
  dome60: fromPsia(dome),
});
/** Closes where the charged one of that pressure does, with 20 psia in its dome: Pd + Ps (1 - R), R 0.2. */
const sprung = (closing: number): Fitted => ({
  kind: "bellows",
  body: {
    kind: "injection-operated",
    areaRatio: 0.2,
    springPressure: ((closing - 20) / 0.8) * PA_PER_PSI,
  },
  dome60: fromPsia(20),
});
const byProduction = (dome: number) => bellows(dome, 0.1, "production-operated");
const ORIFICE: Fitted = { kind: "orifice" };
const BLANK: Fitted = { kind: "blank" };

interface ValveString {
  readonly upper?: Fitted;
  readonly lower?: Fitted;
  readonly bottom?: Fitted;
  /** of the lower valve, ft */
  readonly lowerAt?: number;
}

/** Upper valve, a dummy, lower valve, orifice. */
const stringOf = ({
  upper = bellows(920),
  lower = bellows(880),
  bottom = ORIFICE,
  lowerAt = 2900,
}: ValveString = {}): FittedMandrel[] => [
  { depth: fromFeetVertical(1700), fitted: upper },
  { depth: fromFeetVertical(2300), fitted: BLANK },
  { depth: fromFeetVertical(lowerAt), fitted: lower },
  { depth: fromFeetVertical(3800), fitted: bottom },
];

const inHand = ({ steps }: Unloading) =>
  steps.map(({ mandrel, checks }) => ({
    mandrel,
    ...Object.fromEntries(checks.map((check) => [check.what, psi(check.inHand)])),
  }));
/** The checks of the first step that fails. */
const fault = ({ steps }: Unloading) => {
  const step = steps.find(({ checks }) => checks.some((check) => check.inHand < 0));
  return (
    step && {
      mandrel: step.mandrel,
      ...Object.fromEntries(
        step.checks
          .filter((check) => check.inHand < 0)
          .map((check) => [check.what, psi(check.inHand)]),
      ),
    }
  );
};

describe("a sound design, worked by hand", () => {
  const found = unloading(stringOf(), plan);

  it("reaches the orifice at the bottom", () => {
    expect(found.reachesBottom).toBe(true);
    expect(found.deepest).toBe(3);
    expect(found.warnings).toEqual([]);
  });

  it("meets these pressures on the way", () => {
    // Transfer: 100 + 0.5 x 1,700; 100 + 0.1 x 1,700 + 0.5 x 1,200; 100 + 0.1 x 2,900 + 0.5 x 900.
    // Opening: (920 - 0.2 x 950)/0.8 and (880 - 0.2 x 870)/0.8.
    expect(
      found.steps.map((step) => [
        step.mandrel,
        psi(step.transfer),
        psi(step.lifted),
        step.surfaceOpening && psi(step.surfaceOpening),
        step.surfaceClosing && psi(step.surfaceClosing),
      ]),
    ).toEqual([
      [0, 950, 270, 912.5, 920],
      [2, 870, 390, 882.5, 880],
      [3, 840, 480, undefined, undefined],
    ]);
  });

  it("has this in hand", () => {
    expect(inHand(found)).toEqual([
      // 1,000 - 950; 1,000 - 912.5
      { mandrel: 0, uncovered: 50, opens: 87.5 },
      {
        mandrel: 2,
        // the casing at 920, where the upper valve shuts: 920 - 870
        uncovered: 50,
        // the supply's 1,000, since the upper valve opens at (920 - 0.2 x 270)/0.8 = 1,082.5 only
        opens: 117.5,
        // 920 - 880
        "valve above shuts": 40,
        // 1,082.5 - 1,000: this valve would let the casing rise to (880 - 0.2 x 390)/0.8 = 1,002.5
        "valve above stays shut": 82.5,
      },
      // 880 - 840; 880 - 820; 1,002.5 - 820
      {
        mandrel: 3,
        uncovered: 40,
        "valve above shuts": 60,
        "valve above stays shut": 182.5,
      },
    ]);
  });

  it("is the same with springs in place of charges", () => {
    const springs = unloading(stringOf({ upper: sprung(920), lower: sprung(880) }), plan);
    expect(inHand(springs)).toEqual(inHand(found));
  });

  it("is the same with a blank above, between, below", () => {
    const [upper, , lower, bottom] = stringOf() as [
      FittedMandrel,
      FittedMandrel,
      FittedMandrel,
      FittedMandrel,
    ];
    const blankAt = (feet: number) => ({ depth: fromFeetVertical(feet), fitted: BLANK });
    const more = [blankAt(800), upper, lower, blankAt(3000), blankAt(3300), bottom, blankAt(4500)];
    const answer = unloading(more, plan);
    expect(answer.steps.map(({ mandrel }) => mandrel)).toEqual([1, 2, 5]);
    expect(answer.deepest).toBe(5);
    expect(answer.steps.map(({ checks }) => checks)).toEqual(
      found.steps.map(({ checks }) => checks),
    );
  });
});

describe("a fault is named at its mandrel", () => {
  interface Fault {
    readonly when: string;
    readonly string: ValveString;
    readonly change?: Partial<UnloadingPlan>;
    readonly named: Readonly<Record<string, number>>;
    readonly deepest: number | undefined;
  }
  const faults: Fault[] = [
    {
      // 950 psia of load at the first valve
      when: "the supply does not reach the first valve",
      string: {},
      change: { kickOff: fromPsia(930) },
      named: { mandrel: 0, uncovered: -20 },
      deepest: undefined,
    },
    {
      // (1,010 - 0.2 x 950)/0.8 = 1,025
      when: "the first valve is set too high",
      string: { upper: bellows(1010) },
      named: { mandrel: 0, opens: -25 },
      deepest: undefined,
    },
    {
      // 270 + 0.5 x 1,400 = 970 against the 920 at which the upper valve shuts
      when: "the second valve is too deep",
      string: { lowerAt: 3100 },
      named: { mandrel: 2, uncovered: -50 },
      deepest: 0,
    },
    {
      // the dummy's pocket left the orifice 2,100 ft below the upper valve: 270 + 1,050 = 1,320
      when: "a dummy sits where the second valve belongs",
      string: { lower: BLANK },
      named: { mandrel: 3, uncovered: -400 },
      deepest: 0,
    },
    {
      // (1,000 - 0.2 x 870)/0.8 = 1,032.5; it would not let the casing fall below 1,000 either
      when: "the second valve is set too high to open",
      string: { lower: bellows(1000) },
      named: { mandrel: 2, opens: -32.5, "valve above shuts": -80 },
      deepest: 0,
    },
    {
      when: "the second valve shuts at more than the first",
      string: { lower: bellows(930) },
      named: { mandrel: 2, "valve above shuts": -10 },
      deepest: 0,
    },
    {
      // R 0.02: with 270 in the tubing the first valve opens again at (920 - 0.02 x 270)/0.98 = 933.27
      when: "the first valve has too small a spread",
      string: { upper: bellows(920, 0.02) },
      named: { mandrel: 2, "valve above stays shut": -66.73 },
      deepest: 0,
    },
    {
      when: "the valve above bleeds the casing before the second valve opens",
      string: { upper: bellows(880, 0.02), lower: bellows(910) },
      // 880 - 870 uncovers it; it opens at (910 - 174)/0.8 = 920, the first one at (880 - 5.4)/0.98 = 892.45 already
      named: {
        mandrel: 2,
        opens: -27.55,
        "valve above shuts": -30,
        "valve above stays shut": -107.55,
      },
      deepest: 0,
    },
    {
      when: "the well is operated above what shuts the last valve",
      string: {},
      change: { operating: fromPsia(890) },
      named: { mandrel: 3, "valve above shuts": -10 },
      deepest: 2,
    },
    {
      // 480 in the tubing on lift
      when: "the well is operated below what enters the orifice",
      string: {},
      change: { operating: fromPsia(400) },
      named: { mandrel: 3, uncovered: -80 },
      deepest: 2,
    },
    {
      // an orifice leaves the casing at the operating pressure: 820 - 870. It goes on passing gas: 270 - 880.
      when: "an orifice sits in place of the first valve",
      string: { upper: ORIFICE },
      named: { mandrel: 2, uncovered: -50, "valve above shuts": -610 },
      deepest: 0,
    },
    {
      // (50 - 0.2 x 270)/0.8 = -5: the tubing alone holds it open, and the casing falls to the 270 of the tubing
      when: "the first valve has lost its charge",
      string: { upper: bellows(50) },
      named: {
        mandrel: 2,
        uncovered: -600,
        opens: -612.5,
        "valve above shuts": -830,
        "valve above stays shut": -1005,
      },
      deepest: 0,
    },
  ];

  it.each(faults)("when $when", ({ string, change, named, deepest }) => {
    const found = unloading(stringOf(string), { ...plan, ...change });
    expect(fault(found)).toEqual(named);
    expect(found.reachesBottom).toBe(false);
    expect(found.deepest).toBe(deepest);
  });
});

it("a lower valve without a charge lets the casing stand at the tubing, and the upper one stays shut", () => {
  const found = unloading(stringOf({ lower: bellows(50) }), plan);
  // 920 - 390; 1,082.5 - 390. From there the orifice is not uncovered: 390 - 840.
  expect(inHand(found)[1]).toMatchObject({
    "valve above shuts": 530,
    "valve above stays shut": 692.5,
  });
  expect(fault(found)).toMatchObject({ mandrel: 3, uncovered: -450 });
  // It opens at (50 - 0.2 x 870)/0.8 = -155 of casing: at none.
  expect(found.steps[1]?.surfaceOpening).toBe(0);
});

describe("valves that production opens", () => {
  const string = { upper: byProduction(500), lower: byProduction(500) };

  it("unload with the casing at the kick-off pressure all the way", () => {
    const found = unloading(stringOf(string), plan);
    expect(inHand(found)).toEqual([
      // 1,000 - 950; 950 - (500 - 0.1 x 1,000)/0.9
      { mandrel: 0, uncovered: 50, opens: 505.56 },
      // 1,000 - 870; 870 - 444.44; 500 - 270; 444.44 - 270
      {
        mandrel: 2,
        uncovered: 130,
        opens: 425.56,
        "valve above shuts": 230,
        "valve above stays shut": 174.44,
      },
      // 1,000 - 840; 500 - 390; (500 - 0.1 x 820)/0.9 = 464.44 less 390
      {
        mandrel: 3,
        uncovered: 160,
        "valve above shuts": 110,
        "valve above stays shut": 74.44,
      },
    ]);
    expect(found.reachesBottom).toBe(true);
    expect(found.steps.map((step) => [step.surfaceOpening, step.surfaceClosing])).toEqual([
      [undefined, undefined],
      [undefined, undefined],
      [undefined, undefined],
    ]);
  });

  it.each([
    // 870 against (1,000 - 100)/0.9
    {
      when: "one is charged too high to open",
      lower: byProduction(1000),
      mandrel: 2,
      what: "opens",
      by: -130,
    },
    // 350 against the 390 of the tubing on lift
    {
      when: "one does not shut on lift",
      lower: byProduction(350),
      mandrel: 3,
      what: "valve above shuts",
      by: -40,
    },
    // 400 would shut it, the casing on its seat opens it again at (400 - 82)/0.9 = 353.33
    {
      when: "the casing on its seat holds one open",
      lower: byProduction(400),
      mandrel: 3,
      what: "valve above stays shut",
      by: -36.67,
    },
  ])("name the mandrel when $when", ({ lower, mandrel, what, by }) => {
    const found = unloading(stringOf({ ...string, lower }), plan);
    expect(fault(found)).toMatchObject({ mandrel, [what]: by });
    expect(found.reachesBottom).toBe(false);
  });

  it("stay shut against the highest casing that an injection-operated valve below lets stand on their seats", () => {
    const found = unloading(stringOf({ upper: byProduction(500) }), plan);
    // It would let the casing rise to 1,002.5, the supply to 1,000: (500 - 0.1 x 1,000)/0.9 = 444.44 less 270.
    expect(inHand(found)[1]).toMatchObject({ "valve above stays shut": 174.44 });
    expect(found.reachesBottom).toBe(true);
  });

  it("do not draw the casing down, so that an injection-operated valve above them stays open", () => {
    const found = unloading(stringOf({ lower: byProduction(500) }), plan);
    // 920 - 1,000
    expect(fault(found)).toEqual({ mandrel: 2, "valve above shuts": -80 });
  });
});

describe("in a warm well", () => {
  const warm = { ...plan, temperatures: flat(fromDegF(160)) };
  const closings = (string: ValveString, of: UnloadingPlan) =>
    unloading(stringOf(string), of).steps.flatMap(({ surfaceClosing }) =>
      surfaceClosing === undefined ? [] : [psi(surfaceClosing)],
    );

  it("a charge rises with the nitrogen", () => {
    const dome = (psia: number) =>
      psi(domePressure(fromPsia(psia), TEST_RACK_TEMPERATURE, fromDegF(160)).pressure);
    expect(closings({}, warm)).toEqual([dome(920), dome(880)]);
  });

  it("a spring-only valve hardly moves", () => {
    // 20 psia in the dome become 20 x 619.67/519.67 = 23.85. Tolerance: z at such a pressure, 0.1 percent of that.
    const [upper, lower] = closings({ upper: sprung(920), lower: sprung(880) }, warm);
    expect(Math.abs((upper as number) - 923.85)).toBeLessThan(0.03);
    expect(Math.abs((lower as number) - 883.85)).toBeLessThan(0.03);
  });
});

describe("a design for real gas in a real well's temperature", () => {
  const gas = gasByGravity({ specificGravity: 0.65, co2: 0.01, h2s: 0, n2: 0.01 });
  const temperatures = temperatureProfile([
    { depth: fromFeetVertical(0), temperature: fromDegF(90) },
    { depth: fromFeetVertical(8000), temperature: fromDegF(190) },
  ]);
  const real: UnloadingPlan = {
    ...plan,
    gas,
    temperatures,
    operating: fromPsia(840),
    loadGradient: psiPerFoot(0.46),
  };
  /** A bellows valve that shuts at a casing pressure at surface. */
  const shutsAt = (feet: number, surface: number): FittedMandrel => {
    const depth = fromFeetVertical(feet);
    const { pressures } = gasColumn(
      fromPsia(surface),
      fromFeetVertical(0),
      [depth],
      gas,
      temperatures,
    );
    const dome = pressures[0] as AbsolutePa;
    const dome60 = domePressure(dome, temperatures.at(depth), TEST_RACK_TEMPERATURE).pressure;
    const body = { kind: "injection-operated" as const, areaRatio: 0.094, springPressure: 0 };
    return { depth, fitted: { kind: "bellows", body, dome60 } };
  };
  const surfaces = [940, 920, 900, 880];
  const mandrels = [
    ...[1900, 3400, 4500, 5300].map((feet, i) => shutsAt(feet, surfaces[i] as number)),
    { depth: fromFeetVertical(5900), fitted: ORIFICE },
  ];

  it("shuts where it was set to, and reaches the orifice", () => {
    const found = unloading(mandrels, real);
    expect(fault(found)).toBeUndefined();
    expect(found.deepest).toBe(4);
    found.steps.slice(0, 4).forEach(({ surfaceClosing }, i) => {
      // Down and up the same column by steps of 500 ft: the integration comes back within 1e-6.
      expect(
        Math.abs((surfaceClosing as number) / fromPsia(surfaces[i] as number) - 1),
      ).toBeLessThan(1e-6);
    });
  });

  it("with a set pressure that does not fall from one valve to the next stops there", () => {
    const level = [...mandrels];
    level[2] = shutsAt(4500, 921);
    const found = unloading(level, real);
    expect(fault(found)).toMatchObject({ mandrel: 2 });
    expect(found.deepest).toBe(1);
  });

  it("warns of a mandrel below the temperatures given, once", () => {
    const deep = [...mandrels.slice(0, 4), { depth: fromFeetVertical(8500), fitted: ORIFICE }];
    const kinds = unloading(deep, real).warnings.filter(
      (warning) =>
        warning.kind === "outside" && warning.validity.quantity === "true vertical depth",
    );
    expect(kinds).toHaveLength(1);
  });
});

describe("whatever the design", () => {
  const dome = fc.double({ min: 300, max: 1500, noNaN: true });
  const ratio = fc.double({ min: 0, max: 0.5, noNaN: true });
  const kind = fc.constantFrom<ValveKind>("injection-operated", "production-operated");
  const fitted = fc.oneof(
    fc.tuple(dome, ratio, kind).map((of) => bellows(...of)),
    fc.constant(ORIFICE),
    fc.constant(BLANK),
  );
  const string = fc
    .array(fc.record({ spacing: fc.double({ min: 50, max: 2500, noNaN: true }), fitted }), {
      minLength: 1,
      maxLength: 8,
    })
    .map((all) => {
      let feet = 0;
      return all.map(({ spacing, fitted: each }) => {
        feet += spacing;
        return { depth: fromFeetVertical(feet), fitted: each };
      });
    })
    .filter((all) => all.some((each) => each.fitted.kind !== "blank"));
  const uncovered = (found: Unloading) =>
    found.steps.map(({ checks }) => checks.find(({ what }) => what === "uncovered")?.inHand ?? 0);

  it("the verdict is that of its checks, and nothing above the deepest mandrel fails", () => {
    fc.assert(
      fc.property(string, (mandrels) => {
        const found = unloading(mandrels, plan);
        const sound = found.steps.map(({ checks }) =>
          checks.every(({ inHand: left }) => left >= 0),
        );
        expect(found.reachesBottom).toBe(sound.every(Boolean));
        const first = sound.indexOf(false);
        const last = first === -1 ? found.steps.at(-1) : found.steps[first - 1];
        expect(found.deepest).toBe(last?.mandrel);
        expect(found.steps.map(({ mandrel }) => mandrel)).toEqual(
          mandrels.flatMap((each, index) => (each.fitted.kind === "blank" ? [] : [index])),
        );
        for (const { checks } of found.steps) {
          for (const check of checks) expect(Number.isFinite(check.inHand)).toBe(true);
        }
      }),
    );
  });

  it("more kick-off pressure uncovers no mandrel later", () => {
    fc.assert(
      fc.property(string, fc.double({ min: 0, max: 500, noNaN: true }), (mandrels, more) => {
        const before = uncovered(unloading(mandrels, plan));
        const after = uncovered(
          unloading(mandrels, { ...plan, kickOff: absolutePa(plan.kickOff + more * PA_PER_PSI) }),
        );
        after.forEach((left, i) => {
          // The same columns are integrated: rounding of 1e7 Pa.
          expect(left).toBeGreaterThanOrEqual((before[i] as number) - 1e-3);
        });
      }),
    );
  });

  it("a mandrel set deeper has less in hand to be uncovered, by load less what the casing gains", () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 800, noNaN: true }), (deeper) => {
        const [, here] = uncovered(unloading(stringOf(), plan)) as [number, number];
        const [, there] = uncovered(unloading(stringOf({ lowerAt: 2900 + deeper }), plan)) as [
          number,
          number,
        ];
        // 0.5 psi a foot: the casing is weightless here, to 0.001 psi.
        expect(Math.abs((here - there) / PA_PER_PSI - 0.5 * deeper)).toBeLessThan(0.001);
      }),
    );
  });

  it("a heavier load liquid has less in hand everywhere", () => {
    fc.assert(
      fc.property(string, (mandrels) => {
        const light = uncovered(unloading(mandrels, plan));
        const heavy = uncovered(unloading(mandrels, { ...plan, loadGradient: psiPerFoot(0.52) }));
        heavy.forEach((left, i) => {
          expect(left).toBeLessThanOrEqual(light[i] as number);
        });
      }),
    );
  });
});

it("an only orifice is a well lifted from one point", () => {
  // 1,000 - (100 + 0.5 x 1,700); 820 - 270
  const one = [{ depth: fromFeetVertical(1700), fitted: ORIFICE }];
  expect(inHand(unloading(one, plan))).toEqual([{ mandrel: 0, uncovered: 50 }]);
});

it.each([
  ["no mandrel", [], {}, "mandrels"],
  ["nothing but blanks", [{ depth: fromFeetVertical(1700), fitted: BLANK }], {}, "mandrels"],
  ["mandrels from the bottom up", stringOf().reverse(), {}, "mandrels[1].depth"],
  ["two mandrels at one depth", stringOf({ lowerAt: 2300 }), {}, "mandrels[2].depth"],
  [
    "a mandrel at the surface",
    [{ depth: fromFeetVertical(0), fitted: ORIFICE }],
    {},
    "mandrels[0].depth",
  ],
  [
    "a mandrel at no depth",
    [{ depth: fromFeetVertical(Number.NaN), fitted: ORIFICE }],
    {},
    "mandrels[0].depth",
  ],
  ["a load without weight", stringOf(), { loadGradient: 0 }, "load_gradient"],
  ["a lifted column lighter than nothing", stringOf(), { liftedGradient: -1 }, "lifted_gradient"],
  ["no pressure at the wellhead", stringOf(), { wellhead: absolutePa(0) }, "wellhead_pressure"],
  ["no kick-off pressure", stringOf(), { kickOff: absolutePa(0) }, "kick_off_pressure"],
  [
    "an operating pressure above the supply's",
    stringOf(),
    { operating: fromPsia(1001) },
    "operating_pressure",
  ],
  [
    "an operating pressure that is not a number",
    stringOf(),
    { operating: absolutePa(Number.NaN) },
    "operating_pressure",
  ],
  ["a valve without a charge", stringOf({ upper: bellows(0) }), {}, "pressure"],
  ["a seat as large as the bellows", stringOf({ upper: bellows(920, 1) }), {}, "area_ratio"],
] as const)("unloading refuses %s", (_, mandrels, change, key) => {
  const act = () => unloading(mandrels, { ...plan, ...change });
  expect(act).toThrow(InputError);
  expect(act).toThrow(key);
});
