import type { JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";
import { headOf, seal } from "../../src/jobs/log/seal.ts";
import { type Library, recordKinds } from "../../src/jobs/store/library.ts";
import {
  Conflict,
  type HalfTyped,
  Moved,
  Outdated,
  type Store,
} from "../../src/jobs/store/store.ts";

/** A store in memory: the second implementation of the port, and as strict as the first. */
export function memoryStore(device = crypto.randomUUID()): Store {
  const tables = new Map(
    recordKinds.map((kind) => [kind, new Map<string, { id: string; revision: number }>()]),
  );
  const events = new Map<string, JobEvent>();
  const typed = new Map<string, HalfTyped>();
  const table = (kind: (typeof recordKinds)[number]) => {
    const found = tables.get(kind);
    if (!found) throw new Error(kind);
    return found;
  };
  const ofJob = (job: string) => [...events.values()].filter((event) => event.job === job);
  return {
    device,
    async append(drafts, options = {}) {
      const [first] = drafts;
      if (!first) return [];
      const before = ofJob(first.job);
      const written = before.filter((event) => drafts.some((draft) => draft.id === event.id));
      if (written.length === drafts.length) return written;
      if (options.seen !== undefined && options.seen !== before.length) throw new Moved("grown");
      const sealed = seal(drafts, device, headOf(before, device));
      for (const { id } of sealed) {
        if ([...events.values()].some((event) => event.id === id)) throw new Error(`${id} twice`);
      }
      for (const event of sealed) events.set(event.hash, event);
      if (options.recorded) typed.delete(`${options.recorded.job} ${options.recorded.step}`);
      return sealed;
    },
    eventsOf: async (job) => inOrder(ofJob(job)),
    allEvents: async () => [...events.values()],
    library: async () =>
      Object.fromEntries(
        recordKinds.map((kind) => [kind, [...table(kind).values()]]),
      ) as unknown as Library,
    async put(kind, record) {
      const known = table(kind).get(record.id);
      if (known && known.revision !== record.revision - 1) throw new Outdated("changed meanwhile");
      table(kind).set(record.id, record);
    },
    async receive(arrival) {
      for (const kind of recordKinds) {
        for (const { id, revision } of arrival.records[kind] ?? []) {
          const known = table(kind).get(id);
          if (known && known.revision >= revision) throw new Outdated(`${kind} ${id}`);
        }
      }
      for (const event of arrival.events) {
        const place = (each: JobEvent) => `${each.job} ${each.device} ${each.sequence}`;
        const taken = [...events.values()].find((each) => place(each) === place(event));
        if (taken && taken.hash !== event.hash) throw new Conflict(place(event));
      }
      for (const kind of recordKinds) {
        for (const record of arrival.records[kind] ?? []) table(kind).set(record.id, record);
      }
      for (const event of arrival.events) events.set(event.hash, event);
    },
    async remove(records) {
      for (const kind of recordKinds) {
        for (const id of records[kind] ?? []) table(kind).delete(id);
      }
      for (const event of [...events.values()]) {
        if (records.jobs?.includes(event.job)) events.delete(event.hash);
      }
      for (const [key, each] of typed) if (records.jobs?.includes(each.job)) typed.delete(key);
    },
    halfTyped: async (job, step) => typed.get(`${job} ${step}`),
    async keepHalfTyped(given) {
      typed.set(`${given.job} ${given.step}`, given);
    },
  };
}
