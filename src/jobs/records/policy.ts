import { quantity, recordBase, text, z } from "../schema.ts";

const basis = text;

const limit = <T extends z.ZodType>(value: T) => z.strictObject({ value, basis });

/** Limits that a company sets. Each says where it comes from. */
export const policy = z.strictObject({
  ...recordBase,
  name: text,
  lineFraction: limit(z.number().min(0.1).max(1)),
  pushOutRatio: limit(z.number().min(1).max(5)),
  sheaveRatio: limit(z.number().min(10).max(500)).optional(),
  annulusAboveTubing: limit(quantity("pressure difference")),
  tubingAboveAnnulus: limit(quantity("pressure difference")),
  watch: limit(quantity("duration")),
  readingAge: limit(quantity("duration")),
  lowTest: limit(quantity("pressure")),
  lowTestMost: limit(quantity("pressure")),
  lowTestHold: limit(quantity("duration")),
  highTestFactor: limit(z.number().min(1).max(2)),
  highTestHold: limit(quantity("duration")),
  testDropPercent: limit(z.number().min(0).max(20)),
  lubricatorMargin: limit(quantity("length")),
  depthAgreement: limit(quantity("length")),
  pocketAgreement: limit(quantity("length")),
  setPressureTolerance: limit(quantity("pressure difference")),
  benchReadings: limit(z.number().int().min(3).max(20)).optional(),
  benchSpread: limit(quantity("pressure difference")).optional(),
  temperatureUncertainty: limit(quantity("temperature difference")).optional(),
  proofDifference: limit(quantity("pressure difference")),
  proofLoss: limit(quantity("pressure difference")),
  /** How far a reading may lie from what was expected before the screen asks for a word on why. */
  expectedBand: z
    .strictObject({
      pull: limit(quantity("force")).optional(),
      pressure: limit(quantity("pressure difference")).optional(),
      depth: limit(quantity("length")).optional(),
    })
    .optional(),
});
export type Policy = z.infer<typeof policy>;

/** Defaults with their origin; a company puts its own in their place. */
export const defaultLimits: Omit<Policy, "id" | "revision" | "name"> = {
  lineFraction: { value: 0.5, basis: "common practice, 50 to 60 percent" },
  pushOutRatio: { value: 1.3, basis: "common practice, 1.3 to 1.5" },
  sheaveRatio: { value: 120, basis: "from memory, unverified: sheaves of 120 wire diameters" },
  annulusAboveTubing: {
    value: { value: 50, unit: "psi" },
    basis: "common practice, 50 to 100 psi either way; the check stays shut with the tubing above",
  },
  tubingAboveAnnulus: {
    value: { value: 100, unit: "psi" },
    basis: "common practice, 50 to 100 psi either way",
  },
  watch: { value: { value: 15, unit: "min" }, basis: "common practice, 15 to 30 min" },
  readingAge: { value: { value: 30, unit: "min" }, basis: "common practice" },
  lowTest: { value: { value: 300, unit: "psig" }, basis: "common practice, 200 to 500 psi" },
  lowTestMost: { value: { value: 500, unit: "psig" }, basis: "common practice, 200 to 500 psi" },
  lowTestHold: {
    value: { value: 5, unit: "min" },
    basis: "common practice; NORSOK D-010, from memory",
  },
  highTestFactor: {
    value: 1.1,
    basis: "common practice, 1.0 to 1.25 times the expected maximum surface pressure",
  },
  highTestHold: {
    value: { value: 10, unit: "min" },
    basis: "common practice; NORSOK D-010, from memory",
  },
  testDropPercent: { value: 2, basis: "common practice, 0 to 10 percent" },
  lubricatorMargin: { value: { value: 2, unit: "ft" }, basis: "common practice, 2 to 5 ft" },
  depthAgreement: { value: { value: 10, unit: "ft" }, basis: "chosen by Latchline, no source" },
  pocketAgreement: { value: { value: 3, unit: "ft" }, basis: "chosen by Latchline, no source" },
  setPressureTolerance: { value: { value: 5, unit: "psi" }, basis: "from memory, unverified" },
  benchReadings: { value: 3, basis: "from memory, unverified" },
  benchSpread: {
    value: { value: 5, unit: "psi" },
    basis: "from memory, unverified; some shops use 1 percent",
  },
  temperatureUncertainty: {
    value: { value: 5, unit: "degF" },
    basis: "chosen by Latchline, no source",
  },
  proofDifference: {
    value: { value: 200, unit: "psi" },
    basis: "chosen by Latchline, no source",
  },
  proofLoss: { value: { value: 10, unit: "psi" }, basis: "chosen by Latchline, no source" },
  expectedBand: {
    pull: {
      value: { value: 40, unit: "lbf" },
      basis: "common practice: indicator noise of 10 to 20 lbf either way, doubled",
    },
    pressure: {
      value: { value: 50, unit: "psi" },
      basis: "common practice, the lower end of the equalising band",
    },
    depth: { value: { value: 10, unit: "ft" }, basis: "chosen by Latchline, no source" },
  },
};
