import { impossible, type Quantity } from "../quantity.ts";
import type { Well } from "../records/well.ts";
import { child, type Element, textAt } from "./xmlTree.ts";

/**
 * What the elements of a survey are called in a version of WITSML, Energistics' open standard for well data.
 *
 * Names, kinds of station and units are the standard's: trajectory and trajectoryStation of the data schema 1.4.1.1
 * (namespace http://www.witsml.org/schemas/1series), and Trajectory and TrajectoryStation of 2.0
 * (http://www.energistics.org/energyml/data/witsmlv2, with commonv2).
 */
export interface Version {
  readonly is: string;
  readonly version: "1.4.1.1" | "2.0";
  readonly station: string;
  readonly kind: string;
  readonly status: string;
  readonly md: string;
  readonly inclination: string;
  readonly azimuth: string;
  readonly azimuthReference: string;
  readonly well: readonly string[] | undefined;
  readonly wellbore: readonly string[];
  readonly name: readonly string[];
}

export const v1: Version = {
  is: "trajectory",
  version: "1.4.1.1",
  station: "trajectoryStation",
  kind: "typeTrajStation",
  status: "statusTrajStation",
  md: "md",
  inclination: "incl",
  azimuth: "azi",
  azimuthReference: "aziRef",
  well: ["nameWell"],
  wellbore: ["nameWellbore"],
  name: ["name"],
};

/** A trajectory of 2.0 names its wellbore; the well is named in the wellbore's own file. */
export const v2: Version = {
  is: "Trajectory",
  version: "2.0",
  station: "TrajectoryStation",
  kind: "TypeTrajStation",
  status: "StatusTrajStation",
  md: "Md",
  inclination: "Incl",
  azimuth: "Azi",
  azimuthReference: "AziRef",
  well: undefined,
  wellbore: ["Wellbore", "Title"],
  name: ["Citation", "Title"],
};

/** One survey station, as the well record keeps it. */
export type SurveyStation = Extract<
  Well["path"],
  { readonly kind: "surveyed" }
>["stations"][number];

/** A plan says where a hole was to go, not where it went. */
export type SurveyState = "survey" | "plan" | "model" | "not said";

/** In 1.4.1.1 a trajectory, and a station by itself, says whether it is measured or planned. */
export function stateOf(element: Element): SurveyState {
  const says = textAt(element, "commonData", "itemState")?.toLowerCase();
  if (says === "actual") return "survey";
  return says === "plan" || says === "model" ? says : "not said";
}

const measuredKinds = ["md incl and azi", "tie in point", "interpolated", "unknown"];
const markers = [
  "casing md",
  "casing tvd",
  "formation md",
  "formation tvd",
  "marker md",
  "marker tvd",
  "target center",
  "target offset",
];
const positions = ["n e and tvd", "ns ew and tvd"];
/** Sections of a plan: what the hole is to follow, and up to where. */
const planned = /^(azimuth on plane|buildrate |turnrate |dls( |$)|hold to |incl azi and tvd$)/;

/** Why a station is no survey station, or not to be used, by what it says of itself. */
export function whyUnused(station: Element, version: Version): string | undefined {
  const kind = textAt(station, version.kind);
  const is = kind?.toLowerCase() ?? "unknown";
  const status = textAt(station, version.status)?.toLowerCase();
  const state = stateOf(station);
  if (state === "plan" || state === "model")
    return `${state === "plan" ? "Planned" : "Modelled"}, not measured.`;
  if (planned.test(is)) return `Planned, not measured: its kind is "${kind}".`;
  if (markers.includes(is)) return `A mark on the path, no survey station: its kind is "${kind}".`;
  if (positions.includes(is))
    return `Given by its position, not by its angles: its kind is "${kind}".`;
  if (is === "md and incl")
    return "Inclination only: without an azimuth it does not say where the hole goes.";
  if (!measuredKinds.includes(is)) {
    return `Its kind, "${kind?.slice(0, 60)}", is none of the standard's.`;
  }
  // By the standard, neither has a say in where the hole below it lies.
  if (status === "rejected") return "Rejected by whoever surveyed it.";
  if (status === "open") return "Open: it has not been validated.";
  const lacking = [
    { label: "depth along hole", name: version.md },
    { label: "inclination", name: version.inclination },
    { label: "azimuth", name: version.azimuth },
  ].filter(({ name }) => textAt(station, name) === undefined);
  return lacking.length > 0 ? `No ${lacking.map(({ label }) => label).join(", no ")}.` : undefined;
}

/** A unit of the standard, and the one of ours that it becomes. */
interface UnitInto<D extends "length" | "angle"> {
  readonly unit: Quantity<D>["unit"];
  readonly times: number;
  /** in words, where the number changes */
  readonly called?: string;
}

const US_SURVEY_FOOT: UnitInto<"length"> = {
  unit: "ft",
  times: 1200 / 3937 / 0.3048,
  called: "US survey feet",
};
const lengths = new Map<string, UnitInto<"length">>([
  ["m", { unit: "m", times: 1 }],
  ["ft", { unit: "ft", times: 1 }],
  // 1.4.1.1 and 2.0 write it differently.
  ["ftUS", US_SURVEY_FOOT],
  ["ft[US]", US_SURVEY_FOOT],
]);
const angles = new Map<string, UnitInto<"angle">>([
  ["dega", { unit: "deg", times: 1 }],
  ["rad", { unit: "deg", times: 180 / Math.PI, called: "radians" }],
  ["mrad", { unit: "deg", times: 0.18 / Math.PI, called: "milliradians" }],
  ["gon", { unit: "deg", times: 0.9, called: "gons" }],
]);

type Figures =
  | { readonly station: SurveyStation; readonly converted: readonly string[] }
  | { readonly problem: string };

export function figuresOf(station: Element, version: Version): Figures {
  const depth = measureOf(station, version.md, "Depth along hole", "length", lengths);
  const inclination = measureOf(station, version.inclination, "Inclination", "angle", angles);
  const azimuth = measureOf(station, version.azimuth, "Azimuth", "angle", angles);
  const problems = [depth, inclination, azimuth].flatMap((each) =>
    "problem" in each ? [each.problem] : [],
  );
  if ("problem" in depth || "problem" in inclination || "problem" in azimuth) {
    return { problem: problems.join(" ") };
  }
  const outside = outsideRange(depth.quantity, inclination.quantity, azimuth.quantity);
  if (outside) return { problem: outside };
  return {
    station: {
      depthAlongHole: depth.quantity,
      inclination: inclination.quantity,
      azimuth: azimuth.quantity,
    },
    converted: [depth, inclination, azimuth].flatMap(({ converted }) => converted ?? []),
  };
}

function outsideRange(
  depth: Quantity<"length">,
  inclination: Quantity<"angle">,
  azimuth: Quantity<"angle">,
): string | undefined {
  if (depth.value < 0) {
    return `Depth along hole ${depth.value} ${depth.unit}: it is 0 or more.`;
  }
  const tooDeep = impossible("length", depth);
  if (tooDeep) return `Depth along hole ${depth.value} ${depth.unit}: ${tooDeep}.`;
  if (!(inclination.value >= 0 && inclination.value <= 180)) {
    return `Inclination ${inclination.value} deg: it lies between 0 and 180.`;
  }
  if (!(azimuth.value >= -180 && azimuth.value <= 360)) {
    return `Azimuth ${azimuth.value} deg: it lies between 0 and 360.`;
  }
  return undefined;
}

type Measured<D extends "length" | "angle"> =
  | { readonly quantity: Quantity<D>; readonly converted: string | undefined }
  | { readonly problem: string };

/** A number as XML Schema writes one; "NaN" and "INF" are numbers there, and none here. */
const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;

function measureOf<D extends "length" | "angle">(
  station: Element,
  name: string,
  label: string,
  dimension: D,
  units: ReadonlyMap<string, UnitInto<D>>,
): Measured<D> {
  const element = child(station, name);
  const says = element?.text ?? "";
  const uom = element?.attributes.get("uom");
  const known = [...units.keys()].join(", ");
  if (uom === undefined) return { problem: `${label}: no unit (uom). Known are ${known}.` };
  const unit = units.get(uom);
  if (!unit) {
    return {
      problem: `${label}: the unit "${uom.slice(0, 40)}" is not known. Known are ${known}.`,
    };
  }
  const value = NUMBER.test(says) ? Number(says) : Number.NaN;
  if (!Number.isFinite(value)) {
    return { problem: `${label}: "${says.slice(0, 40)}" is not a number, written as 1234.5.` };
  }
  return {
    quantity: { value: converted(value, unit.times), unit: unit.unit } as Quantity<D>,
    converted:
      unit.called &&
      `${dimension === "length" ? "Depths" : "Angles"} in ${unit.called} (${uom}) are kept in ${unit.unit}.`,
  };
}

/** To 12 digits, so that a round angle in another unit comes out round. */
const converted = (value: number, times: number) =>
  times === 1 ? value : Number((value * times).toPrecision(12));
