import { perform } from "../../src/jobs/commands/perform.ts";
import { addNote } from "../../src/jobs/commands/run.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { foldInOrder } from "../../src/jobs/state/jobState.ts";
import { progressOf } from "../../src/jobs/state/progress.ts";
import { memoryStore } from "../jobs/memoryStore.ts";
import { longLog } from "./longLog.ts";
import { type Quantiles, quantilesOf } from "./quantiles.ts";

const TIMES = 30;

/** A long log in memory: what one more event costs, and the parts of that. */
export async function benchLongLog(): Promise<Quantiles[]> {
  const { tablet } = longLog();
  const { events, job, actor, clock, writer } = tablet;
  const store = memoryStore();
  await store.receive({ records: {}, events });
  const timed = async (what: string, work: () => unknown) => {
    const took: number[] = [];
    for (let time = 0; time < TIMES; time += 1) {
      const begun = performance.now();
      await work();
      took.push(performance.now() - begun);
    }
    return quantilesOf(`${what}, ${events.length} events`, took);
  };
  return [
    await timed("fold a long log", () => foldInOrder(events)),
    await timed("every hold point of it, from nothing", () =>
      progressOf(foldInOrder(events), clock, writer),
    ),
    await timed("verify it", () => brokenLinks(events)),
    await timed("decide, append one event, fold again, every hold point", async () => {
      const acting = { actor, now: clock, units: "field" as const, entry: crypto.randomUUID() };
      await perform(store, job, acting, (s) => addNote(s, "wind is up"));
      progressOf(foldInOrder(await store.eventsOf(job)), clock, writer);
    }),
  ];
}
