import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";

/** Where a valve is, worked out: in a pocket when a well's mandrel names it, else where its record says. */
export type ValveState = "installed" | NonNullable<Valve["state"]>;
export const valveStates: readonly ValveState[] = ["in stock", "installed", "pulled", "scrapped"];

/** A pocket that a valve sits in. */
export interface Place {
  readonly well: string;
  readonly wellName: string;
  readonly mandrel: string;
  readonly number: number;
}

/** Pockets by the id of the valve that they name; a valve in more than one is a fault of the records. */
export type Places = ReadonlyMap<string, readonly Place[]>;

/** The pockets of a well that name a valve. */
export function pocketsNaming({ id, name, mandrels }: Well): (readonly [string, Place])[] {
  return mandrels.flatMap(({ id: mandrel, number, valve }) =>
    valve === undefined ? [] : [[valve, { well: id, wellName: name, mandrel, number }] as const],
  );
}

export function placesOf(wells: readonly Well[]): Places {
  const places = new Map<string, Place[]>();
  for (const [valve, place] of wells.flatMap(pocketsNaming)) {
    places.set(valve, [...(places.get(valve) ?? []), place]);
  }
  return places;
}

export function stateOf(
  { id, state = "in stock" }: { readonly id: string; readonly state?: Valve["state"] },
  places: Places,
): ValveState {
  return places.has(id) ? "installed" : state;
}

/** A pocket as it is written in a history. */
export const pocketInWords = (well: string, mandrel: number | string) =>
  `${well}, mandrel ${mandrel}`;

const placeInWords = ({ wellName, number }: Place) => pocketInWords(wellName, number);

/** Where a valve is, in words. */
export function whereInWords(
  valve: { readonly id: string; readonly state?: Valve["state"] },
  places: Places,
): string {
  const pockets = places.get(valve.id);
  return pockets ? `in ${pockets.map(placeInWords).join(" and in ")}` : stateOf(valve, places);
}
