import { InputError, requireNumber } from "./inputError.ts";
import type { Method } from "./method.ts";
import { type AlongHoleM, alongHoleM, type VerticalM, verticalM } from "./units.ts";

/** A survey station. */
export interface Station {
  readonly depth: AlongHoleM;
  /** from vertical, rad, 0 to π */
  readonly inclination: number;
  /** from north, clockwise, rad */
  readonly azimuth: number;
}

/** A point of the well path. */
export interface PathPoint extends Station {
  readonly vertical: VerticalM;
  /** from the first station, m */
  readonly north: number;
  readonly east: number;
  /** angle turned since the station before, rad */
  readonly dogleg: number;
}

export const minimumCurvatureMethod: Method = {
  name: "Minimum curvature",
  formula:
    "cos β = cos(i2 − i1) − sin i1 sin i2 (1 − cos(a2 − a1)); RF = (2/β) tan(β/2); Δv = ΔL/2 (cos i1 + cos i2) RF",
  source:
    "Sawaryn and Thorogood, SPE 84246 (2005); Taylor and Mason (1972). Along the arc by spherical interpolation",
  validity: [],
};

type Vector = readonly [north: number, east: number, down: number];

const tangent = ({ inclination, azimuth }: Station): Vector => [
  Math.sin(inclination) * Math.cos(azimuth),
  Math.sin(inclination) * Math.sin(azimuth),
  Math.cos(inclination),
];

/** Angle between two unit vectors, rad; by the half-chord, which keeps its digits for small angles. */
function angleBetween(a: Vector, b: Vector): number {
  const chord = Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
  return 2 * Math.asin(Math.min(1, chord / 2));
}

/** The point `length` metres beyond `from` on the arc that leaves it along its own direction and ends along `to`. */
function alongArc(from: PathPoint, to: Station, length: number): PathPoint {
  const t1 = tangent(from);
  const t2 = tangent(to);
  const whole = angleBetween(t1, t2);
  const share = length / (to.depth - from.depth);
  const dogleg = whole * share;
  const direction: Vector =
    whole < 1e-12
      ? t1
      : (t1.map(
          (component, i) =>
            (Math.sin(whole - dogleg) * component + Math.sin(dogleg) * (t2[i] as number)) /
            Math.sin(whole),
        ) as unknown as Vector);
  const ratio = dogleg < 1e-9 ? 1 : (2 / dogleg) * Math.tan(dogleg / 2);
  const half = (length / 2) * ratio;
  const horizontal = Math.hypot(direction[0], direction[1]);
  return {
    depth: alongHoleM(from.depth + length),
    inclination: Math.atan2(horizontal, direction[2]),
    azimuth:
      horizontal < 1e-12
        ? to.azimuth
        : (Math.atan2(direction[1], direction[0]) + 2 * Math.PI) % (2 * Math.PI),
    vertical: verticalM(from.vertical + half * (t1[2] + direction[2])),
    north: from.north + half * (t1[0] + direction[0]),
    east: from.east + half * (t1[1] + direction[1]),
    dogleg,
  };
}

export interface WellPath {
  /** [n] the stations with their positions */
  readonly points: readonly PathPoint[];
  /**
   * The path at a depth along hole: on the arc between stations, straight on beyond the last.
   * @throws InputError above the first station
   */
  at(depth: AlongHoleM): PathPoint;
}

/**
 * A well path through survey stations, by minimum curvature.
 *
 * The first station's true vertical depth is taken as its depth along hole: the well is vertical
 * above it. When inclination is 0 azimuth says nothing and does not matter.
 *
 * @param stations [n], n >= 1, depth along hole rising: { depth: m, inclination: rad, azimuth: rad }
 * @throws InputError for no station, a depth that does not rise, an inclination outside 0 to π, or two
 *         stations that point in opposite directions
 * @example wellPath([{ 3500 ft, 15°, 20° }, { 3600 ft, 25°, 45° }])  // +27.22 N, +19.45 E, +94.01 ft down
 * Source: see minimumCurvatureMethod.
 */
export function wellPath(stations: readonly Station[]): WellPath {
  const [first] = stations;
  if (!first) throw new InputError("stations", 0, "at least one station");
  const points: PathPoint[] = [];
  stations.forEach((station, index) => {
    const key = `stations[${index}]`;
    requireNumber(`${key}.depth`, station.depth, "0 or more", (d) => d >= 0);
    requireNumber(
      `${key}.inclination`,
      station.inclination,
      "between 0 and 180 degrees",
      (angle) => angle >= 0 && angle <= Math.PI,
    );
    requireNumber(`${key}.azimuth`, station.azimuth, "a finite angle");
    const before = points[index - 1];
    if (!before) {
      points.push({ ...station, vertical: verticalM(station.depth), north: 0, east: 0, dogleg: 0 });
      return;
    }
    if (station.depth <= before.depth) {
      throw new InputError(
        `${key}.depth`,
        station.depth,
        "deeper along hole than the station before it",
      );
    }
    if (angleBetween(tangent(before), tangent(station)) > Math.PI - 1e-6) {
      throw new InputError(
        key,
        "turned right round",
        "one that does not point straight back at the station before it",
      );
    }
    const point = alongArc(before, station, station.depth - before.depth);
    points.push({ ...point, inclination: station.inclination, azimuth: station.azimuth });
  });
  return {
    points,
    at(depth) {
      const firstPoint = points[0] as PathPoint;
      if (!(depth >= firstPoint.depth)) {
        throw new InputError("depth along hole", depth, "at or below the first station");
      }
      const below = points.findIndex((point) => point.depth >= depth);
      if (below === -1) {
        const last = points[points.length - 1] as PathPoint;
        const beyond = depth - last.depth;
        return alongArc(last, { ...last, depth: alongHoleM(last.depth + beyond) }, beyond);
      }
      const to = points[below] as PathPoint;
      if (to.depth === depth) return to;
      const from = points[below - 1] as PathPoint;
      return alongArc(from, to, depth - from.depth);
    },
  };
}

/**
 * How sharply the hole turns at a depth, rad/m: the whole leg's between its stations, where the curvature of
 * minimum curvature is one, and 0 beyond the last station.
 */
export function doglegSeverity({ points }: WellPath, depth: AlongHoleM): number {
  const below = points.findIndex((point) => point.depth >= depth);
  const [from, to] = [points[below - 1], points[below]];
  return from && to ? to.dogleg / (to.depth - from.depth) : 0;
}

/** A vertical well. */
export function verticalPath(): WellPath {
  return wellPath([{ depth: alongHoleM(0), inclination: 0, azimuth: 0 }]);
}
