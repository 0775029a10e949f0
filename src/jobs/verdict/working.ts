import { gasColumnMethod } from "../../calc/gasColumn.ts";
import { InputError } from "../../calc/inputError.ts";
import type { Method, Warning } from "../../calc/method.ts";
import type { Writer } from "../display.ts";
import { surfaceGauges } from "../programme.ts";
import type { Dimension } from "../quantity.ts";
import { mandrelResultId } from "../results/atMandrel.ts";
import {
  type AnyResultId,
  from,
  type Given,
  type MandrelFigure,
  type Traced,
  trace,
  type VerdictFigure,
  type VerdictResultId,
} from "../results/traced.ts";
import { isBellows } from "../results/valveGivens.ts";
import { isByProduction, lowestToPass } from "./check.ts";
import { COLUMN_SHARE, RATE_SHARE, VALVE_AT_LEAST } from "./doubts.ts";
import type { Between, Ends, MandrelNow, WellAtWork } from "./mandrelNow.ts";
import type { Verdict } from "./verdict.ts";

/** How a verdict comes from its figures: what each valve does, with the doubt, and what gas goes in by that. */

/** In the order in which they are worked out. */
export const verdictFigures = [
  "over-production",
  "over-opening",
  "passes-from-at-surface",
  "opens-at-surface",
  "gas-least",
  "gas-most",
] as const satisfies readonly VerdictFigure[];

export interface VerdictWorking {
  /** every figure that the verdict goes by, those of its mandrels among them */
  readonly ids: readonly AnyResultId[];
  readonly get: (id: AnyResultId) => Traced | undefined;
}

/** @returns undefined where nothing was judged, as before pressures were read */
export function workingOf(
  { well, mandrels, gas }: Verdict,
  writer: Writer,
): VerdictWorking | undefined {
  if (!well) return undefined;
  const own = new Map<AnyResultId, Traced>();
  for (const each of mandrels) {
    for (const traced of ofMandrel({ well, each, writer })) own.set(traced.id, traced);
  }
  for (const traced of ofAll(mandrels, gas?.most, own)) own.set(traced.id, traced);
  return {
    ids: [...mandrels.flatMap((each) => figuresOf(each, well)), ...own.keys()],
    get: (id) => own.get(id) ?? well.results.get(id),
  };
}

/** What was looked up of a mandrel; of a blank one only what stands there. */
function figuresOf({ mandrel, valve, passes, gas }: MandrelNow, well: WellAtWork): AnyResultId[] {
  const bellows: MandrelFigure[] = isBellows(valve) ? ["opening", "closing", "opening-band"] : [];
  const passage: MandrelFigure[] = [
    ...(passes === "yes" || passes === "perhaps" ? (["most-gas"] as const) : []),
    ...(gas?.from?.throttled ? (["throttled-gas"] as const) : []),
  ];
  const figures: MandrelFigure[] = ["injection", "production", ...bellows, ...passage];
  return figures
    .map((figure) => mandrelResultId(figure, mandrel))
    .filter((id) => well.results.get(id) !== undefined);
}

interface At {
  readonly well: WellAtWork;
  readonly each: MandrelNow;
  readonly writer: Writer;
}

const idOf = (figure: VerdictFigure, mandrel: number): VerdictResultId =>
  `${figure} by the verdict of mandrel ${mandrel}`;

const statics = "arithmetic; Latchline's own rule, with the doubts that the verdict names";
const method = (name: string, formula: string, source = statics): Method => ({
  name,
  formula,
  source,
  validity: [],
});

const dropMethod = method(
  "What drives the gas, with its doubt",
  "pi − pp, either way good for ½ (pi+ − pi−) + ½ (pp+ − pp−); gas is driven in for sure where pi− > pp+, not at all where pi+ ≤ pp−",
);
const gateMethod = method(
  "Open or shut, with its doubt",
  "p − po, either way good for ½ (p+ − p−) + ½ (po+ − po−) + m; by the figures open from po up, shut at pc and below, in between as it was before; open for sure where p− ≥ po+ + m, shut for sure where p+ ≤ min(po−, pc−) − m",
);
const surfaceMethod = method(
  "A pressure at the mandrel brought to surface",
  "the pressure at surface from which gas at rest comes down to p, sought from that which was read: each round times p over what comes down, four rounds",
  gasColumnMethod.source,
);
const leastMethod = method(
  "Gas that passes, at least",
  `q− (1 − e), e ${RATE_SHARE}, q− the least at the ends of the doubt`,
);
const mostMethod = method(
  "Gas that passes, at most",
  `q+ (1 + e), e ${RATE_SHARE}, q+ the most at the ends of the doubt, never above that of the full port`,
);
const sumMethod = method("Gas that all pass together", "Σ q", "arithmetic");

function ofMandrel(at: At): Traced[] {
  const { each } = at;
  if (each.state.gate === "blank" || !each.ends) return [];
  const { gate, ...ends } = each.ends;
  return [
    overProduction(at, ends),
    ...(gate ? [overOpening(at, ends, gate)] : []),
    ...surfaceFigures(at),
    ...gasFigures(at),
  ];
}

/** A figure of the mandrel as what another is made from. */
const known = ({ well, each }: At, symbol: string, figure: MandrelFigure): Given => {
  const traced = well.results.get(mandrelResultId(figure, each.mandrel));
  if (!traced)
    throw new Error(`${figure} of mandrel ${each.mandrel}: judged without; this is a defect`);
  return from(symbol, traced);
};

/** One end of what a figure may be; what cannot be worked out there bounds nothing. */
const end = (
  symbol: string,
  name: string,
  si: number,
  dimension: Dimension = "pressure",
): Given => ({
  symbol,
  name,
  dimension,
  si: Number.isFinite(si) ? si : undefined,
  origin: { kind: "record", where: "worked out at the ends of δi, δp and δg" },
});

/** What lies between those ends. */
function doubtGivens({ well }: At) {
  const gauge = (symbol: string, side: string, si: number): Given => ({
    symbol,
    name: `The ${side} gauge may be off by`,
    dimension: "pressure difference",
    si,
    origin: { kind: "assumed", why: "1 percent of the usual range (from memory)" },
  });
  const { injection, production } = surfaceGauges(well.programme);
  return {
    injectionGauge: gauge("δi", injection, well.injectionDoubt),
    productionGauge: gauge("δp", production, well.wellheadDoubt),
    column: {
      symbol: "δg",
      name: "The lifted column may be off by",
      dimension: "fraction",
      si: COLUMN_SHARE,
      origin: { kind: "assumed", why: "chosen by Latchline, no source" },
    } satisfies Given,
  };
}

function bothEnds(symbol: string, name: string, { least, most }: Between) {
  return {
    least: end(`${symbol}−`, `${name}, at the lowest`, least),
    most: end(`${symbol}+`, `${name}, at the highest`, most),
  };
}

const passesInWords: Readonly<Record<MandrelNow["passes"], string>> = {
  yes: "gas passes",
  perhaps: "gas may pass",
  no: "no gas passes",
  "not known": "what passes is not known",
};

function overProduction(at: At, ends: Pick<Ends, "injection" | "production">): Traced {
  const { each, writer } = at;
  const high = bothEnds("pi", "Injection", ends.injection);
  const low = bothEnds("pp", "Production", ends.production);
  const traced = trace({
    id: idOf("over-production", each.mandrel),
    label: `Injection over production at the valve, mandrel ${each.mandrel}`,
    dimension: "pressure difference",
    method: dropMethod,
    givens: {
      injection: known(at, "pi", "injection"),
      production: known(at, "pp", "production"),
      lowInjection: high.least,
      highInjection: high.most,
      lowProduction: low.least,
      highProduction: low.most,
      ...doubtGivens(at),
    },
    work: (v) => ({ si: v.injection - v.production }),
  });
  const good = writer.write("pressure difference", each.dropDoubt);
  const says = each.state.gate === "always open" ? `; ${passesInWords[each.passes]}` : "";
  return noted(traced, `good for ${good} either way${says}`);
}

function overOpening(
  at: At,
  ends: Pick<Ends, "injection" | "production">,
  { opening, closing, margin }: NonNullable<Ends["gate"]>,
): Traced {
  const { each, writer } = at;
  const side = isByProduction(each) ? "production" : "injection";
  const acts = bothEnds("p", "What acts", ends[side]);
  const open = bothEnds("po", "Opening", opening);
  const traced = trace({
    id: idOf("over-opening", each.mandrel),
    label: `What acts on the bellows over the opening pressure, mandrel ${each.mandrel}`,
    dimension: "pressure difference",
    method: gateMethod,
    givens: {
      acting: known(at, "p", side),
      opening: known(at, "po", "opening"),
      closing: known(at, "pc", "closing"),
      lowActing: acts.least,
      highActing: acts.most,
      lowOpening: open.least,
      highOpening: open.most,
      lowClosing: end("pc−", "Closing, at the lowest", closing.least),
      margin: {
        symbol: "m",
        name: "What the valve may be off by",
        dimension: "pressure difference",
        si: margin,
        origin: {
          kind: "assumed",
          why: `the band of its opening pressure by the policy, and ${writer.write("pressure difference", VALVE_AT_LEAST)} at the least (common practice)`,
        },
      },
      ...doubtGivens(at),
    },
    work: (v) => ({ si: v.acting - v.opening }),
  });
  const good = writer.write("pressure difference", each.doubt);
  return noted(
    traced,
    `by the figures ${each.state.gate}, good for ${good} either way; ${passesInWords[each.passes]}`,
  );
}

/** Where the injection gauge stands when nothing passes any more, and when the valve opens. */
function surfaceFigures(at: At): Traced[] {
  const { well, each } = at;
  const { mandrel, valve } = each;
  const surface = (figure: VerdictFigure, label: string, wanted: Given) =>
    trace({
      id: idOf(figure, mandrel),
      label: `${label}, mandrel ${mandrel}`,
      dimension: "pressure",
      method: surfaceMethod,
      givens: {
        wanted,
        ...Object.fromEntries(
          (well.results.get(mandrelResultId("injection", mandrel))?.givens ?? []).map((given) => [
            given.symbol,
            given,
          ]),
        ),
      },
      work: ({ wanted: p }: { readonly wanted: number }) => {
        const si = well.surfaceFor(mandrel, p);
        if (si === undefined) {
          throw new InputError(
            "pressure_at_the_mandrel",
            p,
            "one that gas at rest can come down to",
          );
        }
        return { si };
      },
    });
  const passing = lowestToPass(each);
  return [
    ...(passing === undefined
      ? []
      : [
          surface(
            "passes-from-at-surface",
            "Gas passes from there up, seen at surface",
            known(at, "p", sourceOf(each, passing)),
          ),
        ]),
    ...(valve?.kind === "injection-operated" && each.opening !== undefined
      ? [surface("opens-at-surface", "Opens at, seen at surface", known(at, "p", "opening"))]
      : []),
  ];
}

/** Which of its figures the lowest pressure to pass is. */
function sourceOf({ production, opening }: MandrelNow, lowest: number): MandrelFigure {
  if (lowest === production) return "production";
  return lowest === opening ? "opening" : "closing";
}

function gasFigures(at: At): Traced[] {
  const { each } = at;
  const { mandrel, passes, gas } = each;
  if (!gas?.from || (passes !== "yes" && passes !== "perhaps")) return [];
  const { full, throttled } = gas.from;
  const isByStem = gas.by === "stem" && throttled !== undefined;
  const asItIs = known(at, "q", isByStem ? "throttled-gas" : "most-gas");
  const least = (isByStem ? throttled : full).least;
  const most = isByStem ? Math.min(full.most, throttled.most) : full.most;
  const rate = (symbol: string, name: string, si: number) => end(symbol, name, si, "gas rate");
  return [
    ...(passes === "yes" && gas.by !== "full port, an upper bound"
      ? [
          trace({
            id: idOf("gas-least", mandrel),
            label: `Gas that passes at least, mandrel ${mandrel}`,
            dimension: "gas rate",
            method: leastMethod,
            givens: { asItIs, least: rate("q−", "The least of it", least), ...doubtGivens(at) },
            work: (v) => ({ si: v.least * (1 - RATE_SHARE) }),
          }),
        ]
      : []),
    trace({
      id: idOf("gas-most", mandrel),
      label: `Gas that passes at most, mandrel ${mandrel}`,
      dimension: "gas rate",
      method: mostMethod,
      givens: { asItIs, most: rate("q+", "The most of it", most), ...doubtGivens(at) },
      work: (v) => ({ si: v.most * (1 + RATE_SHARE) }),
    }),
  ];
}

/** What the whole well may take, against which the rate that was read is held. */
function ofAll(
  mandrels: readonly MandrelNow[],
  most: number | undefined,
  own: ReadonlyMap<AnyResultId, Traced>,
): Traced[] {
  return (["gas-least", "gas-most"] as const).flatMap((figure): Traced[] => {
    const parts = mandrels.flatMap(({ mandrel }) => own.get(idOf(figure, mandrel)) ?? []);
    // Where one is not known, there is no most of all.
    if (parts.length === 0 || (figure === "gas-most" && most === undefined)) return [];
    return [
      trace({
        id: `${figure} by the verdict`,
        label: `Gas that all open valves pass, ${figure === "gas-least" ? "at least" : "at most"}`,
        dimension: "gas rate",
        method: sumMethod,
        givens: Object.fromEntries(parts.map((each) => [each.id, from("q", each)])),
        work: (v: Readonly<Record<string, number>>) => ({
          si: Object.values(v).reduce((sum, each) => sum + each, 0),
        }),
      }),
    ];
  });
}

function noted(traced: Traced, text: string): Traced {
  if (traced.outcome.state !== "known") return traced;
  const note: Warning = { kind: "note", text };
  return { ...traced, warnings: [...traced.warnings, note] };
}
