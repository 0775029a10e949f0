import { InputError } from "../../calc/inputError.ts";
import { wellPath } from "../../calc/path.ts";
import { alongHoleM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { Well } from "../records/well.ts";
import {
  figuresOf,
  type SurveyState,
  type SurveyStation,
  stateOf,
  type Version,
  v1,
  v2,
  whyUnused,
} from "./witsmlStation.ts";
import { type Element, readXml, textAt } from "./xmlTree.ts";

/** A station that was not taken, and why. */
export interface LeftOut {
  /** as a person finds it in the file, e.g. `Station 3 ("s3")` */
  readonly station: string;
  readonly why: string;
}

/** One survey of a file. */
export interface Trajectory {
  readonly well?: string;
  readonly wellbore?: string;
  readonly name?: string;
  readonly is: SurveyState;
  /** What north the azimuths count from, in the standard's words. */
  readonly azimuthFrom?: string;
  /** depth along hole rising */
  readonly stations: readonly SurveyStation[];
  /** No survey stations, or not to be used, by what the file itself says of them. */
  readonly skipped: readonly LeftOut[];
  /** Stations that cannot be read as they stand. */
  readonly problems: readonly LeftOut[];
  /** What whoever takes the survey over should know of it. */
  readonly notes: readonly string[];
}

export type WitsmlRead =
  | {
      readonly state: "read";
      readonly version: Version["version"];
      readonly trajectories: readonly Trajectory[];
    }
  | { readonly state: "refused"; readonly why: string };

const MOST_STATIONS = 20_000;
const MOST_TRAJECTORIES = 200;

/** The deviation surveys in a WITSML file, version 1.4.1.1 or 2.0. A station that cannot be read does not take the others with it. */
export function readWitsml(bytes: Uint8Array): WitsmlRead {
  const refused = (why: string): WitsmlRead => ({ state: "refused", why });
  const root = readXml(bytes);
  if (typeof root === "string") return refused(root);
  const found = trajectoriesOf(root);
  if (typeof found === "string") return refused(found);
  const { version, elements } = found;
  if (elements.length === 0) {
    return refused(
      "The file is WITSML, and no trajectory is in it. Take the file with the survey.",
    );
  }
  const stations = elements.reduce((sum, each) => sum + stationsOf(each, version).length, 0);
  if (elements.length > MOST_TRAJECTORIES || stations > MOST_STATIONS) {
    return refused(
      `The file has ${elements.length.toLocaleString("en-US")} trajectories with ${stations.toLocaleString("en-US")} stations; ${MOST_TRAJECTORIES} and ${MOST_STATIONS.toLocaleString("en-US")} are the most. Take a file with one well's survey only.`,
    );
  }
  return {
    state: "read",
    version: version.version,
    trajectories: elements.map((each) => trajectoryOf(each, version)),
  };
}

function trajectoriesOf(root: Element): { version: Version; elements: Element[] } | string {
  const other = (says: string | undefined) =>
    `The file is WITSML ${says ? `version ${says}` : "of a version it does not say"}; 1.4.1.1 and 2.0 are read here. Write it again in one of these.`;
  if (root.name === "trajectorys") {
    const says = root.attributes.get("version");
    if (!says?.startsWith("1.4.1")) return other(says);
    return { version: v1, elements: root.children.filter(({ name }) => name === v1.is) };
  }
  if (root.name === v2.is) {
    const says = root.attributes.get("schemaVersion");
    // Written as 2.0, 2.0.0 or with the standard's name ahead of it.
    if (!says || !/(^|\s)2\.0(\.0)*$/.test(says)) return other(says);
    return { version: v2, elements: [root] };
  }
  return `The file holds "${root.name.slice(0, 60)}", no survey. In WITSML 1.4.1.1 it begins with "trajectorys", in 2.0 with "Trajectory". Take the file with the survey.`;
}

const stationsOf = (trajectory: Element, version: Version) =>
  trajectory.children.filter(({ name }) => name === version.station);

function trajectoryOf(element: Element, version: Version): Trajectory {
  const read: Placed[] = [];
  const skipped: LeftOut[] = [];
  const problems: LeftOut[] = [];
  const converted = new Set<string>();
  let interpolated = 0;
  stationsOf(element, version).forEach((given, index) => {
    const uid = given.attributes.get("uid");
    const station = `Station ${index + 1}${uid ? ` ("${uid.slice(0, 40)}")` : ""}`;
    const unused = whyUnused(given, version);
    if (unused) {
      skipped.push({ station, why: unused });
      return;
    }
    const figures = figuresOf(given, version);
    if ("problem" in figures) {
      problems.push({ station, why: figures.problem });
      return;
    }
    if (textAt(given, version.kind)?.toLowerCase() === "interpolated") interpolated++;
    for (const unit of figures.converted) converted.add(unit);
    read.push({ station, figures: figures.station });
  });
  const { stations, again, sorted } = inOrder(read);
  const said = {
    well: version.well && textAt(element, ...version.well),
    wellbore: textAt(element, ...version.wellbore),
    name: textAt(element, ...version.name),
    azimuthFrom: textAt(element, version.azimuthReference),
  };
  return {
    ...Object.fromEntries(
      Object.entries(said).flatMap(([key, words]) => (words ? [[key, words.slice(0, 400)]] : [])),
    ),
    is: stateOf(element),
    stations: stations.map(({ figures }) => figures),
    skipped: [...skipped, ...again.filter(({ same }) => same)].map(leftOut),
    problems: [...problems, ...again.filter(({ same }) => !same)].map(leftOut),
    notes: notesOf(stations, { converted, interpolated, sorted }),
  };
}

interface Placed {
  readonly station: string;
  readonly figures: SurveyStation;
}

const leftOut = ({ station, why }: LeftOut): LeftOut => ({ station, why });

const depthOf = ({ figures }: Placed) => toSI("length", figures.depthAlongHole);

/** Stations by rising depth. Of two at one depth the first in the file stays; the other is named with why. */
function inOrder(read: readonly Placed[]) {
  const rising = [...read].sort((a, b) => depthOf(a) - depthOf(b));
  const stations: Placed[] = [];
  const again: (LeftOut & { readonly same: boolean })[] = [];
  for (const placed of rising) {
    const before = stations.at(-1);
    if (!before || depthOf(placed) - depthOf(before) > SAME_DEPTH) {
      stations.push(placed);
      continue;
    }
    const { depthAlongHole, inclination, azimuth } = placed.figures;
    const same =
      inclination.value === before.figures.inclination.value &&
      azimuth.value === before.figures.azimuth.value;
    const at = `${depthAlongHole.value} ${depthAlongHole.unit}`;
    again.push({
      station: placed.station,
      same,
      why: same
        ? `The same as ${before.station} at ${at}.`
        : `${before.station} stands at ${at} already, with ${before.figures.inclination.value} deg from ${before.figures.azimuth.value} deg; this one has ${inclination.value} deg from ${azimuth.value} deg. Take the wrong one out of the file.`,
    });
  }
  return { stations, again, sorted: rising.some((placed, index) => placed !== read[index]) };
}

/** m; two stations nearer than this are one depth, written in two units or twice rounded. */
const SAME_DEPTH = 0.001;

function notesOf(
  stations: readonly Placed[],
  found: { converted: ReadonlySet<string>; interpolated: number; sorted: boolean },
): string[] {
  const [first] = stations;
  const notes = [...found.converted];
  if (found.sorted) notes.push("The stations were not in order of depth; they are now.");
  if (found.interpolated > 0) {
    notes.push(`Interpolated between others, not measured: ${found.interpolated} of the stations.`);
  }
  if (first && depthOf(first) > 0) {
    const { value, unit } = first.figures.depthAlongHole;
    notes.push(`The first station is at ${value} ${unit}: the hole above it is taken as vertical.`);
  }
  if (first) {
    notes.push("Depths count from the survey's own reference. Compare it with the well's.");
  }
  return notes;
}

export type PathFound =
  | { readonly state: "path"; readonly path: Well["path"] }
  | { readonly state: "refused"; readonly why: string };

/**
 * A survey as the path of a well's record. Stations that were left out are not in it: show them beside it.
 *
 * Refused for a plan, and for stations that no path goes through.
 */
export function pathOf({ is, stations }: Trajectory): PathFound {
  const refused = (why: string): PathFound => ({ state: "refused", why });
  if (is === "plan" || is === "model") {
    return refused(
      `The file calls this a ${is}: where the hole was to go, not where it went. Take the survey that was measured.`,
    );
  }
  if (stations.length === 0) return refused("No station of the survey could be read.");
  try {
    wellPath(
      stations.map(({ depthAlongHole, inclination, azimuth }) => ({
        depth: alongHoleM(toSI("length", depthAlongHole)),
        inclination: toSI("angle", inclination),
        azimuth: toSI("angle", azimuth),
      })),
    );
  } catch (error) {
    if (error instanceof InputError)
      return refused(`No path goes through the stations: ${error.message}.`);
    throw error;
  }
  return { state: "path", path: { kind: "surveyed", stations: [...stations] } };
}
