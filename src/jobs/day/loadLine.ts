/** The parts of the load-out list, in the order a truck is loaded by it. */
export const loadGroups = {
  tools: "Tools of the strings",
  valves: "Valves",
  pins: "Shear pins",
  pressure: "Pressure equipment",
  line: "Line",
  seals: "Gaskets and O-rings",
  spares: "Spares and fishing",
  chemicals: "Chemicals",
  extras: "Added by hand",
} as const;
export type LoadGroup = keyof typeof loadGroups;

/** One thing that goes on the truck. */
export interface LoadLine {
  /** The same as long as it is the same thing: a tick is held by it. */
  readonly key: string;
  readonly group: LoadGroup;
  readonly count: number;
  readonly what: string;
  /** figures and marks by which it is found: in the units they were entered in */
  readonly detail?: string;
  /** wells it is for */
  readonly wells: readonly string[];
  /** Taken along because crews do, not because a record asks for it. */
  readonly practice?: true;
  /** why it is on the list, where the list alone does not say */
  readonly why?: string;
  /** what somebody has to look at before it is loaded */
  readonly ask?: string;
}

/** What the record's texts take. */
const LONGEST = 400;

/** A key out of its parts, short enough for the record; of long names the ends are told apart by a number. */
export function keyOf(
  group: LoadGroup,
  ...parts: readonly (string | number | undefined)[]
): string {
  const whole = [group, ...parts.map((part) => String(part ?? "").trim())].join(": ");
  if (whole.length <= LONGEST) return whole;
  let sum = 0;
  for (const sign of whole) sum = (Math.imul(sum, 31) + (sign.codePointAt(0) ?? 0)) >>> 0;
  return `${whole.slice(0, LONGEST - 12)} ${sum}`;
}

/** A line as somebody read it who ticked it. The wells are not in it: a further well changes nothing on the truck. */
export function reads({ count, what, detail }: LoadLine): string {
  return `${count} × ${what}${detail ? `, ${detail}` : ""}`.slice(0, LONGEST).trim();
}

/** Lines that are the same thing become one, for all their wells. */
export function together(
  lines: readonly LoadLine[],
  count: (one: number, other: number) => number,
): LoadLine[] {
  const merged = new Map<string, LoadLine>();
  for (const line of lines) {
    const before = merged.get(line.key);
    merged.set(line.key, before ? joined(before, line, count) : line);
  }
  return [...merged.values()];
}

function joined(
  one: LoadLine,
  other: LoadLine,
  count: (one: number, other: number) => number,
): LoadLine {
  const ask = distinct([one.ask, other.ask]);
  const why = distinct([one.why, other.why]);
  return {
    ...one,
    count: count(one.count, other.count),
    wells: [...new Set([...one.wells, ...other.wells])],
    ...(ask && { ask }),
    ...(why && { why }),
  };
}

const distinct = (all: readonly (string | undefined)[]) =>
  [...new Set(all.filter((each) => each !== undefined))].join(" ") || undefined;

export const sum = (one: number, other: number) => one + other;
/** Shared: it is there once for whoever uses it. */
export const once = (one: number, other: number) => Math.max(one, other);
