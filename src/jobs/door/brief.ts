import { describeWarning } from "../../calc/describeWarning.ts";
import type { Operation } from "../../calc/door/operation.ts";
import { InputError } from "../../calc/inputError.ts";
import { assemble } from "../assemble.ts";
import { displayUnit, type Writer, writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { inOrder } from "../log/order.ts";
import { type PackContent, readPack } from "../pack/pack.ts";
import { targetMandrel } from "../programme.ts";
import { fromSI } from "../quantity.ts";
import type { Job } from "../records/job.ts";
import { siteAtmosphere } from "../results/context.ts";
import { resultsOf } from "../results/results.ts";
import type { Traced } from "../results/traced.ts";
import { resultsAt } from "../state/conditions.ts";
import { foldInOrder } from "../state/jobState.ts";

/**
 * The command line's `brief`: every calculated result of every job of a pack, as the app shows it, in the
 * units of the field. A job that was issued is worked out from its programme and its readings, one that
 * was not from the records of the pack.
 */
export const briefOperation: Operation = {
  name: "brief",
  keys: {},
  run(input) {
    const given = input.everything();
    const read = readPack(JSON.stringify(given));
    if (!read.ok) throw new InputError("pack", given.format, `a job pack: ${read.why}`);
    const { content } = read.pack;
    return {
      jobs: content.records.jobs.map((job) => briefOf(job, content)),
      method: "every result of the app, each with its own method",
      source: "named beside each result",
      warnings: [],
    };
  },
};

function briefOf(job: Job, { records, events }: PackContent) {
  const log = events.filter((event): event is JobEvent => event.job === job.id);
  const state = foldInOrder(inOrder(log));
  const programme = state.programme ?? assemble(job, records);
  const results = resultsAt(state) ?? resultsOf(programme, {});
  const write = writer("field", siteAtmosphere(programme));
  return {
    job: job.id,
    day: job.day,
    stage: state.stage,
    well: programme.well?.name,
    mandrel: targetMandrel(programme)?.number,
    results: results.all().map((traced) => resultOf(traced, write)),
  };
}

function resultOf({ id, label, dimension, outcome, method, warnings }: Traced, write: Writer) {
  const unit = displayUnit(write.system, dimension);
  return {
    id,
    label,
    state: outcome.state,
    ...(outcome.state === "known" && {
      value: fromSI(dimension, outcome.si, unit, write.atmosphere),
      unit,
      shown: write.write(dimension, outcome.si),
    }),
    ...(outcome.state === "missing" && { needs: outcome.needs }),
    ...(outcome.state === "no answer" && { why: outcome.why }),
    method: method.name,
    source: method.source,
    warnings: warnings.map((warning) => describeWarning(warning, write.measure)),
  };
}
