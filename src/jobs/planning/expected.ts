import { gasDensity } from "../../calc/annulusFlow.ts";
import { absolutePa, verticalM } from "../../calc/units.ts";
import type { Writer } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Job } from "../records/job.ts";
import type { Programme } from "../records/programme.ts";
import { contextOf } from "../results/context.ts";
import type { Library } from "../store/library.ts";
import { jobName, lastSaid } from "./jobsBefore.ts";
import { open, type Proposed, rounded } from "./line.ts";

/** What is expected on location, until it is read there. */

type Expected = Job["expected"];

/** From an earlier job on the same well; of one on another well only what hangs on the unit and not on the well. */
function before<K extends keyof Expected>(
  key: K,
  own: Job,
  library: Library,
  sameWell: boolean,
): Proposed<NonNullable<Expected[K]>> | undefined {
  const last = lastSaid(library, own.id, ({ well, expected }) =>
    sameWell && well !== own.well ? undefined : expected[key],
  );
  return (
    last && {
      value: last.said as NonNullable<Expected[K]>,
      source: "last job",
      why: `As in ${jobName(last.job, library)}.`,
    }
  );
}

export function wellheadExpected(
  { job, well }: Programme,
  library: Library,
): Proposed<Quantity<"pressure">> {
  const last = before("wellheadPressure", job, library, true);
  if (last) return last;
  const found = well?.lastFound;
  return found
    ? {
        value: found.wellhead,
        source: "on record",
        why: `Found on lift on ${found.day}. Shut in it may stand higher: read it before rigging up.`,
      }
    : open("Nothing on record. Ask the field operator what stands at the wellhead, shut in.");
}

export const levelExpected = ({ job }: Programme, library: Library): Proposed<Quantity<"length">> =>
  before("fluidLevelAlongHole", job, library, true) ??
  open(
    "No earlier job on this well. Ask for a level by sound, or take the one of the last survey.",
  );

/** Common practice: 20 to 60 lbf each way, measured in the first 100 ft. */
const PACKING: Quantity<"force"> = { value: 40, unit: "lbf" };

export const packingExpected = (
  { job }: Programme,
  library: Library,
): Proposed<Quantity<"force">> =>
  before("packingFriction", job, library, false) ?? {
    value: PACKING,
    source: "common practice",
    why: "Common practice, 20 to 60 lbf each way; it is measured in the first 100 ft.",
  };

export const frictionExpected = (
  { job }: Programme,
  library: Library,
): Proposed<Quantity<"friction coefficient">> =>
  before("friction", job, library, true) ?? {
    value: { value: 0.2, unit: "" },
    source: "common practice",
    why: "Common practice, the middle of what is met with wire in wet tubing; the run measures it.",
  };

/** Of the gas round the string: worked out from the well's gas at the wellhead. */
export function densityExpected(
  programme: Programme,
  wellhead: Quantity<"pressure"> | undefined,
  library: Library,
  writer: Writer,
): Proposed<Quantity<"density">> {
  const { tubingGas, shutIn, flowing, atmosphere } = contextOf(programme, {});
  const profile = shutIn.ok ? shutIn : flowing;
  if (tubingGas.ok && profile.ok && wellhead) {
    const state = {
      pressure: absolutePa(toSI("pressure", wellhead, atmosphere)),
      temperature: profile.value.at(verticalM(0)),
    };
    return {
      value: rounded("density", gasDensity(tubingGas.value, state), writer.system, atmosphere),
      source: "worked out",
      why: "The well's gas at the wellhead pressure expected and the temperature there.",
    };
  }
  return (
    before("fluidDensity", programme.job, library, true) ??
    open("Needs the well's gas, a temperature at surface and the wellhead pressure; or enter it.")
  );
}
