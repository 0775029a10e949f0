import type { Writer } from "../display.ts";
import type { Entry, JobEvent } from "../log/event.ts";
import type { Actor } from "../roles.ts";
import type { Condition, HoldPoint, Step } from "../sheet/sheet.ts";
import { itemsOf } from "../sheet/walk.ts";
import { type ConditionState, conditionStates } from "../state/conditions.ts";
import type { JobState, Reading } from "../state/jobState.ts";
import { understand } from "./entry.ts";
import { entriesOf, type TypedFields } from "./run.ts";

/** What a step's readings would say if they were recorded as they are typed now. Nothing of it is kept. */

const TYPED = "typed and not recorded";

/**
 * The state with what is typed taken as read. Fields that cannot be understood yet are left out.
 *
 * @param takenAt when the gauges were read
 */
export function withTyped(
  state: JobState,
  step: Step,
  typed: TypedFields,
  takenAt: string,
  actor: Actor,
  writer: Writer,
): JobState {
  const entries = step.fields.flatMap((field): Entry[] => {
    const understood = understand(field, typed[field.id], writer.atmosphere);
    return understood.ok && understood.value ? [{ field: field.id, value: understood.value }] : [];
  });
  if (entries.length === 0) return state;
  const event: JobEvent = {
    format: 1,
    id: TYPED,
    job: "",
    device: "",
    sequence: 0,
    tick: 0,
    at: takenAt,
    actor,
    previous: null,
    body: { type: "readings taken", step: step.id, entries, takenAt },
    hash: TYPED,
  };
  const readings = entries.map(
    ({ field, value }): Reading => ({
      field,
      step: step.id,
      value,
      original: value,
      corrections: [],
      event,
      takenAt,
      standsOn: TYPED,
    }),
  );
  return {
    ...state,
    readings: [...state.readings, ...readings],
    position: new Map(state.position).set(TYPED, state.events.length),
  };
}

/** What the checks that a step answers find, in the hold points that ask for them. */
export function answersOf(
  step: Step,
  state: JobState,
  now: string,
  writer: Writer,
): ConditionState[] {
  const sheet = state.programme?.sheet;
  if (!step.answers || !sheet) return [];
  const items = itemsOf(sheet);
  const after = items.slice(
    items.findIndex((item) => item.type === "step" && item.step.id === step.id),
  );
  const holds = after.flatMap((item) => (item.type === "hold" ? [item.hold] : []));
  return step.answers.flatMap((name) => {
    const hold = holds.find((each) => each.conditions.some((one) => asksFor(one, name)));
    const condition = hold?.conditions.find((one) => asksFor(one, name));
    if (!hold || !condition) return [];
    const only: HoldPoint = { ...hold, conditions: [condition] };
    return conditionStates(only, state, now, writer);
  });
}

const asksFor = (condition: Condition, name: string) =>
  condition.kind === "check" && condition.check === name;

/** Whether everything that a step asks for is typed and can be understood. */
export function isComplete(step: Step, typed: TypedFields, writer: Writer): boolean {
  return entriesOf(step, typed, writer.atmosphere).ok;
}
