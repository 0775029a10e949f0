import { impossible, unitsOf } from "../quantity.ts";
import { programme } from "../records/programme.ts";
import { strokesSchema } from "../records/signature.ts";
import {
  actor,
  dimensionName,
  id,
  instant,
  longText,
  quantity,
  sha256,
  text,
  z,
} from "../schema.ts";

/**
 * A job's log: what happened, in order, never edited. A job's live state is the fold of these events.
 */

const quantityEntry = z
  .strictObject({
    kind: z.literal("quantity"),
    dimension: dimensionName,
    value: z.number(),
    unit: z.string(),
  })
  .superRefine(({ dimension, value, unit }, context) => {
    const problem = unitsOf(dimension).includes(unit)
      ? impossible(dimension, { value, unit })
      : `${dimension} is not measured in "${unit}"`;
    if (problem) context.addIssue({ code: "custom", message: problem, path: ["value"] });
  });

/** What was entered in a field. */
export const entryValue = z.discriminatedUnion("kind", [
  quantityEntry,
  z.strictObject({ kind: z.literal("choice"), choice: id }),
  z.strictObject({ kind: z.literal("text"), text }),
  z.strictObject({ kind: z.literal("count"), count: z.number().int().min(0) }),
  /** An answer that need not be there is taken back: a correction's alone. */
  z.strictObject({ kind: z.literal("none") }),
]);
export type EntryValue = z.infer<typeof entryValue>;

const entry = z.strictObject({ field: id, value: entryValue });
export type Entry = z.infer<typeof entry>;

export const eventBody = z.discriminatedUnion("type", [
  /** The planner gives the job out: this revision, and only this, is what the crew works on. */
  z.strictObject({
    type: z.literal("programme issued"),
    revision: z.number().int().min(1),
    programme,
  }),
  z.strictObject({
    type: z.literal("run started"),
    /** hash of the event that issued the programme the crew works on */
    programme: sha256,
  }),
  /** What was read at one moment in one step. */
  z.strictObject({
    type: z.literal("readings taken"),
    step: id,
    entries: z.array(entry).min(1),
    /** when the gauges were read, which may be before it was typed */
    takenAt: instant,
  }),
  z.strictObject({ type: z.literal("step done"), step: id }),
  z.strictObject({ type: z.literal("step left out"), step: id, reason: longText }),
  /** A second person signs a hold point on the readings that stand. */
  z.strictObject({
    type: z.literal("hold signed"),
    hold: id,
    by: actor,
    drawn: strokesSchema.optional(),
  }),
  z.strictObject({
    type: z.literal("hold released"),
    hold: id,
    /** hashes of the events whose readings the release stands on */
    basis: z.array(sha256),
  }),
  z.strictObject({
    type: z.literal("exception granted"),
    hold: id,
    condition: id,
    reason: longText,
    authoriser: actor,
    /** hashes of the events whose readings the exception covers, and no others */
    basis: z.array(sha256),
    /** what was not fulfilled, in the words shown at that moment */
    covers: longText,
  }),
  z.strictObject({ type: z.literal("note"), step: id.optional(), text: longText }),
  /** Replaces what one entry of an earlier event says, without touching it. */
  z.strictObject({
    type: z.literal("correction"),
    corrects: sha256,
    field: id,
    value: entryValue,
    reason: longText,
  }),
  /** Two tablets read one thing differently; a person says which reading stands. */
  z.strictObject({
    type: z.literal("conflict settled"),
    field: id,
    /** hash of the event that says what stands: it took the reading, corrected it or settled it */
    stands: sha256,
    /** hashes of those that say what it stands over */
    over: z.array(sha256).min(1),
    reason: longText,
  }),
  /** The sheet is worked again from here on: a run that is made once more, or a step done by mistake. */
  z.strictObject({ type: z.literal("went back"), to: id, reason: longText }),
  /** Something went wrong: the sheet waits, and what is done about it is written down. */
  z.strictObject({ type: z.literal("branch opened"), contingency: id, at: id.optional() }),
  z.strictObject({
    type: z.literal("branch closed"),
    /** hash of the event that opened it */
    opened: sha256,
    option: id.optional(),
    outcome: longText,
  }),
  z.strictObject({ type: z.literal("standby started"), reason: longText }),
  z.strictObject({ type: z.literal("standby ended") }),
  /** One crew leader gives the run to the next, who says the state of things back. */
  z.strictObject({
    type: z.literal("crew changed"),
    by: actor,
    to: actor,
    state: longText,
    drawn: z.strictObject({ by: strokesSchema.optional(), to: strokesSchema.optional() }),
  }),
  /** The picture itself is kept beside the log, under its hash. */
  z.strictObject({
    type: z.literal("photograph"),
    picture: sha256,
    width: z.number().int().min(1),
    height: z.number().int().min(1),
    caption: text.optional(),
    /** step, hold point or contingency it belongs to */
    at: id.optional(),
  }),
  /** What the well did on lift, read at one moment after the change-out: by the crew, or later by whoever is there. */
  z.strictObject({
    type: z.literal("lift observed"),
    takenAt: instant,
    /** where the figures come from: a gauge, a recorder, a test, a voice on the radio */
    source: text,
    injectionAtSurface: quantity("pressure"),
    wellhead: quantity("pressure"),
    injectionRate: quantity("gas rate").optional(),
    liquidRate: quantity("liquid rate").optional(),
    /** the reading on lift that it stands for instead, by the hash of its event, and why */
    corrects: z.strictObject({ event: sha256, reason: longText }).optional(),
  }),
  z.strictObject({
    type: z.literal("run closed"),
    remark: longText.optional(),
    /** what was left unanswered, in the words shown then, and why it was closed all the same */
    gaps: z.strictObject({ items: z.array(text).min(1).max(100), reason: longText }).optional(),
  }),
  /** The engineer asks about a line of the record. */
  z.strictObject({
    type: z.literal("question asked"),
    about: z.discriminatedUnion("kind", [
      /** what an event says, or one field of it */
      z.strictObject({ kind: z.literal("event"), event: sha256, field: id.optional() }),
      /** a step or hold point of the sheet */
      z.strictObject({ kind: z.literal("item"), item: id }),
      /** a line of the record that is worked out, in the words shown then */
      z.strictObject({ kind: z.literal("line"), says: text }),
      z.strictObject({ kind: z.literal("whole record") }),
    ]),
    text: longText,
  }),
  z.strictObject({
    type: z.literal("question answered"),
    /** hash of the event that asked */
    question: sha256,
    text: longText,
  }),
  z.strictObject({
    type: z.literal("review"),
    decision: z.enum(["approved", "approved with remarks", "sent back"]),
    remark: longText.optional(),
    /** the last event of each device that the engineer saw, by its hash */
    heads: z.record(z.string(), sha256),
  }),
]);
export type EventBody = z.infer<typeof eventBody>;

const eventBase = {
  /** Made by the device when the entry is made; the same entry written twice keeps it. */
  id: z.uuid(),
  job: id,
  device: z.uuid(),
  /** Counts up by one on this device for this job; a gap shows. */
  sequence: z.number().int().min(1),
  /** Larger than that of every event this device had seen of the job: orders devices without their clocks. */
  tick: z.number().int().min(1),
  /** Wall clock of the device; for people, never for order. */
  at: instant,
  actor,
  /** Hash of this device's event before it; null for its first. */
  previous: sha256.nullable(),
  body: eventBody,
  /** SHA-256 of the canonical JSON (RFC 8785) of everything else. */
  hash: sha256,
};

/** Format 1 does not say what its device had seen of others; its ticks tell most of it. */
export const jobEvent = z.discriminatedUnion("format", [
  z.strictObject({ format: z.literal(1), ...eventBase }),
  z.strictObject({
    format: z.literal(2),
    ...eventBase,
    /** The last sequence that this device had seen of every other device of the job. */
    seen: z.record(z.uuid(), z.number().int().min(1)),
  }),
]);
export type JobEvent = z.infer<typeof jobEvent>;
