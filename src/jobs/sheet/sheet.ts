import { checkNames } from "../checks/checkNames.ts";
import { unitsOf } from "../quantity.ts";
import { channels } from "../results/measurements.ts";
import { resultIds } from "../results/traced.ts";
import { roles } from "../roles.ts";
import { dimensionName, id, longText, text, z } from "../schema.ts";
import { fieldsAsked } from "./fieldsAsked.ts";

/**
 * A run sheet as data: phases of steps and hold points, in the order they are worked. What a hold
 * point demands is written here, never in a component.
 */
const fieldBase = {
  id,
  label: text,
  /** A field that may stay empty. */
  optional: z.boolean().optional(),
};

const quantityField = z.strictObject({
  ...fieldBase,
  kind: z.literal("quantity"),
  dimension: dimensionName,
  /** Feeds every calculation that depends on it. */
  channel: z.enum(channels).optional(),
  /** What the calculations say it should read. */
  expected: z.enum(resultIds).optional(),
  /** The policy's band about what is expected; beyond it the screen prompts for a word on why. */
  band: z.enum(["pull", "pressure", "depth"]).optional(),
  /** What it must not exceed; beyond it the screen prompts and the review lists it. */
  most: z.enum(resultIds).optional(),
  /** a depth along hole, which cannot lie below the end of the well */
  alongHole: z.boolean().optional(),
  /** the last reading of its channel is offered as a tap */
  asBefore: z.boolean().optional(),
});

const choiceField = z.strictObject({
  ...fieldBase,
  kind: z.literal("choice"),
  choices: z
    .array(
      z.strictObject({
        value: id,
        label: text,
        /** something an engineer has to look at, whether or not a hold point asks for it */
        adverse: z.boolean().optional(),
        /** Why work stops here, and the way out: with this answer the step is recorded and not done. */
        stop: longText.optional(),
        /** what it says of the pocket at work */
        pocketHolds: z.enum(["nothing", "replacement"]).optional(),
      }),
    )
    .min(2)
    .max(8),
});

const textField = z.strictObject({
  ...fieldBase,
  kind: z.literal("text"),
  /** a person's name: those met before are offered as taps */
  person: z.boolean().optional(),
  /** a serial number, which a camera may read off the body */
  serial: z.boolean().optional(),
});
const countField = z.strictObject({
  ...fieldBase,
  kind: z.literal("count"),
  /** turns of the crown valve: the well's record says how many */
  crownValveTurns: z.boolean().optional(),
});

export const field = z.discriminatedUnion("kind", [
  quantityField,
  choiceField,
  textField,
  countField,
]);
export type Field = z.infer<typeof field>;

/** The mandrel whose pocket it is about, by its id; absent: the first pocket of the job. */
const pocket = id;

export const step = z.strictObject({
  id,
  title: text,
  /** What to do, one or two sentences. */
  instruction: longText,
  /** What to expect. */
  expect: longText.optional(),
  /** The caution that belongs to this step. */
  caution: longText.optional(),
  /** The figures one works to here, large. */
  figures: z.array(z.enum(resultIds)).optional(),
  /** What the readings of this step say, answered while they are typed. */
  answers: z.array(z.enum(checkNames)).optional(),
  fields: z.array(field),
  /** Recorded again, it starts empty: what was true before proves nothing now. */
  startsEmpty: z.boolean().optional(),
  /** A step that a job may not need; leaving it out asks for a reason. */
  optional: z.boolean().optional(),
  /** Which string hangs on the line, and where it is when the step is done: for the picture. */
  string: z.enum(["gauge", "pull", "set"]).optional(),
  stringAt: z.enum(["surface", "mandrel", "below mandrel"]).optional(),
  pocket: pocket.optional(),
});
export type Step = z.infer<typeof step>;

const exceptionBy = z.array(z.enum(roles)).min(1);

const conditionBase = {
  id,
  /** What must be true, in words. */
  text: longText,
  /** Who may let it pass with a written reason; absent: nobody. */
  exceptionBy: exceptionBy.optional(),
  /** where it is about another pocket than its hold point */
  pocket: pocket.optional(),
};

/** One thing that must be true before a hold point can be released. */
export const condition = z.discriminatedUnion("kind", [
  /** A field holds one of these answers. */
  z.strictObject({
    ...conditionBase,
    kind: z.literal("answer"),
    field: id,
    oneOf: z.array(id).min(1),
    /** Why it locks, and the way out. */
    otherwise: longText,
  }),
  /** A field holds something. */
  z.strictObject({ ...conditionBase, kind: z.literal("reading"), field: id }),
  /** A reading lies between two fixed limits, both included. */
  z.strictObject({
    ...conditionBase,
    kind: z.literal("within"),
    field: id,
    least: z.number(),
    most: z.number(),
    unit: z.string(),
    otherwise: longText,
  }),
  /** A check worked out from programme and readings. `fields` names the readings it looks at by their part in it. */
  z.strictObject({
    ...conditionBase,
    kind: z.literal("check"),
    check: z.enum(checkNames),
    fields: z.record(z.string(), id).optional(),
  }),
  /** A second person has signed, on the readings that stand. */
  z.strictObject({ ...conditionBase, kind: z.literal("signature"), role: z.enum(roles) }),
]);
export type Condition = z.infer<typeof condition>;

export const holdPoint = z.strictObject({
  id,
  title: text,
  /** What it stands between. */
  purpose: longText,
  caution: longText.optional(),
  conditions: z.array(condition).min(1),
  releasedBy: z.array(z.enum(roles)).min(1),
  /** The step it guards: once that step is done the hold point has served. */
  guards: id,
  /** A release does not outlast a crew change or a stand-by: whoever goes on looks again. Absent in sheets of before. */
  releasedAnewAfterStop: z.boolean().optional(),
  pocket: pocket.optional(),
});
export type HoldPoint = z.infer<typeof holdPoint>;

export const sheetItem = z.discriminatedUnion("type", [
  z.strictObject({ type: z.literal("step"), step }),
  z.strictObject({ type: z.literal("hold"), hold: holdPoint }),
]);
export type SheetItem = z.infer<typeof sheetItem>;

const phase = z.strictObject({ id, title: text, items: z.array(sheetItem).min(1) });
export type Phase = z.infer<typeof phase>;

/**
 * Something that goes otherwise than planned, as data: what stops at once, how string and well are made secure,
 * who is told, the ways out, and where the sheet may go on. What is noted feeds the record like any reading.
 */
export const contingency = z.strictObject({
  id,
  title: text,
  /** What stops at once. */
  stop: longText,
  /** What the crew does before it thinks on, in order. */
  makeSafe: z.array(longText).min(1),
  /** Who is told, and what. */
  tell: z.array(longText).min(1),
  caution: longText.optional(),
  options: z
    .array(
      z.strictObject({
        id,
        label: text,
        says: longText,
        /** Steps where the sheet may go on; empty: the place is chosen freely. */
        rejoins: z.array(id),
      }),
    )
    .min(1),
  /** What is noted. */
  fields: z.array(field),
  /** Steps at which it is likeliest. */
  near: z.array(id),
});
export type Contingency = z.infer<typeof contingency>;

export const sheet = z
  .strictObject({
    id,
    version: z.number().int().min(1),
    title: text,
    phases: z.array(phase).min(1),
    /** Absent in programmes issued before there were any; read them by `contingenciesOf`. */
    contingencies: z.array(contingency).optional(),
  })
  .superRefine((given, context) => {
    for (const problem of inconsistencies(given)) {
      context.addIssue({ code: "custom", message: problem });
    }
  });
export type Sheet = z.infer<typeof sheet>;

/** What does not hang together: names used twice, conditions on fields that are not there, guards that point back. */
function inconsistencies(given: {
  phases: Phase[];
  contingencies?: Contingency[] | undefined;
}): string[] {
  const problems: string[] = [];
  const items = given.phases.flatMap((each) => each.items);
  const ids = items.map((item) => (item.type === "step" ? item.step.id : item.hold.id));
  const fieldsBefore = new Map<string, Field>();
  const take = (fields: Field[]) => {
    for (const each of fields) {
      if (fieldsBefore.has(each.id)) problems.push(`field "${each.id}" is used twice`);
      fieldsBefore.set(each.id, each);
    }
  };
  for (const [index, name] of ids.entries()) {
    if (ids.indexOf(name) !== index) problems.push(`"${name}" is used twice`);
  }
  for (const [index, item] of items.entries()) {
    if (item.type === "step") take(item.step.fields);
    else problems.push(...holdProblems(item.hold, ids.slice(index + 1), fieldsBefore));
  }
  const steps = new Set(items.flatMap((item) => (item.type === "step" ? [item.step.id] : [])));
  const contingencies = given.contingencies ?? [];
  for (const [index, each] of contingencies.entries()) {
    take(each.fields);
    if (contingencies.findIndex((other) => other.id === each.id) !== index) {
      problems.push(`contingency "${each.id}" is there twice`);
    }
    for (const name of [...each.near, ...each.options.flatMap((option) => option.rejoins)]) {
      if (!steps.has(name)) {
        problems.push(`contingency "${each.id}" names a step "${name}" that is not there`);
      }
    }
  }
  return problems;
}

function holdProblems(
  hold: HoldPoint,
  after: readonly string[],
  fieldsBefore: ReadonlyMap<string, Field>,
): string[] {
  const problems: string[] = [];
  if (!after.includes(hold.guards)) {
    problems.push(`hold point "${hold.id}" guards nothing that comes after it`);
  }
  for (const each of hold.conditions) {
    const measured = each.kind === "within" ? fieldsBefore.get(each.field) : undefined;
    if (each.kind === "within" && !measuredIn(measured, each.unit)) {
      problems.push(`hold point "${hold.id}": "${each.field}" is not measured in "${each.unit}"`);
    }
    for (const missing of fieldsAsked(each).filter((name) => !fieldsBefore.has(name))) {
      problems.push(`hold point "${hold.id}" asks for "${missing}", which no step before it takes`);
    }
  }
  return problems;
}

function measuredIn(field: Field | undefined, unit: string): boolean {
  return field?.kind === "quantity" && unitsOf(field.dimension).includes(unit);
}
