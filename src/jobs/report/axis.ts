import { displayUnit, formatNumber, unitLabel, type Writer } from "../display.ts";
import { type Dimension, fromSI } from "../quantity.ts";
import type { Axis } from "./document.ts";

/** Marks about this far apart in number. */
const TICKS = 6;

/** An axis for a quantity in the unit that a person reads, with round ends, and how SI values lie on it. */
export function quantityAxis(
  label: string,
  dimension: Dimension,
  writer: Writer,
  values: readonly number[],
): { readonly axis: Axis; readonly shown: (si: number) => number } {
  const unit = displayUnit(writer.system, dimension);
  const shown = (si: number) => fromSI(dimension, si, unit, writer.atmosphere);
  const written = values.map(shown);
  const step = roundStep((Math.max(...written) - Math.min(...written)) / TICKS);
  const from = Math.floor(Math.min(...written) / step) * step;
  const to = Math.max(from + step, Math.ceil(Math.max(...written) / step) * step);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const ticks = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, index) => {
    const at = from + index * step;
    return { at, label: formatNumber(at, digits) };
  });
  return {
    axis: { label: unit === "" ? label : `${label}, ${unitLabel(unit)}`, from, to, ticks },
    shown,
  };
}

/** 1, 2 or 5 times a power of ten, not below what is asked for. */
function roundStep(least: number): number {
  if (!(least > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(least));
  return power * ([1, 2, 5].find((each) => each * power >= least * (1 - 1e-9)) ?? 10);
}

/** Steps between marks of a time axis, min. */
const SPANS = [5, 10, 15, 30, 60, 120, 180, 360, 720, 1440] as const;

/**
 * An axis for instants: minutes since midnight before the first, so that marks stand at whole hours.
 *
 * @param label what a mark says of its instant
 */
export function timeAxis(
  at: readonly string[],
  label: (at: string) => string,
): { readonly axis: Axis; readonly place: (at: string) => number } {
  const milliseconds = at.map((each) => Date.parse(each));
  const first = new Date(Math.min(...milliseconds));
  const midnight = new Date(first.getFullYear(), first.getMonth(), first.getDate()).getTime();
  const minutes = (each: number) => (each - midnight) / 60_000;
  const [least, most] = [minutes(Math.min(...milliseconds)), minutes(Math.max(...milliseconds))];
  const span =
    SPANS.find((each) => (most - least) / each <= 2 * TICKS) ??
    1440 * Math.ceil((most - least) / 1440 / TICKS);
  const from = Math.floor(least / span) * span;
  const to = Math.max(from + span, Math.ceil(most / span) * span);
  const ticks = Array.from({ length: Math.round((to - from) / span) + 1 }, (_, index) => {
    const place = from + index * span;
    return { at: place, label: label(new Date(midnight + place * 60_000).toISOString()) };
  });
  return {
    axis: { label: "Time", from, to, ticks },
    place: (each) => minutes(Date.parse(each)),
  };
}

/** With the largest above, as heights and pressures stand on paper; depths have the smallest there. */
export const upwards = (axis: Axis): Axis => ({ ...axis, from: axis.to, to: axis.from });
