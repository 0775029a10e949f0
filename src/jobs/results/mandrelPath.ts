import { doglegSeverity } from "../../calc/path.ts";
import { alongHoleM } from "../../calc/units.ts";
import { toSI } from "../quantity.ts";
import { type Context, part } from "./context.ts";

/** Where a mandrel lies in the hole, SI. */
export interface MandrelPlace {
  readonly number: number;
  readonly alongHole: number;
  /** undefined where the path is not known there */
  readonly place:
    | { readonly vertical: number; readonly inclination: number; readonly dogleg: number }
    | undefined;
}

/** Every mandrel on the path, from the top down: a sharp turn beside one is where a string hangs up. */
export function mandrelPlaces({ programme, path }: Context): MandrelPlace[] {
  return (programme.well?.mandrels ?? [])
    .map(({ number, depthAlongHole }) => {
      const alongHole = toSI("length", depthAlongHole);
      const found = part("place", () => {
        if (!path.ok) return undefined;
        const { vertical, inclination } = path.value.at(alongHoleM(alongHole));
        return { vertical, inclination, dogleg: doglegSeverity(path.value, alongHoleM(alongHole)) };
      });
      return { number, alongHole, place: found.ok ? found.value : undefined };
    })
    .sort((a, b) => a.alongHole - b.alongHole);
}
