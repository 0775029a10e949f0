import type { Writer } from "../display.ts";
import { isBellows } from "../results/valveGivens.ts";
import type { MandrelState } from "../results/wholeWell.ts";
import type { Cell } from "./document.ts";

/** At what a valve opens or shuts; of one without a bellows no such figure is lacking. */
export function bellowsFigure(
  { valve, gate }: Pick<MandrelState, "valve" | "gate">,
  si: number | undefined,
  writer: Writer,
): Cell {
  if (si !== undefined) return { text: writer.write("pressure", si), tone: "calculated" };
  if (valve && !isBellows(valve)) return "no bellows";
  return gate === "blank" ? "no valve" : "not known";
}
