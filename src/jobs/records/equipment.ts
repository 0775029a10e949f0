import { day, id, quantity, recordBase, text, z } from "../schema.ts";

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
  /** A kickover tool works with an orienting sleeve or without one. */
  kickover: z.enum(["orienting", "not orienting"]).optional(),
});
export type Tool = z.infer<typeof tool>;

export const toolString = z.strictObject({
  ...recordBase,
  name: text,
  purpose: z.enum(["gauge", "pull", "set"]),
  tools: z.array(tool).min(1),
  remarks: z.string().max(4000).optional(),
});
export type ToolString = z.infer<typeof toolString>;

export const line = z.strictObject({
  ...recordBase,
  name: text,
  diameter: quantity("diameter"),
  massPerLength: quantity("mass per length"),
  breakingStrength: quantity("force"),
  strengthFrom: z.enum(["certificate", "from memory, unverified"]),
  ropeSocketStrength: quantity("force").optional(),
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
});

export const stack = z.strictObject({
  ...recordBase,
  name: text,
  items: z.array(stackItem).min(1),
  remarks: z.string().max(4000).optional(),
});
export type Stack = z.infer<typeof stack>;
