import { pocketsOf } from "../pockets.ts";
import { fromSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import { siteAtmosphere } from "../results/context.ts";
import type { JobState } from "../state/jobState.ts";
import { measurementsOf } from "../state/measurementsOf.ts";
import { pocketHolds, valvesOf, wellNow } from "../state/pocketAtWork.ts";

/** The programme's well with what sits in its pockets now, each valve by its card as it was read on location. */
export function wellAsLeft(state: JobState): Programme | undefined {
  const { programme } = state;
  if (!programme?.well) return programme;
  const well = wellNow(programme.well, state);
  const installed = valvesOf(programme).map((valve) => {
    const pocket = pocketsOf(programme.job).find(
      (each) =>
        pocketHolds(state, each) === "replacement" &&
        well.mandrels.some((mandrel) => mandrel.id === each && mandrel.valve === valve.id),
    );
    return pocket === undefined ? valve : asRead(valve, state, pocket);
  });
  return { ...programme, well, installed };
}

function asRead(valve: Valve, state: JobState, pocket: string): Valve {
  const atmosphere = state.programme ? siteAtmosphere(state.programme) : 0;
  const read = measurementsOf(state, atmosphere, pocket)["card set pressure"];
  if (!read || !valve.card) return valve;
  // A card's gauge counts from the air in the shop: the figure on it is the same wherever it is read.
  const value = fromSI("pressure", read.si, "psig", atmosphere);
  return { ...valve, card: { ...valve.card, testRackOpening60F: { value, unit: "psig" } } };
}
