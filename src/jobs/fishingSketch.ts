import { catalogPartOf } from "./catalog/catalog.ts";
import { asEntered, type Writer } from "./display.ts";
import type { Photograph, Tool, ToolString } from "./records/equipment.ts";
import type { Job } from "./records/job.ts";
import { isLengthOpen } from "./results/stringInStack.ts";
import { forceOf, pinsOf, strengthOf } from "./results/toolPins.ts";
import type { Library } from "./store/library.ts";

/** What somebody who fishes for a string has to know of each tool, and what nobody has said yet. */

/** Pins in words, and the shear strength that their force stands on. */
export interface PinsSaid {
  readonly says: string;
  readonly strengthFrom?: string;
  /** something of them is still to be found out */
  readonly isOpen: boolean;
}

/** What holds a tool until it is sheared, and which way: "not known" where nobody said it. */
export function pinsInWords(tool: Tool, job: Job, writer: Writer): PinsSaid {
  const pins = pinsOf(tool, job);
  if (!pins) {
    return tool.kind === "pulling tool" || tool.kind === "running tool"
      ? { says: "not known", isOpen: true }
      : { says: "none named", isOpen: false };
  }
  const { material, count, diameter, planes, direction, batch } = pins;
  const force = forceOf(pins);
  const strength = strengthOf(pins);
  const pull =
    force && spanOf(writer.parts("force", force.least), writer.write("force", force.most));
  const says = [
    `${count} of ${material === "not known" ? "a material not known" : material}`,
    diameter ? asEntered(diameter) : "diameter not known",
    planes === undefined ? "planes not known" : `${planes === 1 ? "single" : "double"} shear`,
    direction ? `jarred ${direction}` : "direction not known",
    batch && `batch ${batch}`,
    pull && `about ${pull} of steady pull`,
  ];
  return {
    says: says.filter(Boolean).join(", "),
    ...(force && strength && { strengthFrom: `${strength.inWords}: ${strength.source}` }),
    isOpen: material === "not known" || !force || !direction,
  };
}

/** "1767 to 2485 lbf", or one figure where both are written alike. */
const spanOf = (least: { readonly number: string }, most: string): string =>
  most.startsWith(`${least.number} `) ? most : `${least.number} to ${most}`;

/** What is still to be found out about a tool before it goes in, in words; every tool is measured all the same. */
export function openFigures(tool: Tool, pins: PinsSaid): string[] {
  return [
    catalogPartOf(tool) && "figures of the catalog, not of this part",
    !tool.fishingNeck && "fishing neck not known",
    isLengthOpen(tool) && "length extended not known",
    pins.isOpen && "pins not known in full",
  ].filter((open) => typeof open === "string");
}

/**
 * Photographs of a string, as its record has them now: most are taken when it is rigged up, after the programme was
 * issued, and a programme carries none.
 */
export function photographsOf(string: ToolString, { strings }: Library): readonly Photograph[] {
  return strings.find(({ id }) => id === string.id)?.photographs ?? [];
}
