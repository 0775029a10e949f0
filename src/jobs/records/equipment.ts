import { longestJpeg, mostPhotographs } from "../photographs.ts";
import { toSI } from "../quantity.ts";
import { day, id, quantity, recordBase, text, z } from "../schema.ts";

export const pinMaterials = ["brass", "steel", "aluminium", "not known"] as const;

/** What somebody has declared of a part for gas with hydrogen sulfide. */
const sourFitness = z.enum(["declared fit", "declared not fit", "not declared"]);

/** One tool of a string, top down. */
export const tool = z.strictObject({
  id,
  name: text,
  kind: z.enum([
    "rope socket",
    "stem",
    "jars",
    "knuckle joint",
    "kickover tool",
    "pulling tool",
    "running tool",
    "gauge cutter",
    "other",
  ]),
  length: quantity("length"),
  /** In its longest state; the same as `length` when absent. */
  lengthExtended: quantity("length").optional(),
  outsideDiameter: quantity("diameter"),
  fishingNeck: quantity("diameter").optional(),
  weight: quantity("weight"),
  /** Steady pull that its weakest thread, neck or pin stands. */
  strength: quantity("force").optional(),
  /** Of jars: the blow they give at the tool, by their maker's figures for this string. */
  blow: quantity("force").optional(),
  /** Pins that let a pulling or running tool go, and which way they are jarred. */
  shear: z
    .strictObject({
      material: z.enum(pinMaterials),
      diameter: quantity("diameter"),
      count: z.number().int().min(1).max(12),
      planes: z.number().int().min(1).max(2),
      direction: z.enum(["up", "down"]),
    })
    .optional(),
  /** A kickover tool works with an orienting sleeve or without one. */
  kickover: z.enum(["orienting", "not orienting"]).optional(),
});
export type Tool = z.infer<typeof tool>;

/** A tool that the office owns, apart from any string: it is put into strings, loaded out, and looked after. */
export const ownedTool = tool.extend({
  ...recordBase,
  /** The mark on the body, by which it is found again. */
  serial: text,
  state: z.enum(["in service", "in repair", "scrapped"]),
  certificateUntil: day.optional(),
  remarks: z.string().max(4000).optional(),
});
export type OwnedTool = z.infer<typeof ownedTool>;

const photograph = z.strictObject({
  day,
  /** in base64, which begins with the three bytes that every JPEG begins with */
  jpeg: z.base64().max(longestJpeg).startsWith("/9j/", "a JPEG in base64"),
});
export type Photograph = z.infer<typeof photograph>;

export const toolString = z.strictObject({
  ...recordBase,
  name: text,
  /** A catcher string sets a catcher below the target and fetches it. */
  purpose: z.enum(["gauge", "pull", "set", "catcher"]),
  tools: z.array(tool).min(1),
  /** As it was rigged up, for whoever has to fish for it. */
  photographs: z.array(photograph).max(mostPhotographs).optional(),
  remarks: z.string().max(4000).optional(),
});
export type ToolString = z.infer<typeof toolString>;

/** Figures that every tool has, and none of them is nothing. */
export const bodyFigures = ["length", "outsideDiameter", "weight"] as const;

/** A string as it may be entered: a tool that nobody measured does not go in as one of 0. Older records stay readable. */
export const enteredString = toolString.superRefine(({ tools }, context) => {
  tools.forEach((tool, index) => {
    const refuse = (figure: string, message: string) =>
      context.addIssue({ code: "custom", message, path: ["tools", index, figure, "value"] });
    for (const figure of bodyFigures) {
      if (!(tool[figure].value > 0)) {
        refuse(
          figure,
          "has to be above 0: measure the part, what has no dimensions does not go in",
        );
      }
    }
    const { fishingNeck, lengthExtended, length } = tool;
    if (fishingNeck && !(fishingNeck.value > 0))
      refuse("fishingNeck", "has to be above 0, or empty");
    if (lengthExtended && toSI("length", lengthExtended) < toSI("length", length)) {
      refuse("lengthExtended", "is less than the length closed");
    }
  });
});

export const line = z.strictObject({
  ...recordBase,
  name: text,
  diameter: quantity("diameter"),
  massPerLength: quantity("mass per length"),
  breakingStrength: quantity("force"),
  strengthFrom: z.enum(["certificate", "from memory, unverified"]),
  ropeSocketStrength: quantity("force").optional(),
  /** Young's modulus, for stretch. */
  modulus: quantity("modulus").optional(),
  /** Smallest diameter measured along the line: worn wire is weaker by its area. */
  wornDiameter: quantity("diameter").optional(),
  /** Wire taken off after jarring and at every re-heading. */
  cutBack: z
    .array(z.strictObject({ day, length: quantity("length"), why: text.optional() }))
    .optional(),
  sour: sourFitness.optional(),
  lastCutAndTested: day.optional(),
  remarks: z.string().max(4000).optional(),
});
export type Line = z.infer<typeof line>;

/** One piece of the pressure-control stack, bottom up. */
const stackItem = z.strictObject({
  id,
  name: text,
  kind: z.enum([
    "adapter",
    "wire valves",
    "lubricator section",
    "tool catcher",
    "packing",
    "hose or gauge",
  ]),
  rating: quantity("pressure"),
  bore: quantity("diameter").optional(),
  /** Length in which the string may stand with the crown valve closed. */
  usableLength: quantity("length").optional(),
  certificateUntil: day.optional(),
  /** of its elastomers */
  sour: sourFitness.optional(),
});

export const stack = z.strictObject({
  ...recordBase,
  name: text,
  items: z.array(stackItem).min(1),
  remarks: z.string().max(4000).optional(),
});
export type Stack = z.infer<typeof stack>;
