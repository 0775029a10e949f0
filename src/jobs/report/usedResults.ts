import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import type { Results } from "../results/results.ts";
import { type AnyResultId, type ResultId, resultIds, type Traced } from "../results/traced.ts";
import type { Comparison } from "../review/planActual.ts";
import { fieldById, pocketOfField, stepById } from "../sheet/walk.ts";
import { resultsAt } from "../state/conditions.ts";
import { holdStates } from "../state/holdState.ts";
import type { JobState } from "../state/jobState.ts";
import { LogReader } from "../state/logReader.ts";

/** A result as the run used it: with what was measured by then. */
export interface UsedResult {
  readonly traced: Traced;
  /** mandrel whose pocket it is for, by its id; undefined: the job's first */
  readonly pocket: string | undefined;
  /** where it was used on these figures, in the order of the log; empty where only another result needs it */
  readonly usedFor: readonly { readonly what: string; readonly at: string }[];
  /** instant as of which it was worked out first */
  readonly at: string;
  /** keys of the results that it is made from */
  readonly needs: ReadonlyMap<AnyResultId, string>;
}

/**
 * Every result that a reading was held against, a step showed or a release stood on, as it was at that moment, with
 * those it is made from, by key. Used at several moments on the same figures it is one; of a thing done again the last
 * time counts. A job that has not been started has the results of its plan.
 */
export function usedResults(
  state: JobState,
  comparisons: readonly Comparison[],
  now: string,
  writer: Writer,
): ReadonlyMap<string, UsedResult> {
  const last = state.started ? lastUses(state, comparisons, now, writer) : plannedUses(state, now);
  const found = new Map<string, UsedResult>();
  for (const use of last) take(use, found);
  return new Map(
    [...found].sort(
      ([, one], [, other]) =>
        placeOf(one.traced.id) - placeOf(other.traced.id) || (one.at < other.at ? -1 : 1),
    ),
  );
}

const placeOf = (id: AnyResultId) => resultIds.indexOf(id as ResultId);

interface Use {
  readonly id: AnyResultId;
  readonly results: Results;
  readonly pocket: string | undefined;
  readonly usedFor: string | undefined;
  readonly at: string;
}

/** Takes a result in with those it is made from, and says under which key. */
function take(use: Use, found: Map<string, UsedResult>): string | undefined {
  const traced = use.results.get(use.id);
  if (!traced) return undefined;
  const key = keyOf(traced, use.pocket);
  const known = found.get(key);
  if (known) {
    found.set(key, { ...known, usedFor: [...known.usedFor, ...ownUse(use)] });
    return key;
  }
  const needs = new Map<AnyResultId, string>();
  found.set(key, { traced, pocket: use.pocket, usedFor: ownUse(use), at: use.at, needs });
  for (const { origin } of traced.givens) {
    if (origin.kind !== "calculated") continue;
    const of = take({ ...use, id: origin.result, usedFor: undefined }, found);
    if (of !== undefined) needs.set(origin.result, of);
  }
  return key;
}

const ownUse = ({ usedFor: what, at }: Use) => (what === undefined ? [] : [{ what, at }]);

/** One result on one set of figures is one, whenever it was used. */
function keyOf({ id, outcome, givens }: Traced, pocket: string | undefined): string {
  return JSON.stringify([
    id,
    pocket,
    outcome,
    givens.map(({ name, si, shown }) => [name, si, shown]),
  ]);
}

function plannedUses(state: JobState, now: string): Use[] {
  const results = resultsAt(state);
  if (!results) return [];
  return results
    .all()
    .map(({ id }) => ({ id, results, pocket: undefined, usedFor: "the plan", at: now }));
}

/** The last use of every result by every reading, step and hold point, in one pass over the log. */
function lastUses(
  state: JobState,
  comparisons: readonly Comparison[],
  now: string,
  writer: Writer,
): Use[] {
  const sheet = state.programme?.sheet;
  if (!sheet) return [];
  const held = new Map<JobEvent, Comparison[]>();
  for (const each of comparisons) {
    held.set(each.reading.event, [...(held.get(each.reading.event) ?? []), each]);
  }
  const released = new Map(
    [...holdStates(state, now, writer).values()].flatMap(({ hold, history }) =>
      history.map(({ release, conditions }) => [release.event.hash, { hold, conditions }] as const),
    ),
  );
  const uses = new Map<string, Use>();
  const keep = (use: Use) => uses.set(`${use.usedFor} ${use.id}`, use);
  const reader = new LogReader();
  for (const event of state.events) {
    reader.read(event);
    const { body, at } = event;
    const then = reader.state;
    const use = (ids: readonly ResultId[], pocket: string | undefined, usedFor: string) => {
      const results = ids.length > 0 ? resultsAt(then, pocket) : undefined;
      if (!results) return;
      for (const id of ids) {
        if (id) keep({ id, results, pocket, usedFor, at });
      }
    };
    // A reading was held against the numbers of its moment, corrected since; a release stood on what was there then.
    for (const { reading, label, results, working } of held.get(event) ?? []) {
      const field = fieldById(sheet, reading.field);
      const most = field?.kind === "quantity" ? field.most : undefined;
      for (const id of [working, most]) {
        if (id)
          keep({ id, results, pocket: pocketOfField(sheet, reading.field), usedFor: label, at });
      }
    }
    if (body.type === "step done") {
      const step = stepById(sheet, body.step);
      use(step?.figures ?? [], step?.pocket, step?.title ?? body.step);
    }
    const given = released.get(event.hash);
    for (const { condition, results } of given?.conditions ?? []) {
      use(results, condition.pocket ?? given?.hold.pocket, `hold point "${given?.hold.title}"`);
    }
  }
  return [...uses.values()];
}
