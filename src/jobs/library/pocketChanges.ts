import type { Well } from "../records/well.ts";
import type { Entry } from "./entry.ts";
import { type Places, pocketInWords } from "./places.ts";

/** What a well's record, as it is to be kept, does to where valves are. */

type Pockets = Pick<Well, "id" | "mandrels">;

/**
 * Valves that a pocket of the well names and another pocket as well, by the path of the field that names them. What
 * stood so in the records before is named in the library and does not keep anybody from saving.
 */
export function inOtherPockets({ id, mandrels }: Pockets, places: Places): Record<string, string> {
  const problems: Record<string, string> = {};
  mandrels.forEach(({ id: mandrel, number, valve }, index) => {
    if (valve === undefined) return;
    const known = places.get(valve) ?? [];
    if (known.some((each) => each.well === id && each.mandrel === mandrel)) return;
    const elsewhere = known.find(({ well }) => well !== id);
    const twice = mandrels.find((each) => each.valve === valve && each.number !== number);
    const where = elsewhere
      ? pocketInWords(elsewhere.wellName, elsewhere.number)
      : twice && `mandrel ${twice.number} of this well`;
    if (where !== undefined) {
      problems[`mandrels.${index}.valve`] =
        `Mandrel ${number}: this valve sits in ${where}. Take it out there first, or choose another.`;
    }
  });
  return problems;
}

/** Serials that the well's pockets name no longer and no other does, of valves that count as in stock from then on. */
export function outOfPockets(
  { id, mandrels }: Pockets,
  places: Places,
  valves: readonly Entry[],
): string[] {
  const kept = new Set(mandrels.map(({ valve }) => valve));
  return valves.flatMap((valve) => {
    const known = places.get(valve.id) ?? [];
    const isOut = known.length > 0 && known.every(({ well }) => well === id) && !kept.has(valve.id);
    const isInStock = (valve.state ?? "in stock") === "in stock";
    return isOut && isInStock ? [valve.name] : [];
  });
}
