import { shearForce } from "../calc/shearPins.ts";
import { catalogPartOf } from "./catalog/catalog.ts";
import { pinStrengths } from "./catalog/pinStrengths.ts";
import { asEntered, type Writer } from "./display.ts";
import { type Quantity, toSI } from "./quantity.ts";
import type { Photograph, Tool, ToolString } from "./records/equipment.ts";
import type { Job } from "./records/job.ts";
import { isLengthOpen } from "./results/stringInStack.ts";
import type { Library } from "./store/library.ts";

/** What somebody who fishes for a string has to know of each tool, and what nobody has said yet. */

/** Pins in words, and the shear strength that their force stands on. */
export interface PinsSaid {
  readonly says: string;
  readonly strengthFrom?: string;
}

/**
 * What holds a tool until it is sheared, and which way: "not known" where nobody said it. A running tool without pins
 * of its own carries those of the job.
 */
export function pinsInWords(tool: Tool, job: Job, writer: Writer): PinsSaid {
  const { kind, shear } = tool;
  const pins = shear ?? (kind === "running tool" ? job.pins : undefined);
  if (!pins) {
    return {
      says: kind === "pulling tool" || kind === "running tool" ? "not known" : "none named",
    };
  }
  const { material, count, diameter, planes } = pins;
  const batch = shear ? undefined : job.pins;
  const force = pinForce(pins, batch?.strength);
  const says = [
    `${count} of ${material === "not known" ? "a material not known" : material}`,
    diameter ? asEntered(diameter) : "diameter not known",
    planes === undefined ? "planes not known" : `${planes === 1 ? "single" : "double"} shear`,
    shear ? `jarred ${shear.direction}` : "direction not known",
    batch?.batch && `batch ${batch.batch}`,
    force && `about ${writer.write("force", force.newtons)} of steady pull`,
  ];
  return {
    says: says.filter(Boolean).join(", "),
    ...(force && { strengthFrom: force.strengthFrom }),
  };
}

type Pins = NonNullable<Tool["shear"]> | NonNullable<Job["pins"]>;

/** Steady pull that shears the pins: by the batch where it is known, else by the word for the material. */
function pinForce(
  { material, diameter, count, planes }: Pins,
  batch: Quantity<"pressure difference"> | undefined,
): { newtons: number; strengthFrom: string } | undefined {
  const byWord = material === "not known" ? undefined : pinStrengths[material];
  const strength = batch ?? byWord?.value;
  if (!diameter || planes === undefined || !strength) return undefined;
  return {
    newtons: shearForce(
      toSI("diameter", diameter),
      count,
      planes,
      toSI("pressure difference", strength),
    ),
    strengthFrom: `${asEntered(strength)}: ${batch ? "the batch's certificate" : byWord?.source}`,
  };
}

/** What is still to be found out about a tool before it goes in, in words; every tool is measured all the same. */
export function openFigures(tool: Tool, pins: PinsSaid): string[] {
  return [
    catalogPartOf(tool) && "figures of the catalog, not of this part",
    !tool.fishingNeck && "fishing neck not known",
    isLengthOpen(tool) && "length extended not known",
    pins.says.includes("not known") && "pins not known in full",
  ].filter((open) => typeof open === "string");
}

/**
 * Photographs of a string, as its record has them now: most are taken when it is rigged up, after the programme was
 * issued, and a programme carries none.
 */
export function photographsOf(string: ToolString, { strings }: Library): readonly Photograph[] {
  return strings.find(({ id }) => id === string.id)?.photographs ?? [];
}
