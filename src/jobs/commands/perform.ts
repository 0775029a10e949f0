import { type UnitSystem, writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { siteAtmosphere } from "../results/context.ts";
import type { Actor } from "../roles.ts";
import { foldInOrder } from "../state/jobState.ts";
import type { Store } from "../store/store.ts";
import type { Decision } from "./decision.ts";
import type { Situation } from "./run.ts";

/** Who acts, when, and in which units reasons are written. */
export interface Acting {
  readonly actor: Actor;
  readonly now: string;
  readonly units: UnitSystem;
}

/**
 * Decides on the log as it stands and writes what was decided.
 *
 * @returns the decision, with the events once they are durable. A refused decision writes nothing; a
 *          failed write throws, and the caller keeps what was typed.
 */
export async function perform(
  store: Pick<Store, "eventsOf" | "append">,
  job: string,
  { actor, now, units }: Acting,
  decide: (situation: Situation) => Decision,
): Promise<Decision & { readonly events: readonly JobEvent[] }> {
  const state = foldInOrder(await store.eventsOf(job));
  const atmosphere = siteAtmosphere(state.programme ?? {});
  const decision = decide({ state, actor, now, writer: writer(units, atmosphere) });
  if (!decision.ok) return { ...decision, events: [] };
  const drafts = decision.bodies.map((body) => ({
    id: crypto.randomUUID(),
    job,
    at: now,
    actor,
    body,
  }));
  return { ...decision, events: await store.append(drafts) };
}
