import { id, instant, longText, quantity, recordBase, text, z } from "../schema.ts";

/**
 * What is known of a well whose lift is in doubt: evidence, each piece with its time, its source and how far it is
 * trusted. What follows from it is worked out and never stored; what people agreed on is.
 */

const evidenceBase = {
  id,
  /** when it was read; of something that lasted, when it began */
  at: instant,
  /** gauge and its number, recorder, test, who read it */
  source: text,
  /** how far it is trusted: widens what counts as agreement */
  confidence: z.enum(["good", "fair", "doubtful"]),
  remark: longText.optional(),
  /** kept, and left out of the ranking */
  setAside: z.boolean().optional(),
};

/** Casing and tubing read at one moment, well on lift unless it says otherwise. */
const pressures = z.strictObject({
  ...evidenceBase,
  kind: z.literal("pressures"),
  injectionAtSurface: quantity("pressure"),
  wellhead: quantity("pressure"),
});

/** What goes in, and through what. */
const supply = z.strictObject({
  ...evidenceBase,
  kind: z.literal("supply"),
  injectionRate: quantity("gas rate").optional(),
  /** upstream of the injection choke */
  supplyPressure: quantity("pressure").optional(),
  supplyTemperature: quantity("temperature").optional(),
  choke: quantity("diameter").optional(),
  /** what somebody saw at the choke, the meter or the line */
  found: z.enum(["in order", "choke changed", "frozen", "supply fell", "not looked at"]).optional(),
});

const separatorTest = z.strictObject({
  ...evidenceBase,
  kind: z.literal("separator test"),
  liquidRate: quantity("liquid rate"),
  waterCut: quantity("fraction").optional(),
  /** lift gas and the well's own */
  gasRate: quantity("gas rate").optional(),
  separatorPressure: quantity("pressure").optional(),
});

/** Two pens against time, as a recorder or a historian wrote them. */
const trend = z.strictObject({
  ...evidenceBase,
  kind: z.literal("trend"),
  points: z
    .array(
      z.strictObject({
        at: instant,
        casing: quantity("pressure").optional(),
        tubing: quantity("pressure").optional(),
        injectionRate: quantity("gas rate").optional(),
      }),
    )
    .min(2)
    .max(20_000),
});

/** Supply shut in and the casing left to bleed through whatever is open: where it stops tells what shut. */
const casingBleed = z.strictObject({
  ...evidenceBase,
  kind: z.literal("casing bleed"),
  from: quantity("pressure"),
  to: quantity("pressure"),
  took: quantity("duration"),
  /** it had come to rest, or it still fell when it was read */
  end: z.enum(["at rest", "still falling"]),
  /** wellhead pressure at the end */
  wellhead: quantity("pressure").optional(),
});

const fluidLevel = z.strictObject({
  ...evidenceBase,
  kind: z.literal("fluid level"),
  space: z.enum(["annulus", "tubing"]),
  well: z.enum(["on lift", "shut in"]),
  depthAlongHole: quantity("length"),
});

/** Stops of a gauge run on lift. */
const survey = z.strictObject({
  ...evidenceBase,
  kind: z.literal("survey"),
  stops: z
    .array(
      z
        .strictObject({
          depthAlongHole: quantity("length"),
          pressure: quantity("pressure").optional(),
          temperature: quantity("temperature").optional(),
        })
        .refine((stop) => stop.pressure ?? stop.temperature, "a pressure or a temperature"),
    )
    .min(2)
    .max(2000),
});

/** A slug of tracer gas put into the injection gas, and when it came back: each point that passes gas sends its own. */
const tracer = z.strictObject({
  ...evidenceBase,
  kind: z.literal("tracer"),
  injectionAtSurface: quantity("pressure").optional(),
  wellhead: quantity("pressure").optional(),
  injectionRate: quantity("gas rate").optional(),
  returns: z
    .array(
      z.strictObject({
        after: quantity("duration"),
        /** of all that came back, where peaks were told apart by size */
        share: quantity("fraction").optional(),
      }),
    )
    .min(1)
    .max(20),
});

export const evidence = z.discriminatedUnion("kind", [
  pressures,
  supply,
  separatorTest,
  trend,
  casingBleed,
  fluidLevel,
  survey,
  tracer,
]);
export type Evidence = z.infer<typeof evidence>;
export type EvidenceKind = Evidence["kind"];

/** Pieces that are kept of one investigation. */
export const MOST_EVIDENCE = 200;

export const investigation = z.strictObject({
  ...recordBase,
  well: id,
  opened: instant,
  openedBy: text,
  /** what made somebody look, in words */
  complaint: longText.optional(),
  evidence: z.array(evidence).max(MOST_EVIDENCE),
  /** What the engineer agreed to do about it, and on which answer; the job names it as its reason. */
  agreed: z
    .strictObject({
      at: instant,
      by: text,
      hypothesis: id,
      /** the answer in the words shown then */
      says: longText,
      reason: longText,
      job: id.optional(),
    })
    .optional(),
  remarks: z.string().max(4000).optional(),
});
export type Investigation = z.infer<typeof investigation>;
