import type { JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";
import { headOf, seal } from "../../src/jobs/log/seal.ts";
import { type Library, recordKinds } from "../../src/jobs/store/library.ts";
import { type HalfTyped, Outdated, type Store } from "../../src/jobs/store/store.ts";

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
    async append(drafts) {
      const job = drafts[0]?.job ?? "";
      const known = ofJob(job).filter((event) => drafts.some((draft) => draft.id === event.id));
      const fresh = drafts.filter((draft) => !known.some((event) => event.id === draft.id));
      const sealed = seal(fresh, device, headOf(ofJob(job), device));
      for (const event of sealed) events.set(event.hash, event);
      return [...known, ...sealed];
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
      for (const event of arrival.events) {
        const taken = [...events.values()].find(
          (each) =>
            each.job === event.job &&
            each.device === event.device &&
            each.sequence === event.sequence &&
            each.hash !== event.hash,
        );
        if (taken) throw new Error("two events in one place of a chain");
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
    async dropHalfTyped(job, step) {
      typed.delete(`${job} ${step}`);
    },
  };
}
