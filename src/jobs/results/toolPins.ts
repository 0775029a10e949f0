import { shearForce } from "../../calc/shearPins.ts";
import { type PinMaterial, pinStrengths } from "../catalog/pinStrengths.ts";
import { asEntered } from "../display.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Tool } from "../records/equipment.ts";
import type { Job } from "../records/job.ts";

/** What holds a running or pulling tool until it is sheared: one account of it, whoever asks. */
export interface ToolPins {
  readonly material: PinMaterial | "not known";
  readonly count: number;
  readonly diameter: Quantity<"diameter"> | undefined;
  /** 1 single, 2 double shear */
  readonly planes: number | undefined;
  readonly direction: "up" | "down" | undefined;
  readonly batch: string | undefined;
  /** of the batch, by its certificate */
  readonly strength: Quantity<"pressure difference"> | undefined;
}

/**
 * The pins of a tool. A running tool carries those that the job names, which the crew witnesses, whatever its own
 * record says; that record still says what belongs to the tool and the job leaves open.
 */
export function pinsOf(tool: Tool | undefined, { pins }: Job): ToolPins | undefined {
  const own = tool?.shear;
  const named = !tool || tool.kind === "running tool" ? pins : undefined;
  const from = named ?? own;
  if (!from) return undefined;
  return {
    material: from.material,
    count: from.count,
    diameter: from.diameter ?? own?.diameter,
    planes: from.planes ?? own?.planes,
    direction: own?.direction,
    batch: named?.batch,
    strength: named?.strength,
  };
}

/** Shear strength between which the pins are, and who says so. */
export interface PinStrength {
  /** Pa */
  readonly least: number;
  readonly most: number;
  readonly inWords: string;
  readonly source: string;
  /** by the word for the material, not by the batch */
  readonly isAssumed: boolean;
}

/** A word for a material is no strength: the batch's certificate counts, and without it all that the word may mean. */
export function strengthOf({ material, strength }: ToolPins): PinStrength | undefined {
  const si = (quantity: Quantity<"pressure difference">) => toSI("pressure difference", quantity);
  if (strength) {
    return {
      least: si(strength),
      most: si(strength),
      inWords: asEntered(strength),
      source: "the batch's certificate",
      isAssumed: false,
    };
  }
  if (material === "not known") return undefined;
  const { least, most, source } = pinStrengths[material];
  return {
    least: si(least),
    most: si(most),
    inWords:
      least.value === most.value
        ? asEntered(least)
        : `${least.value} to ${most.value} ${most.unit}`,
    source,
    isAssumed: true,
  };
}

/** Steady pull that shears the pins, N; undefined where something of it is not known. */
export function forceOf(
  pins: ToolPins,
): { readonly least: number; readonly most: number } | undefined {
  const { diameter, planes, count } = pins;
  const strength = strengthOf(pins);
  if (!diameter || planes === undefined || !strength) return undefined;
  const by = (pascal: number) => shearForce(toSI("diameter", diameter), count, planes, pascal);
  return { least: by(strength.least), most: by(strength.most) };
}

/** Two diameters typed in inches and millimetres may differ in their last digits, m. */
const MICRON = 1e-6;

/** What the job and the running tool's own record say differently of its pins, in words. */
export function pinsDisagree({ shear }: Tool, { pins }: Job): string[] {
  if (!shear || !pins) return [];
  const differs = [
    shear.material !== pins.material &&
      shear.material !== "not known" &&
      pins.material !== "not known" &&
      `${pins.material} by the job, ${shear.material} by the tool's record`,
    shear.count !== pins.count && `${pins.count} by the job, ${shear.count} by the tool's record`,
    pins.diameter &&
      Math.abs(toSI("diameter", pins.diameter) - toSI("diameter", shear.diameter)) > MICRON &&
      `${asEntered(pins.diameter)} by the job, ${asEntered(shear.diameter)} by the tool's record`,
    pins.planes !== undefined &&
      shear.planes !== pins.planes &&
      `${pins.planes} planes by the job, ${shear.planes} by the tool's record`,
  ];
  return differs.filter((each) => typeof each === "string");
}
