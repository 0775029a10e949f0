import { valveToPull } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { Stack, Tool, ToolString } from "../records/equipment.ts";
import type { Programme } from "../records/programme.ts";
import { weighedAs } from "./lineChart.ts";

/** What a string asks of the stack above the closed valve, and what the stack has for it. */

/** Length of a string in its longest state, as far as it is on record, m. */
export function stringLength(string: ToolString): number {
  return string.tools.reduce(
    (sum, tool) => sum + toSI("length", tool.lengthExtended ?? tool.length),
    0,
  );
}

/** Jars are longer than they are closed: without a length extended nobody knows by how much. */
export const isLengthOpen = ({ kind, lengthExtended }: Tool): boolean =>
  kind === "jars" && !lengthExtended;

/** What keeps the longest state of a string from being known, by name. */
export const lengthsOpen = ({ tools }: ToolString): string[] =>
  tools.filter(isLengthOpen).map(({ name }) => `length of ${name}, extended`);

/** Through packing, hose and gauge no tool goes, and none stands in them. */
export const takesTools = ({ kind }: Stack["items"][number]): boolean =>
  kind !== "packing" && kind !== "hose or gauge";

/** Lengths in which a string may stand above the closed valve, bottom up, m. */
export const usableLengths = (stack: Stack | undefined): number[] =>
  (stack?.items ?? []).flatMap((item) =>
    item.usableLength && takesTools(item) ? [toSI("length", item.usableLength)] : [],
  );

/** A pull string comes out with the old valve, a set string goes in with the new one, any other with none; m. */
export function valveOn(
  { purpose }: ToolString,
  programme: Programme,
): { readonly valve: number; readonly needs: readonly string[]; readonly serial?: string } {
  if (weighedAs({ purpose }) === "gauge") return { valve: 0, needs: [] };
  const old = purpose === "pull" ? valveToPull(programme) : undefined;
  const valve = old ?? programme.replacement;
  return valve?.length
    ? { valve: toSI("length", valve.length), needs: [], serial: valve.serial }
    : { valve: 0, needs: ["length of the valve on it"] };
}
