import { type Dimension, unitsOf } from "../quantity.ts";
import { unitIn, unitInHeader } from "../tables/unitWords.ts";

/** What the columns of a log may hold, in the words and units that recorders write. */

export type LogKind = "trend" | "survey";
export type LogRole =
  | "time"
  | "day"
  | "clock"
  | "casing"
  | "tubing"
  | "rate"
  | "depth"
  | "pressure"
  | "temperature";

export interface RoleOf {
  readonly id: LogRole;
  readonly label: string;
  readonly dimension?: Dimension;
  readonly synonyms: readonly string[];
}

const roles: Readonly<Record<LogKind, readonly RoleOf[]>> = {
  trend: [
    { id: "time", label: "Date and time", synonyms: [] },
    { id: "day", label: "Date", synonyms: [] },
    { id: "clock", label: "Time of day", synonyms: [] },
    {
      id: "casing",
      label: "Casing pressure",
      dimension: "pressure",
      synonyms: [
        "casing",
        "casing pressure",
        "casing press",
        "csg",
        "csg pressure",
        "csg press",
        "cp",
        "chp",
        "annulus",
        "annulus pressure",
        "injection pressure",
        "inj pressure",
        "inj press",
        "gas injection pressure",
        "lift gas pressure",
        "lg pressure",
      ],
    },
    {
      id: "tubing",
      label: "Tubing pressure",
      dimension: "pressure",
      synonyms: [
        "tubing",
        "tubing pressure",
        "tubing press",
        "tbg",
        "tbg pressure",
        "tbg press",
        "tp",
        "thp",
        "whp",
        "wellhead",
        "wellhead pressure",
        "tubing head pressure",
        "production pressure",
        "flowing tubing pressure",
        "ftp",
      ],
    },
    {
      id: "rate",
      label: "Injection rate",
      dimension: "gas rate",
      synonyms: [
        "rate",
        "gas rate",
        "injection rate",
        "inj rate",
        "injection gas rate",
        "lift gas rate",
        "gas lift rate",
        "gas injection rate",
        "gas",
        "qgi",
        "qg",
      ],
    },
  ],
  survey: [
    {
      id: "depth",
      label: "Depth along hole",
      dimension: "length",
      synonyms: ["depth", "md", "measured depth", "depth md", "ahd", "along hole depth", "mdrkb"],
    },
    {
      id: "pressure",
      label: "Pressure",
      dimension: "pressure",
      synonyms: ["pressure", "press", "pres", "p", "gauge pressure", "flowing pressure", "fbhp"],
    },
    {
      id: "temperature",
      label: "Temperature",
      dimension: "temperature",
      synonyms: ["temperature", "temp", "t", "gauge temperature", "flowing temperature"],
    },
  ],
};

export const rolesOf = (kind: LogKind): readonly RoleOf[] => roles[kind];
/** Units that recorders write and records do not keep: the factor into one that they keep. */
const scaled: Readonly<Record<string, { readonly unit: string; readonly factor: number }>> = {
  "MMscf/d": { unit: "Mscf/d", factor: 1000 },
  "scf/d": { unit: "Mscf/d", factor: 0.001 },
  "Sm3/d": { unit: "1000 Sm3/d", factor: 0.001 },
  MPag: { unit: "kPag", factor: 1000 },
  MPaa: { unit: "kPaa", factor: 1000 },
};
const scaledOf: Partial<Record<Dimension, readonly string[]>> = {
  "gas rate": ["MMscf/d", "scf/d", "Sm3/d"],
  pressure: ["MPag", "MPaa"],
};
const scaledWords: Readonly<Record<string, readonly string[]>> = {
  "MMscf/d": ["mmscf/d", "mmscfd", "mmcfd"],
  "scf/d": ["scf/d", "scfd"],
  "Sm3/d": ["sm3/d", "m3/d"],
  MPag: ["mpag", "mpa(g)"],
  MPaa: ["mpaa", "mpa(a)"],
};

/** The unit that a record keeps for one of a table, with its factor. */
export const keptUnit = (unit: string) =>
  Object.hasOwn(scaled, unit)
    ? (scaled[unit] as { unit: string; factor: number })
    : { unit, factor: 1 };

export const unitChoices = (dimension: Dimension): string[] => [
  ...unitsOf(dimension),
  ...(scaledOf[dimension] ?? []),
];

/** The roles that hold figures. */
export const valueRoles = (kind: LogKind) => rolesOf(kind).filter(({ dimension }) => dimension);

/** The unit that a column's name says. */
export function unitSaid(dimension: Dimension, name: string) {
  const words = name.toLowerCase().split(/[\s,;:_|[\]{}]+|(?<!mpa)\(|\)$/);
  const own = (scaledOf[dimension] ?? []).find((unit) =>
    scaledWords[unit]?.some((word) => words.includes(word)),
  );
  if (own) return { is: "unit", unit: own } as const;
  // A gas rate has a stroke in its unit, which headers otherwise part words with.
  const whole = words.map((word) => unitIn(dimension, word)).find((said) => said?.is === "unit");
  return whole ?? unitInHeader(dimension, name);
}
