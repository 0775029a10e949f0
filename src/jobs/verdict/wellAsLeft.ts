import { pocketsOf } from "../pockets.ts";
import { fromSI } from "../quantity.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import { type Scenario, siteAtmosphere } from "../results/context.ts";
import type { Measured } from "../results/measurements.ts";
import type { JobState } from "../state/jobState.ts";
import { measurementsOf } from "../state/measurementsOf.ts";
import { pocketHolds, valvesOf, wellNow } from "../state/pocketAtWork.ts";

/** The programme's well with what sits in its pockets now, each valve by its card as it was read on location. */
export function wellAsLeft(state: JobState): Programme | undefined {
  const { programme } = state;
  if (!programme?.well) return programme;
  const read = readCards(state, programme);
  const atmosphere = siteAtmosphere(programme);
  const installed = valvesOf(programme).map((valve) => asRead(valve, read.get(valve), atmosphere));
  return { ...programme, well: wellNow(programme.well, state), installed };
}

/** By whom and when the cards were read that the well as left goes by. */
export function cardsRead(state: JobState): Scenario["cards"] {
  const { programme } = state;
  if (!programme) return {};
  return Object.fromEntries(
    [...readCards(state, programme)].map(([{ id }, { at, by }]) => [id, { at, by }]),
  );
}

/** What was read on location of the cards of valves that were set. */
function readCards(state: JobState, programme: Programme): Map<Valve, Measured> {
  const well = programme.well && wellNow(programme.well, state);
  const atmosphere = siteAtmosphere(programme);
  const found = new Map<Valve, Measured>();
  for (const valve of valvesOf(programme)) {
    const pocket = pocketsOf(programme.job).find(
      (each) =>
        pocketHolds(state, each) === "replacement" &&
        well?.mandrels.some((mandrel) => mandrel.id === each && mandrel.valve === valve.id),
    );
    if (pocket === undefined || !valve.card) continue;
    const read = measurementsOf(state, atmosphere, pocket)["card set pressure"];
    if (read) found.set(valve, read);
  }
  return found;
}

function asRead(valve: Valve, read: Measured | undefined, atmosphere: number): Valve {
  if (!read || !valve.card) return valve;
  // A card's gauge counts from the air in the shop: the figure on it is the same wherever it is read.
  const value = fromSI("pressure", read.si, "psig", atmosphere);
  return { ...valve, card: { ...valve.card, testRackOpening60F: { value, unit: "psig" } } };
}
