import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import type { Results } from "../results/results.ts";
import {
  type AnyResultId,
  mandrelFigures,
  type ResultId,
  resultIds,
  type Traced,
} from "../results/traced.ts";
import type { Comparison } from "../review/planActual.ts";
import { fieldById, pocketOfField, stepById } from "../sheet/walk.ts";
import { resultsAt } from "../state/conditions.ts";
import { holdStates } from "../state/holdState.ts";
import type { JobState } from "../state/jobState.ts";
import { LogReader } from "../state/logReader.ts";
import type { Verdict } from "../verdict/verdict.ts";
import { verdictFigures, workingOf } from "../verdict/working.ts";

/** A result as the run used it: with what was measured by then. */
export interface UsedResult {
  readonly traced: Traced;
  /** what it is of whichever mandrel: figures of one family are worked out in the same way */
  readonly family: string;
  /** mandrel whose pocket it is for, by its id; undefined: the job's first */
  readonly pocket: string | undefined;
  /** where it was used on these figures, in the order of the log; empty where only another result needs it */
  readonly usedFor: readonly { readonly what: string; readonly at: string }[];
  /** instant as of which it was worked out first */
  readonly at: string;
  /** keys of the results that it is made from */
  readonly needs: ReadonlyMap<AnyResultId, string>;
}

/** What the results of a job were used for. */
export interface Uses {
  readonly state: JobState;
  readonly comparisons: readonly Comparison[];
  readonly verdict: Verdict | undefined;
  readonly now: string;
  readonly writer: Writer;
}

/**
 * Every result that a reading was held against, a step showed, a release stood on or the verdict goes by, as it was at
 * that moment, with those it is made from, by key. Used at several moments on the same figures it is one; of a thing
 * done again the last time counts. A job that has not been started has the results of its plan.
 */
export function usedResults(of: Uses): ReadonlyMap<string, UsedResult> {
  const last = of.state.started ? [...lastUses(of), ...verdictUses(of)] : plannedUses(of);
  const found = new Map<string, UsedResult>();
  for (const use of last) take(use, found);
  const place = ({ traced, family }: UsedResult) => ({
    family: families.indexOf(family),
    mandrel: mandrelIn(traced.id),
  });
  return new Map(
    [...found].sort(([, one], [, other]) => {
      const [a, b] = [place(one), place(other)];
      return a.family - b.family || a.mandrel - b.mandrel || (one.at < other.at ? -1 : 1);
    }),
  );
}

/** In the order in which they stand: those of the run, those of every mandrel, those of the verdict. */
const families: readonly string[] = [
  ...resultIds,
  ...mandrelFigures,
  ...verdictFigures.map((each) => `${each} by the verdict`),
];

const OF_MANDREL = / of mandrel (\d+)$/;
const familyOf = (id: AnyResultId) => id.replace(OF_MANDREL, "");
/** 0 where it is of no single one */
const mandrelIn = (id: AnyResultId) => Number(OF_MANDREL.exec(id)?.[1] ?? 0);

interface Use {
  readonly id: AnyResultId;
  readonly results: Pick<Results, "get">;
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
  found.set(key, {
    traced,
    family: familyOf(use.id),
    pocket: use.pocket,
    usedFor: ownUse(use),
    at: use.at,
    needs,
  });
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

function plannedUses({ state, now }: Uses): Use[] {
  const results = resultsAt(state);
  if (!results) return [];
  return results
    .all()
    .map(({ id }) => ({ id, results, pocket: undefined, usedFor: "the plan", at: now }));
}

/** What the verdict on the whole well goes by, at the pressures that were read. */
function verdictUses({ verdict, writer }: Uses): Use[] {
  const working = verdict && workingOf(verdict, writer);
  const at = verdict?.read?.takenAt;
  if (!working || at === undefined) return [];
  const usedFor = "the verdict on the well on lift";
  return working.ids.map((id) => ({ id, results: working, pocket: undefined, usedFor, at }));
}

/** The last use of every result by every reading, step and hold point, in one pass over the log. */
function lastUses({ state, comparisons, now, writer }: Uses): Use[] {
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
