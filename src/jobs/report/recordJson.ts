import canonicalize from "canonicalize";
import { describeWarning } from "../../calc/describeWarning.ts";
import { observedFields } from "../commands/observe.ts";
import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { headsOf } from "../log/heads.ts";
import { describeBroken } from "../log/verify.ts";
import { type Dimension, toSI } from "../quantity.ts";
import { originInWords } from "../results/originInWords.ts";
import { type ReviewRecord, reviewRecord } from "../review/record.ts";
import { closingHash } from "../state/closingHash.ts";
import { holdStates } from "../state/holdState.ts";
import { afterApproval, type JobState } from "../state/jobState.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { aboutInWords } from "../state/questions.ts";
import { verdictOf } from "../verdict/verdict.ts";
import { labelOf } from "./readingInWords.ts";
import { type JobRecord, RECORD_VERSION } from "./recordSchema.ts";
import { siUnit } from "./siUnit.ts";
import { type UsedResult, usedResults } from "./usedResults.ts";

/** The record of a job as canonical JSON (RFC 8785): the same log gives the same text. */
export function recordJson(state: JobState, now: string, writer: Writer): string {
  const text = canonicalize(recordOfLog(state, now, writer));
  if (text === undefined) throw new TypeError("no programme has been issued");
  return text;
}

/** @returns undefined while no programme has been issued */
function recordOfLog(state: JobState, now: string, writer: Writer): JobRecord | undefined {
  const { programme, issued, stage, closed, decidedBy, events, revision } = state;
  const hash = closingHash(state);
  if (!programme || !issued || stage === "draft" || hash === undefined) return undefined;
  const record = reviewRecord(state, now, writer);
  const verdict = verdictOf(state, writer);
  const uses = { state, comparisons: record.comparisons, verdict, now, writer };
  return {
    format: "latchline-record",
    version: RECORD_VERSION,
    stage,
    job: programme.job,
    ...(programme.well && { well: programme.well }),
    programme: { revision, issuedBy: issued.hash },
    ...(closed?.body.type === "run closed" && {
      closing: {
        ...entry(closed),
        ...(closed.body.remark && { remark: closed.body.remark }),
        ...(closed.body.gaps && { gaps: closed.body.gaps }),
      },
    }),
    closingHash: hash,
    ...(decidedBy && {
      decision: {
        ...entry(decidedBy.event),
        decision: decidedBy.decision,
        ...(decidedBy.remark && { remark: decidedBy.remark }),
        heads: decidedBy.heads,
        notCovered: afterApproval(state).map(({ hash }) => hash),
      },
    }),
    chain: {
      whole: record.broken.length === 0,
      broken: record.broken.map(describeBroken),
      heads: headsOf(events),
    },
    readings: readingsOf(state, record, writer),
    holds: holdsOf(state, now, writer),
    exceptions: state.exceptions.map(
      ({ event, hold, condition, covers, reason, authoriser, basis, setAside }) => ({
        ...entry(event),
        ...{ hold, condition, covers, reason, authoriser },
        basis: [...basis],
        ...(setAside && { setAsideBy: setAside.hash }),
      }),
    ),
    corrections: events.flatMap((event) => {
      if (event.body.type !== "correction") return [];
      const { corrects, field, value, reason } = event.body;
      return [{ ...entry(event), corrects, field, value, reason }];
    }),
    questions: state.questions.map(({ event, about, text, answers }) => ({
      ...entry(event),
      about: aboutInWords(state, about),
      text,
      answers: answers.map((answer) => ({ ...entry(answer.event), text: answer.text })),
    })),
    results: [...usedResults(uses).values()].map((used) => resultOf(used, writer)),
    events: [...events],
  };
}

const entry = ({ at, actor, hash }: JobEvent) => ({ at, by: actor, hash });

const figure = (dimension: Dimension, value: number) => ({ value, unit: siUnit(dimension) });

function readingsOf(
  state: JobState,
  { comparisons }: ReviewRecord,
  { atmosphere }: Writer,
): JobRecord["readings"] {
  const held = new Map(comparisons.map((each) => [each.reading, each]));
  const ofTheRun = state.readings.map((reading) => {
    const { event, field, step, takenAt, value, original, corrections, setAside } = reading;
    const dimension = value.kind === "quantity" ? value.dimension : undefined;
    const si = quantitySI(reading, atmosphere);
    const { expected, most } = held.get(reading) ?? {};
    return {
      ...entry(event),
      ...{ field, step, takenAt, value },
      label: labelOf(state, field),
      ...(corrections.length > 0 && { original }),
      ...(dimension && si !== undefined && { si: figure(dimension, si) }),
      ...(dimension && expected !== undefined && { expected: figure(dimension, expected) }),
      ...(dimension && most !== undefined && { most: figure(dimension, most) }),
      device: event.device,
      sequence: event.sequence,
      ...(setAside && { setAsideBy: setAside.hash }),
    };
  });
  const place = ({ hash }: { readonly hash: string }) => state.position.get(hash) ?? -1;
  return [...ofTheRun, ...onLift(state, atmosphere)].sort(
    (one, other) => place(one) - place(other),
  );
}

/** What was read of the well on lift, a figure each, as the table of readings has it. */
function onLift(state: JobState, atmosphere: number): JobRecord["readings"] {
  const fields = observedFields(state);
  return state.observed.flatMap(({ event, observed, corrected }) =>
    fields.flatMap(({ id: field, label, dimension }) => {
      const quantity = observed[field];
      if (!quantity) return [];
      return [
        {
          ...entry(event),
          ...{ field, label, step: "on-lift", takenAt: observed.takenAt, source: observed.source },
          value: { kind: "quantity" as const, dimension, ...quantity },
          si: figure(dimension, toSI(dimension, quantity, atmosphere)),
          device: event.device,
          sequence: event.sequence,
          ...(corrected && {
            corrected: { ...entry(corrected.event), reason: corrected.reason },
          }),
        },
      ];
    }),
  );
}

function holdsOf(state: JobState, now: string, writer: Writer): JobRecord["holds"] {
  return [...holdStates(state, now, writer).values()].map(({ hold, status, history }) => ({
    id: hold.id,
    title: hold.title,
    status,
    releases: history.map(({ release, conditions, rejected, brokenBy, again }) => ({
      ...entry(release.event),
      basis: [...release.basis],
      conditions: conditions.map(({ condition, state: found, says }) => ({
        id: condition.id,
        text: condition.text,
        state: found,
        says,
      })),
      ...(rejected !== undefined && { rejected }),
      ...(brokenBy && { voidedBy: brokenBy.hash }),
      ...(again && { setAsideBy: again.hash }),
    })),
    signatures: state.signatures
      .filter((each) => each.hold === hold.id)
      .map(({ event, by, drawn, setAside }) => ({
        ...entry(event),
        signedBy: by,
        drawn: drawn !== undefined,
        ...(setAside && { setAsideBy: setAside.hash }),
      })),
  }));
}

function resultOf(
  { traced, pocket, usedFor }: UsedResult,
  writer: Writer,
): JobRecord["results"][number] {
  const { id, label, dimension, outcome, givens, method, warnings } = traced;
  return {
    id,
    label,
    ...(pocket !== undefined && { pocket }),
    outcome:
      outcome.state === "known"
        ? { state: "known", ...figure(dimension, outcome.si) }
        : outcome.state === "missing"
          ? { state: "missing", needs: [...outcome.needs] }
          : { state: "no answer", why: outcome.why },
    givens: givens.map((given) => ({
      symbol: given.symbol,
      name: given.name,
      // Where words stand in place of the figure, the figure says nothing by itself.
      ...(given.si !== undefined &&
        given.shown === undefined && { si: figure(given.dimension, given.si) }),
      ...(given.shown !== undefined && { shown: given.shown }),
      from: originInWords(given.origin, (at) => at),
    })),
    formula: method.formula,
    method: method.name,
    source: method.source,
    warnings: warnings.map((warning) => describeWarning(warning, writer.measure)),
    usedFor: usedFor.map((use) => ({ ...use })),
  };
}
