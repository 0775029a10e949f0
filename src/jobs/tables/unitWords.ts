import { type Dimension, unitsOf } from "../quantity.ts";

/**
 * What a header or a cell says of a unit: one unit; two between which somebody has to choose, as psi does between gauge
 * and absolute; or a unit that is not read here.
 */
export type UnitSaid =
  | { readonly is: "unit"; readonly unit: string }
  | { readonly is: "choice"; readonly units: readonly string[]; readonly word: string }
  | { readonly is: "foreign"; readonly word: string };

type Words = Readonly<Record<string, string>>;

const lengths: Words = {
  m: "m",
  meter: "m",
  meters: "m",
  metre: "m",
  metres: "m",
  mmd: "m",
  mtvd: "m",
  mrt: "m",
  mrkb: "m",
  mahd: "m",
  ft: "ft",
  feet: "ft",
  foot: "ft",
  "'": "ft",
  ftmd: "ft",
  ftrkb: "ft",
  ftkb: "ft",
  ftah: "ft",
  fmd: "ft",
};
const diameters: Words = {
  in: "in",
  inch: "in",
  inches: "in",
  '"': "in",
  "''": "in",
  mm: "mm",
  millimetres: "mm",
  millimeters: "mm",
};
const words: Partial<Record<Dimension, Words>> = {
  pressure: {
    psig: "psig",
    "psi(g)": "psig",
    "psi g": "psig",
    "psi gauge": "psig",
    barg: "barg",
    "bar(g)": "barg",
    "bar g": "barg",
    "bar gauge": "barg",
    kpag: "kPag",
    "kpa(g)": "kPag",
    "kpa g": "kPag",
    "kpa gauge": "kPag",
    psia: "psia",
    "psi(a)": "psia",
    "psi a": "psia",
    "psi abs": "psia",
    "psi absolute": "psia",
    bara: "bara",
    "bar(a)": "bara",
    "bar a": "bara",
    "bar abs": "bara",
    kpaa: "kPaa",
    "kpa(a)": "kPaa",
    "kpa a": "kPaa",
    "kpa abs": "kPaa",
  },
  "pressure difference": { psi: "psi", bar: "bar", kpa: "kPa" },
  length: lengths,
  diameter: diameters,
  area: {
    in2: "in2",
    "in²": "in2",
    "sq in": "in2",
    "sq. in.": "in2",
    sqin: "in2",
    "in^2": "in2",
    mm2: "mm2",
    "mm²": "mm2",
    "sq mm": "mm2",
    "mm^2": "mm2",
  },
  force: { lbf: "lbf", lbs: "lbf", lb: "lbf", n: "N", dan: "daN" },
  weight: { lb: "lb", lbs: "lb", lbm: "lb", pounds: "lb", kg: "kg", kgs: "kg" },
  temperature: {
    f: "degF",
    "°f": "degF",
    "deg f": "degF",
    fahrenheit: "degF",
    c: "degC",
    "°c": "degC",
    "deg c": "degC",
    celsius: "degC",
  },
  "gas rate": {
    mscfd: "Mscf/d",
    "mcf/d": "Mscf/d",
    mcfd: "Mscf/d",
    "mscf/day": "Mscf/d",
    "e3m3/d": "1000 Sm3/d",
    "ksm3/d": "1000 Sm3/d",
    "1000 m3/d": "1000 Sm3/d",
    "10³m³/d": "1000 Sm3/d",
  },
  angle: {
    deg: "deg",
    "°": "deg",
    degs: "deg",
    degree: "deg",
    degrees: "deg",
    dega: "deg",
    degi: "deg",
  },
};
/** Pressures that do not say from where they are counted. */
const either: Readonly<Record<string, readonly string[]>> = {
  psi: ["psig", "psia"],
  bar: ["barg", "bara"],
  bars: ["barg", "bara"],
  kpa: ["kPag", "kPaa"],
};
/** Units that lists carry and records do not: the column has to be converted, or the number would be taken for another. */
const foreign = new Set([
  "mpa",
  "mpag",
  "mpaa",
  "kg/cm2",
  "kgf/cm2",
  "atm",
  "pa",
  "cm",
  "km",
  "kn",
  "klbf",
  "kip",
  "kips",
  "kgf",
  "tonne",
  "ton",
  "tons",
  "g",
  "rad",
  "grad",
  "gon",
  "yd",
  "furlong",
  "64ths",
  "1/64",
  "1/64 in",
  "64th",
  "cm2",
  "m2",
  "ksi",
]);

const plainUnit = (text: string) =>
  text.toLowerCase().replace(/[.]+$/, "").replace(/\s+/g, " ").trim();

/** A header may say "constructor", which every object answers to. */
const own = <T>(of: Readonly<Record<string, T>> | undefined, word: string): T | undefined =>
  of && Object.hasOwn(of, word) ? of[word] : undefined;

/** A word as a unit of a dimension, or undefined when it is none that lists use. */
export function unitIn(dimension: Dimension, text: string): UnitSaid | undefined {
  const word = plainUnit(text);
  const unit =
    own(words[dimension], word) ??
    unitsOf(dimension).find((each) => each !== "" && each.toLowerCase() === word);
  if (unit) return { is: "unit", unit };
  const units = dimension === "pressure" ? own(either, word) : undefined;
  if (units) return { is: "choice", units, word: text.trim() };
  return foreign.has(word) ? { is: "foreign", word: text.trim() } : undefined;
}

/** The unit that a header says: in brackets, after a comma, or as its last word, e.g. `Depth (m)`, `MD ft`, `Ptro psig`. */
export function unitInHeader(dimension: Dimension, header: string): UnitSaid | undefined {
  // Brackets within brackets: `(psi(g))`.
  const inBrackets = [...header.matchAll(/[([{]((?:[^()[\]{}]|\([^()]*\))*)[)\]}]/g)].map(
    ([, inside = ""]) => inside,
  );
  const parts = header.split(/[\s,;:_|/]+/).filter((part) => part !== "");
  const tail = [parts.slice(-2).join(" "), parts.at(-1) ?? ""];
  const candidates = [
    ...inBrackets.flatMap((inside) => [inside, ...inside.split(/[\s,;/]+/)]),
    ...tail,
    // A group's unit stands in the middle once two rows of headers are joined.
    ...parts.slice(1, -1),
  ];
  const said = candidates.flatMap((each) => unitIn(dimension, each.replace(/^\[|\]$/g, "")) ?? []);
  return said.find(({ is }) => is === "unit") ?? said[0];
}

/** A header without what it says of units, for finding what it means. */
export const withoutBrackets = (header: string) => header.replace(/[([{][^)\]}]*[)\]}]+/g, " ");
