import { entryValue, jobEvent } from "../log/event.ts";
import { job } from "../records/job.ts";
import { well } from "../records/well.ts";
import { actor, id, instant, longText, sha256, text, z } from "../schema.ts";

/** The record of a job as one file of JSON, for other programs and for whoever checks its log. */
export const RECORD_VERSION = 1;

/** A figure in SI with the unit it is counted in. */
const figure = z.strictObject({ value: z.number(), unit: z.string() });

/** Where something stands in the log. */
const entry = { at: instant, by: actor, hash: sha256 };

const correction = z.strictObject({
  ...entry,
  /** hash of the event that is corrected */
  corrects: sha256,
  field: id,
  value: entryValue,
  reason: longText,
});

const reading = z.strictObject({
  ...entry,
  field: id,
  label: text,
  step: id,
  takenAt: instant,
  /** as it stands: the last correction, or what was entered */
  value: entryValue,
  /** as it was entered, where it was corrected since */
  original: entryValue.optional(),
  /** of a quantity; pressures are absolute */
  si: figure.optional(),
  /** what the calculations said at that moment, and the limit then */
  expected: figure.optional(),
  most: figure.optional(),
  device: z.uuid(),
  sequence: z.number().int().min(1),
  /** hash of the event with which its step was worked again: it belongs to an attempt before */
  setAsideBy: sha256.optional(),
  /** where it was read, of one of the well on lift, whose step is "on-lift" */
  source: text.optional(),
  /** with which one of the well on lift was corrected: that reading stands in its place */
  corrected: z.strictObject({ ...entry, reason: longText }).optional(),
});

const release = z.strictObject({
  ...entry,
  /** hashes of the events whose readings it stands on */
  basis: z.array(sha256),
  conditions: z.array(
    z.strictObject({
      id,
      text: longText,
      state: z.enum(["met", "not met", "not known", "excepted"]),
      says: z.string(),
    }),
  ),
  /** why it never counted */
  rejected: z.string().optional(),
  voidedBy: sha256.optional(),
  /** hash of the event with which the hold point was worked again */
  setAsideBy: sha256.optional(),
});

const hold = z.strictObject({
  id,
  title: text,
  status: z.enum(["locked", "ready", "released", "released under exception", "voided"]),
  releases: z.array(release),
  signatures: z.array(
    z.strictObject({
      ...entry,
      signedBy: actor,
      drawn: z.boolean(),
      setAsideBy: sha256.optional(),
    }),
  ),
});

const exception = z.strictObject({
  ...entry,
  hold: id,
  condition: id,
  covers: longText,
  reason: longText,
  authoriser: actor,
  basis: z.array(sha256),
  setAsideBy: sha256.optional(),
});

const question = z.strictObject({
  ...entry,
  about: z.string(),
  text: longText,
  answers: z.array(z.strictObject({ ...entry, text: longText })),
});

const result = z.strictObject({
  id: z.string(),
  label: z.string(),
  /** mandrel whose pocket it is for, by its id; absent: the job's first */
  pocket: id.optional(),
  outcome: z.discriminatedUnion("state", [
    z.strictObject({ state: z.literal("known"), ...figure.shape }),
    z.strictObject({ state: z.literal("missing"), needs: z.array(z.string()) }),
    z.strictObject({ state: z.literal("no answer"), why: z.string() }),
  ]),
  givens: z.array(
    z.strictObject({
      symbol: z.string(),
      name: z.string(),
      /** absent: not known, or no single figure */
      si: figure.optional(),
      shown: z.string().optional(),
      from: z.string(),
    }),
  ),
  formula: z.string(),
  method: z.string(),
  source: z.string(),
  warnings: z.array(z.string()),
  /** what it was used for, and when; empty where only another result needs it */
  usedFor: z.array(z.strictObject({ what: z.string(), at: instant })),
});

export const jobRecord = z.strictObject({
  format: z.literal("latchline-record"),
  version: z.literal(RECORD_VERSION),
  stage: z.enum(["issued", "running", "closed", "sent back", "approved"]),
  /** as the programme has them that the crew worked on; the whole programme is in the event that issued it */
  job,
  well: well.optional(),
  programme: z.strictObject({ revision: z.number().int().min(1), issuedBy: sha256 }),
  closing: z
    .strictObject({
      ...entry,
      remark: longText.optional(),
      gaps: z.strictObject({ items: z.array(text), reason: longText }).optional(),
    })
    .optional(),
  /** what an approval signs: SHA-256 of the canonical JSON of { job: its id, heads: last hash of every device } */
  closingHash: sha256,
  decision: z
    .strictObject({
      ...entry,
      decision: z.enum(["approved", "approved with remarks", "sent back"]),
      remark: longText.optional(),
      /** the last event of each device that the engineer saw */
      heads: z.record(z.uuid(), sha256),
      /** hashes of events that came after an approval, which does not cover them */
      notCovered: z.array(sha256),
    })
    .optional(),
  chain: z.strictObject({
    whole: z.boolean(),
    /** where it does not hold, in words */
    broken: z.array(z.string()),
    /** hash of the last event of each device */
    heads: z.record(z.uuid(), sha256),
  }),
  readings: z.array(reading),
  holds: z.array(hold),
  exceptions: z.array(exception),
  corrections: z.array(correction),
  questions: z.array(question),
  results: z.array(result),
  /** whole and in the order of the log: hash is the SHA-256 of an event's canonical JSON without it */
  events: z.array(jobEvent).min(1),
});
export type JobRecord = z.infer<typeof jobRecord>;
