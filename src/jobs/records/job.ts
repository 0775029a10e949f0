import { day, id, quantity, recordBase, text, z } from "../schema.ts";
import { works } from "../sheet/changeOut/options.ts";
import { step } from "../sheet/sheet.ts";

/** Shear pins that the programme asks for. */
const pins = z.strictObject({
  material: z.enum(["brass", "steel", "aluminium", "not known"]),
  diameter: quantity("diameter").optional(),
  /** 1 single, 2 double shear */
  planes: z.number().int().min(1).max(2).optional(),
  /** Of the batch, by its certificate. */
  strength: quantity("pressure difference").optional(),
  count: z.number().int().min(1).max(12),
  batch: text.optional(),
});

/** What the planner changed of the sheet for this one job. Steps and places are named by their ids. */
const sheetChanges = z.strictObject({
  dropped: z.array(id),
  moved: z.array(z.strictObject({ step: id, after: id })),
  own: z.array(z.strictObject({ after: id, step })),
});
export type SheetChanges = z.infer<typeof sheetChanges>;

export const sheetWanted = z.strictObject({
  work: z.enum(works),
  catcher: z.boolean(),
  changes: sheetChanges,
});
export type SheetWanted = z.infer<typeof sheetWanted>;

/** What the replacement is set for, at the mandrel. */
const design = z.strictObject({
  /** of the pressure on the bellows */
  openingAtMandrel: quantity("pressure").optional(),
  /** on the seat of an injection-operated valve when it opens */
  productionAtMandrel: quantity("pressure").optional(),
  /** on the seat of a production-operated valve when it opens */
  injectionAtMandrel: quantity("pressure").optional(),
});

/** A further pocket that is worked on in the same rig-up, after the one before it is proved. */
export const furtherPocket = z.strictObject({
  mandrel: id,
  replacement: id.optional(),
  work: z.enum(works),
  design,
});
export type FurtherPocket = z.infer<typeof furtherPocket>;

/** What the planner puts together; it becomes a programme when it is issued. */
export const job = z.strictObject({
  ...recordBase,
  day,
  well: id,
  mandrel: id,
  reason: text,
  replacement: id.optional(),
  design,
  /** Further pockets of the same rig-up, in the order they are worked. */
  also: z.array(furtherPocket).min(1).max(9).optional(),
  expected: z.strictObject({
    wellheadPressure: quantity("pressure").optional(),
    fluidLevelAlongHole: quantity("length").optional(),
    packingFriction: quantity("force").optional(),
    /** Of the fluid round the string. */
    fluidDensity: quantity("density").optional(),
    /** Of wire and string on the tubing. */
    friction: quantity("friction coefficient").optional(),
  }),
  /** Where the line's pull is read, and over which wheels it runs. */
  unit: z
    .strictObject({
      indicator: z.enum(["hay pulley", "counter head"]).optional(),
      /** between the two lines at the hay pulley */
      lineAngle: quantity("line angle").optional(),
      /** at which the indicator shows the line's pull */
      calibratedAngle: quantity("line angle").optional(),
      smallestSheave: quantity("diameter").optional(),
    })
    .optional(),
  /** What the pull run may do before it stops. */
  release: z
    .strictObject({
      mostHits: z.number().int().min(1).max(1000).optional(),
      mostPull: quantity("force").optional(),
      cutBackAfter: quantity("length").optional(),
      /** how the kickover tool folds or lets go when it is fast */
      kickover: text.optional(),
    })
    .optional(),
  strings: z.strictObject({
    gauge: id.optional(),
    pull: id.optional(),
    set: id.optional(),
    catcher: id.optional(),
  }),
  line: id.optional(),
  stack: id.optional(),
  policy: id.optional(),
  pins: pins.optional(),
  crew: z.strictObject({
    supervisor: text.optional(),
    fieldOperator: text.optional(),
    engineer: text.optional(),
  }),
  /**
   * Which sheet the job wants. Jobs of before say "change-out" and stay as they are, since a log is held to its
   * letter; `sheetWanted` reads both.
   */
  sheet: z.union([z.literal("change-out"), sheetWanted], {
    error: 'work, catcher and changes, or "change-out" as jobs of before say',
  }),
  remarks: z.string().max(4000).optional(),
});
export type Job = z.infer<typeof job>;
