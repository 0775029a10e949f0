import { isBefore, parseISO } from "date-fns";
import { toSI } from "../quantity.ts";
import type { Well } from "../records/well.ts";
import { reading, uncertain } from "./uncertain.ts";

/** A state in which the sound well is on record to have run. SI, absolute. */
export interface RanAt {
  readonly of: "last found" | "planned";
  readonly injection: number;
  readonly wellhead: number;
  readonly rate: number;
  /** standard deviation of the injection pressure as a record of how the well ran */
  readonly spread: number;
  /** how often such a record is of something else */
  readonly wrong: number;
}

/**
 * How the well ran before anybody complained, from its record: as it was last found on lift before the investigation was
 * opened, and the operating pressure that it is meant to have at the planned rate.
 */
export function ranAtOf(
  { onLift, pressures, lastFound }: Well,
  atmosphere: number,
  opened: string,
): readonly RanAt[] {
  const pressure = (given: Parameters<typeof toSI<"pressure">>[1] | undefined) =>
    given && toSI("pressure", given, atmosphere);
  const rateOf = (given: Parameters<typeof toSI<"gas rate">>[1] | undefined) => {
    const rate = given && toSI("gas rate", given);
    return rate && rate > 0 ? rate : undefined;
  };
  const known: RanAt[] = [];
  const add = (
    of: RanAt["of"],
    injection: number | undefined,
    wellhead: number | undefined,
    rate: number | undefined,
    share: number,
    wrong: number,
  ) => {
    if (!injection || !wellhead || !rate || injection <= wellhead) return;
    const gauge = reading.pressure.spread + reading.pressure.share * injection;
    known.push({
      of,
      injection,
      wellhead,
      rate,
      spread: Math.hypot(gauge, share * injection),
      wrong,
    });
  };
  const planned = rateOf(onLift?.injectionRate);
  if (lastFound && isBefore(parseISO(lastFound.day), parseISO(opened))) {
    add(
      "last found",
      pressure(lastFound.injectionAtSurface),
      pressure(lastFound.wellhead),
      rateOf(lastFound.injectionRate) ?? planned,
      uncertain.dayPressure.spread,
      uncertain.foundWrong.spread,
    );
  }
  add(
    "planned",
    pressure(pressures.operatingInjectionAtSurface),
    pressure(onLift?.wellhead),
    planned,
    uncertain.planPressure.spread,
    uncertain.planWrong.spread,
  );
  return known;
}

/** Which records of the sound well are trusted, and how far, for whoever reads the ranking. */
export function ranAtInWords({ lastFound }: Well, known: readonly RanAt[]): string[] {
  if (known.length === 0) {
    return [
      "How the well ran before is not on record (injection pressure, wellhead pressure and rate together): only what is read now counts.",
    ];
  }
  const names = known.map(({ of, wrong }) => {
    const what =
      of === "last found"
        ? `as it was found on lift on ${lastFound?.day}`
        : "at its planned operating pressure, wellhead pressure and rate";
    return `${what} (taken as wrong or old in ${Math.round(100 * wrong)} of 100 wells)`;
  });
  return [`The well is taken to have run ${names.join(", and ")}, on its deepest point.`];
}
