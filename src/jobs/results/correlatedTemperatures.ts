import { type FlowingStream, flowingTemperature } from "../../calc/flowingTemperature.ts";
import { STANDARD_BASE } from "../../calc/gasPassage.ts";
import type { WellPath } from "../../calc/path.ts";
import type { TemperatureProfile } from "../../calc/temperatureProfile.ts";
import {
  type AbsolutePa,
  AIR_MOLAR_MASS,
  absolutePa,
  alongHoleM,
  GAS_CONSTANT,
} from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import type { Well } from "../records/well.ts";

interface Known<T> {
  readonly ok: boolean;
  readonly value?: T;
}

/**
 * Temperatures of the well on lift by correlation, from what flows and from the temperatures at rest.
 *
 * @returns undefined while the stream, the wellhead pressure, the path or the shut-in temperatures are not known
 */
export function correlatedTemperatures(
  well: Well | undefined,
  path: Known<WellPath>,
  shutIn: Known<TemperatureProfile>,
  atmosphere: AbsolutePa,
): TemperatureProfile | undefined {
  const { stream, onLift } = well ?? {};
  if (!stream || !onLift?.wellhead || !path.value || !shutIn.value) return undefined;
  return flowingTemperature(
    flowingStream(stream, toSI("pressure", onLift.wellhead, atmosphere)),
    shutIn.value,
    path.value,
    alongHoleM(toSI("length", stream.entersAlongHole)),
  );
}

/** What flows, as the correlation asks for it. @param wellhead absolute, Pa */
export function flowingStream(
  stream: NonNullable<Well["stream"]>,
  wellhead: number,
): FlowingStream {
  const gasGravity = stream.gasGravity.value;
  const liquid = toSI("liquid rate", stream.liquidRate) * toSI("density", stream.liquidDensity);
  const moles =
    (toSI("gas rate", stream.gasRate) * STANDARD_BASE.pressure) /
    (GAS_CONSTANT * STANDARD_BASE.temperature);
  return {
    massRate: liquid + moles * gasGravity * AIR_MOLAR_MASS,
    tubingInnerDiameter: toSI("diameter", stream.tubingInside),
    liquidDensity: toSI("density", stream.liquidDensity),
    apiGravity: stream.oilApiGravity.value,
    gasGravity,
    wellheadPressure: absolutePa(wellhead),
  };
}
