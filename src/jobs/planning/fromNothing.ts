import { M_PER_FT } from "../../calc/units.ts";
import { type CatalogTool, catalogTools } from "../catalog/catalog.ts";
import { catalogLines } from "../catalog/lines.ts";
import { TO_MEASURE } from "../catalog/sources.ts";
import { asEntered } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel } from "../programme.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Line, Stack, Tool, ToolString } from "../records/equipment.ts";
import { defaultLimits, type Policy } from "../records/policy.ts";
import type { Programme } from "../records/programme.ts";
import { fitOf } from "../stringFit.ts";
import { narrowestBore } from "./stringChoice.ts";

/**
 * Records to begin with where the office has none. Nothing in them is invented in silence: a policy says at each limit
 * where it comes from, wire and tools are generic ones of the catalog with their sources, and what belongs to a stack
 * is asked for.
 */

/** A record that can be made, with what to know of it before it is. */
export interface Made<T> {
  readonly record: T;
  /** where its figures come from, each once */
  readonly sources: readonly string[];
}

export type NewId = () => string;

export function policyToBeginWith(newId: NewId): Made<Policy> {
  const { expectedBand = {}, ...plain } = defaultLimits;
  const limits = [...Object.values(plain), ...Object.values(expectedBand)].flatMap((limit) =>
    typeof limit === "object" ? [limit.basis] : [],
  );
  const marks = ["common practice", "from memory", "chosen by Latchline"];
  const counted = marks.map(
    (mark) => [mark, limits.filter((basis) => basis.startsWith(mark)).length] as const,
  );
  return {
    record: { id: newId(), revision: 1, name: "Limits to begin with", ...defaultLimits },
    sources: counted
      .filter(([, count]) => count > 0)
      .map(([mark, count]) => `${count} of ${limits.length} limits: ${mark}`),
  };
}

/** The wire that the trade reaches for; thinner or thicker wire is one tap away. */
const USUAL_WIRE = 0.108;
export const wires = catalogLines.map(({ part }) => part.name);
export const usualWire =
  catalogLines.find(({ part }) => part.diameter.value === USUAL_WIRE)?.part.name ?? wires[0] ?? "";

export function lineToBeginWith(name: string, newId: NewId): Made<Line> | undefined {
  const found = catalogLines.find(({ part }) => part.name === name);
  if (!found) return undefined;
  const { part, sources } = found;
  return {
    record: {
      ...part,
      id: newId(),
      revision: 1,
      remarks:
        "From the catalog's generic wire. The mill's certificate counts: put its figures in.",
    },
    sources: [
      `Breaking strength ${asEntered(part.breakingStrength)}: ${sources.breakingStrength}`,
      `Weight ${asEntered(part.massPerLength)}: ${sources.massPerLength}`,
    ],
  };
}

export interface MadeStrings {
  readonly strings: readonly ToolString[];
  readonly sources: readonly string[];
  /** why one of them cannot be put together */
  readonly cannot: readonly string[];
}

export type RunPurpose = "gauge" | "pull" | "set";

/** Stems of 5 ft; fewer hang too light, more stand in no lubricator. */
const STEMS = [2, 3, 4, 5, 6] as const;
/** A kickover tool reaches the pocket only in tubing of its own size. */
const MOST_PLAY = 1.15;

/**
 * Strings from the catalog's generic parts that pass the tubing on record and match the mandrels of the plan. As much
 * stem as beats push-out where that can be worked out.
 */
export function stringsToBeginWith(
  purposes: readonly RunPurpose[],
  programme: Programme,
  newId: NewId,
): MadeStrings {
  const narrow = narrowestBore(programme);
  if (!narrow) {
    return {
      strings: [],
      sources: [],
      cannot: ["The drift of the tubing is not on the well's record: no tool can be chosen by it."],
    };
  }
  const cannot: string[] = [];
  const parts = new Map<RunPurpose, readonly CatalogTool[]>();
  for (const purpose of purposes) {
    const bottom = bottomOf(purpose, programme, narrow.bore, widestOf(parts));
    if ("cannot" in bottom) cannot.push(bottom.cannot);
    else parts.set(purpose, bottom.parts);
  }
  const made = [...parts].map(([purpose, bottom]) =>
    withStem(purpose, bottom, programme, narrow.bore, newId),
  );
  return {
    strings: made,
    sources: made.length > 0 ? [`Lengths, diameters, necks and weights ${TO_MEASURE}`] : [],
    cannot,
  };
}

const widestOf = (parts: ReadonlyMap<RunPurpose, readonly CatalogTool[]>): number =>
  Math.max(0, ...[...parts.values()].flat().map(diameter));

const diameter = ({ part }: CatalogTool) => toSI("diameter", part.outsideDiameter);

type Bottom = { readonly parts: readonly CatalogTool[] } | { readonly cannot: string };

function bottomOf(purpose: RunPurpose, programme: Programme, bore: number, widest: number): Bottom {
  if (purpose === "gauge") {
    const [gauge] = catalogTools
      .filter(({ part }) => part.kind === "gauge cutter")
      .filter((tool) => diameter(tool) < bore && diameter(tool) >= widest)
      .sort((a, b) => diameter(b) - diameter(a));
    return gauge
      ? { parts: [gauge] }
      : { cannot: "Gauge string: no gauge cutter of the catalog passes the tubing on record." };
  }
  const mandrels = pocketsOf(programme.job).flatMap(
    (pocket) => targetMandrel(focus(programme, pocket)) ?? [],
  );
  const sleeves = new Set(mandrels.map(({ orientingSleeve }) => orientingSleeve));
  const sizes = new Set(mandrels.map(({ pocket }) => pocket));
  const name = purpose === "pull" ? "Pull string" : "Set string";
  if (sleeves.has("not known")) {
    return { cannot: `${name}: not known whether the mandrel has an orienting sleeve. Ask first.` };
  }
  if (sleeves.size > 1) {
    return {
      cannot: `${name}: the mandrels differ, with and without an orienting sleeve; one tool cannot serve both.`,
    };
  }
  const [size] = sizes;
  if (sizes.size !== 1 || !size || size === "not known") {
    return { cannot: `${name}: the pockets' size is not known, or differs.` };
  }
  const wanted = sleeves.has("yes") ? "orienting" : "not orienting";
  const drift = Math.min(
    ...(programme.well?.tubing ?? []).map((joint) => toSI("diameter", joint.drift)),
  );
  const [kickover] = catalogTools
    .filter(({ part }) => part.kind === "kickover tool" && part.kickover === wanted)
    .filter((tool) => diameter(tool) < bore && drift <= diameter(tool) * MOST_PLAY)
    .sort((a, b) => diameter(b) - diameter(a));
  if (!kickover) {
    return { cannot: `${name}: the catalog has no kickover tool (${wanted}) for this tubing.` };
  }
  const kind = purpose === "pull" ? "pulling tool" : "running tool";
  const tool = catalogTools.find(
    ({ part }) => part.kind === kind && part.name.includes(` for ${size} valve`),
  );
  return tool
    ? { parts: [kickover, tool] }
    : { cannot: `${name}: the catalog has no ${kind} for ${size}.` };
}

const names: Readonly<Record<RunPurpose, string>> = {
  gauge: "Gauge string",
  pull: "Pull string",
  set: "Set string",
};

function withStem(
  purpose: RunPurpose,
  bottom: readonly CatalogTool[],
  programme: Programme,
  bore: number,
  newId: NewId,
): ToolString {
  const built = STEMS.map((stems) => stringOf(purpose, bottom, stems, bore, newId));
  const goes = built.find((string) => {
    const { pushOut, goingIn } = fitOf(string, programme);
    return pushOut.state !== "does not fit" && goingIn.state !== "does not fit";
  });
  return goes ?? (built.at(-1) as ToolString);
}

/** Below this the larger tools of the trade do not go. */
const SMALL_BORE = 1.8 * 0.0254;

function stringOf(
  purpose: RunPurpose,
  bottom: readonly CatalogTool[],
  stems: number,
  bore: number,
  newId: NewId,
): ToolString {
  const size = bore < SMALL_BORE ? "1-1/4 in" : "1-1/2 in";
  const part = (kind: Tool["kind"]) =>
    catalogTools.filter((each) => each.part.kind === kind && each.part.name.includes(` ${size}`));
  const longest = (all: readonly CatalogTool[]) =>
    all.toSorted((a, b) => toSI("length", b.part.length) - toSI("length", a.part.length))[0];
  const parts = [
    part("rope socket")[0],
    ...Array.from({ length: stems }, () => longest(part("stem"))),
    part("jars")[0],
    part("knuckle joint")[0],
    ...bottom,
  ].flatMap((each) => each ?? []);
  const [first] = bottom;
  const made = first?.part.kickover ?? (first && asEntered(first.part.outsideDiameter));
  return {
    id: newId(),
    revision: 1,
    name: `${names[purpose]}, ${made}, to measure`,
    purpose,
    tools: parts.map(({ part: figures }) => ({ ...figures, id: newId() })),
    remarks:
      "Put together from the catalog's generic parts. Measure every part before it goes in: what has no dimensions does not go in.",
  };
}

/** What is asked of a stack; everything else about it follows or stays open. */
export interface StackFigures {
  readonly name: string;
  /** of every piece but hose and gauge */
  readonly rating: Quantity<"pressure">;
  readonly hoseRating: Quantity<"pressure">;
  readonly bore: Quantity<"diameter">;
  /** in which the string may stand above the closed crown valve */
  readonly usableLength: Quantity<"length">;
  readonly certificateUntil?: string;
}

/** What cannot be meant of a stack's figures, by the figure. */
export function stackProblems(given: StackFigures): Partial<Record<keyof StackFigures, string>> {
  const problems: Partial<Record<keyof StackFigures, string>> = {};
  for (const key of ["bore", "usableLength"] as const) {
    if (given[key].value <= 0) problems[key] = "It lies above 0.";
  }
  if (toSI("length", given.usableLength) > 200 * M_PER_FT) {
    problems.usableLength = "More than 200 ft of lubricator is not rigged up. Look at the unit.";
  }
  for (const key of ["rating", "hoseRating"] as const) {
    if (given[key].value <= 0) problems[key] = "It lies above 0.";
  }
  return problems;
}

export function stackToBeginWith(given: StackFigures, newId: NewId): Stack {
  const { name, rating, hoseRating, bore, usableLength, certificateUntil } = given;
  const item = (of: Pick<Stack["items"][number], "name" | "kind">): Stack["items"][number] => ({
    id: newId(),
    rating: of.kind === "hose or gauge" ? hoseRating : rating,
    ...of,
    ...(of.kind !== "hose or gauge" && { bore }),
    ...(of.kind === "lubricator section" && { usableLength }),
    ...(certificateUntil && { certificateUntil }),
  });
  return {
    id: newId(),
    revision: 1,
    name,
    items: [
      item({ name: "Tree adapter", kind: "adapter" }),
      item({ name: "Wire valves", kind: "wire valves" }),
      item({ name: "Lubricator, all sections", kind: "lubricator section" }),
      item({ name: "Stuffing box", kind: "packing" }),
      item({ name: "Test hose and gauge", kind: "hose or gauge" }),
    ],
    remarks: "From the few figures asked when it was first planned with: look each piece up.",
  };
}
