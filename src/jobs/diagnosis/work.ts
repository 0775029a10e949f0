import type { Fault, Hypothesis } from "./ranking.ts";

/** Pockets that somebody would have to go into if this were so. Of valves that work as they are set, none. */
export function pocketsOf(fault: Fault): readonly number[] {
  if (fault.kind === "wrong depth") return [fault.mandrel, fault.other];
  return "mandrel" in fault ? [fault.mandrel] : [];
}

/** Something in the hole, not at surface and not nothing. */
export const isDownhole = ({ kind }: Fault): boolean =>
  kind !== "nothing downhole" && kind !== "supply" && kind !== "back-pressure at surface";

/** Whether two answers send a crew to the same place: into one pocket, or to the same thing at surface. */
export function asksForSameWork(one: Hypothesis, other: Hypothesis): boolean {
  if (one.id === other.id) return true;
  const pockets = pocketsOf(other.fault);
  return pocketsOf(one.fault).some((pocket) => pockets.includes(pocket));
}
