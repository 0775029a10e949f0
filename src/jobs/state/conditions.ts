import type { CheckContext } from "../checks/check.ts";
import { checks } from "../checks/checks.ts";
import { atMost } from "../checks/compare.ts";
import type { Writer } from "../display.ts";
import { fieldInWords } from "../entryInWords.ts";
import { focus } from "../pockets.ts";
import { toSI } from "../quantity.ts";
import { siteAtmosphere } from "../results/context.ts";
import { type Results, resultsFor } from "../results/results.ts";
import type { ResultId } from "../results/traced.ts";
import { fieldsAsked } from "../sheet/fieldsAsked.ts";
import type { Condition, HoldPoint } from "../sheet/sheet.ts";
import { fieldById } from "../sheet/walk.ts";
import { type Exception, type JobState, latestReading } from "./jobState.ts";
import { measurementsOf, quantitySI } from "./measurementsOf.ts";

export interface ConditionState {
  readonly condition: Condition;
  readonly state: "met" | "not met" | "not known" | "excepted";
  /** what was found, with its numbers */
  readonly says: string;
  readonly exception?: Exception;
  /** hashes of the events whose readings it stands on */
  readonly basis: readonly string[];
  readonly results: readonly ResultId[];
}

/** Whether a condition keeps its hold point locked. */
export const isUnmet = ({ state }: ConditionState) => state === "not met" || state === "not known";

/**
 * Results on what was measured so far.
 *
 * @param pocket mandrel, by its id, that they are for; undefined: the job's first
 */
export function resultsAt(state: JobState, pocket?: string): Results | undefined {
  const { programme, issued } = state;
  if (!programme || !issued) return undefined;
  const measured = measurementsOf(state, siteAtmosphere(programme), pocket);
  return resultsFor(issued.hash, focus(programme, pocket), measured);
}

/**
 * Every condition of a hold point on the log as read so far.
 *
 * @param now instant at which the question is asked
 */
export function conditionStates(
  hold: HoldPoint,
  state: JobState,
  now: string,
  writer: Writer,
): ConditionState[] {
  const { programme } = state;
  if (!programme) return [];
  const found = new Map<string, ConditionState>();
  for (const condition of hold.conditions) {
    if (condition.kind === "signature") continue;
    const pocket = condition.pocket ?? hold.pocket;
    const results = resultsAt(state, pocket);
    if (!results) return [];
    const context = { programme: focus(programme, pocket), state, results, now, writer };
    const told = unlessInConflict(conditionState(condition, context), state);
    found.set(condition.id, withException(told, hold, state));
  }
  const basis = [...found.values()].flatMap((each) => each.basis);
  for (const condition of hold.conditions) {
    if (condition.kind !== "signature") continue;
    found.set(condition.id, signatureState(condition, hold, state, basis));
  }
  return hold.conditions.flatMap((condition) => found.get(condition.id) ?? []);
}

function conditionState(
  condition: Exclude<Condition, { kind: "signature" }>,
  context: Omit<CheckContext, "reading" | "asks">,
): ConditionState {
  const { state } = context;
  if (condition.kind === "check") {
    const fields = condition.fields ?? {};
    const found = checks[condition.check]({
      ...context,
      reading: (part) => {
        const field = Object.hasOwn(fields, part) ? fields[part] : undefined;
        return field === undefined ? undefined : latestReading(state, field);
      },
      asks: (part) => Object.hasOwn(fields, part),
    });
    return {
      condition,
      state: found.state === "passes" ? "met" : found.state === "fails" ? "not met" : "not known",
      says: found.says,
      basis: found.basis,
      results: found.results,
    };
  }
  const reading = latestReading(state, condition.field);
  if (!reading) {
    return { condition, state: "not known", says: "Not entered yet.", basis: [], results: [] };
  }
  const found = (met: boolean, otherwise: string): ConditionState => ({
    condition,
    state: met ? "met" : "not met",
    says: met ? "" : otherwise,
    basis: [reading.standsOn],
    results: [],
  });
  switch (condition.kind) {
    case "reading":
      return found(true, "");
    case "answer": {
      const { value } = reading;
      return found(
        value.kind === "choice" && condition.oneOf.includes(value.choice),
        condition.otherwise,
      );
    }
    case "within": {
      const { atmosphere } = context.results.context;
      const si = quantitySI(reading, atmosphere);
      const dimension = reading.value.kind === "quantity" ? reading.value.dimension : undefined;
      if (si === undefined || !dimension) return found(false, condition.otherwise);
      const limit = (value: number) =>
        toSI(dimension, { value, unit: condition.unit } as never, atmosphere);
      const inside = atMost(si, limit(condition.most)) && atMost(limit(condition.least), si);
      return found(
        inside,
        `${context.writer.write(dimension, si)} was read. ${condition.otherwise}`,
      );
    }
  }
}

/** What two tablets read differently, without having known of each other, proves nothing until somebody settles it. */
function unlessInConflict(found: ConditionState, state: JobState): ConditionState {
  const { condition } = found;
  for (const [id, readings] of state.conflicts) {
    // Events carry several readings. A check stands on events; every other condition names its one field.
    if (condition.kind !== "check" && !fieldsAsked(condition).includes(id)) continue;
    if (!readings.some(({ standsOn }) => found.basis.includes(standsOn))) continue;
    const field = state.programme && fieldById(state.programme.sheet, id);
    const both = readings.map(
      ({ value, event }) => `${fieldInWords(field, value)} (${event.actor.name})`,
    );
    return {
      ...found,
      state: "not known",
      basis: [...new Set([...found.basis, ...readings.map(({ standsOn }) => standsOn)])],
      says: `Two tablets differ on "${field?.label ?? id}": ${both.join(" against ")}. Say which stands, or read it again.`,
    };
  }
  return found;
}

/** An exception covers the readings it was given on and no others. */
function withException(found: ConditionState, hold: HoldPoint, state: JobState): ConditionState {
  if (!isUnmet(found)) return found;
  const exception = state.exceptions.findLast(
    (each) => each.hold === hold.id && each.condition === found.condition.id && !each.setAside,
  );
  const covers =
    exception !== undefined &&
    exception.basis.length === found.basis.length &&
    found.basis.every((hash) => exception.basis.includes(hash)) &&
    (found.condition.exceptionBy?.includes(exception.authoriser.role) ?? false);
  return covers ? { ...found, state: "excepted", exception } : found;
}

/** A signature counts on the readings that stood when it was given. */
function signatureState(
  condition: Extract<Condition, { kind: "signature" }>,
  hold: HoldPoint,
  state: JobState,
  basis: readonly string[],
): ConditionState {
  const newest = Math.max(-1, ...basis.map((hash) => state.position.get(hash) ?? -1));
  const signature = state.signatures.findLast(
    (each) => each.hold === hold.id && each.by.role === condition.role && !each.setAside,
  );
  const base = { condition, basis: [], results: [] };
  if (!signature) {
    return { ...base, state: "not known", says: `The ${condition.role} has not signed yet.` };
  }
  return signature.index > newest
    ? { ...base, state: "met", says: `Signed by ${signature.by.name}.` }
    : {
        ...base,
        state: "not met",
        says: `${signature.by.name} signed on earlier readings; the ${condition.role} signs again on these.`,
      };
}
