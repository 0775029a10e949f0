import { type UnitSystem, writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import { draftId } from "../log/seal.ts";
import { siteAtmosphere } from "../results/context.ts";
import type { Actor } from "../roles.ts";
import { foldInOrder } from "../state/jobState.ts";
import { type AppendOptions, Moved, type Store } from "../store/store.ts";
import type { Decision } from "./decision.ts";
import type { Situation } from "./situation.ts";

/** Who acts, when, and in which units reasons are written. */
export interface Acting {
  readonly actor: Actor;
  readonly now: string;
  readonly units: UnitSystem;
  /** made when the entry was made, and the same when it is tried again: it is written once */
  readonly entry: string;
}

const ATTEMPTS = 5;

/**
 * Decides on the log as it stands and writes what was decided, on that log and no other: where another tab or an
 * arriving pack came between, it decides again.
 *
 * @returns the decision, with the events once they are durable. A refused decision writes nothing
 * @throws StoreFailed when they could not be kept: the caller keeps what was typed and tries with the same entry
 */
export async function perform(
  store: Pick<Store, "eventsOf" | "append">,
  job: string,
  { actor, now, units, entry }: Acting,
  decide: (situation: Situation) => Decision,
  options: Pick<AppendOptions, "recorded" | "pictures"> = {},
): Promise<Decision & { readonly events: readonly JobEvent[] }> {
  for (let attempt = 1; ; attempt += 1) {
    const before = await store.eventsOf(job);
    const written = writtenBy(entry, before);
    if (written.length > 0) return { ok: true, bodies: [], events: written };
    const state = foldInOrder(before);
    const atmosphere = siteAtmosphere(state.programme ?? {});
    const decision = decide({ state, actor, now, writer: writer(units, atmosphere) });
    if (!decision.ok) return { ...decision, events: [] };
    const drafts = decision.bodies.map((body, index) => ({
      id: draftId(entry, index),
      job,
      at: now,
      actor,
      body,
    }));
    try {
      const events = await store.append(drafts, { ...options, seen: before.length });
      return { ...decision, events };
    } catch (error) {
      if (!(error instanceof Moved) || attempt === ATTEMPTS) throw error;
    }
  }
}

/** Everything that an entry wrote when it was tried before, in its order. */
function writtenBy(entry: string, events: readonly JobEvent[]): JobEvent[] {
  const byId = new Map(events.map((event) => [event.id, event]));
  const written: JobEvent[] = [];
  for (let index = 0; ; index += 1) {
    const event = byId.get(draftId(entry, index));
    if (!event) return written;
    written.push(event);
  }
}
