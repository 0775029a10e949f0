import type { HalfTyped, Store } from "./store.ts";

/** What is changed of a record and not saved yet, kept on the tablet beside what is half typed. */

export type Keeping = Pick<Store, "halfTyped" | "keepHalfTyped">;

/** In which window it was changed, and when: of two that are kept of one window, the later is the one to go on with. */
export type ChangedIn = Required<Pick<HalfTyped, "window" | "at">>;

/** Settles when it is durable. @param value undefined leaves nothing behind */
export function writeDraft(
  store: Keeping,
  job: string,
  step: string,
  value: unknown,
  changed?: ChangedIn,
): Promise<void> {
  const fields = value === undefined ? {} : { draft: { text: JSON.stringify(value) } };
  return store.keepHalfTyped({ job, step, since: "", fields, ...changed });
}

/** @throws where the store does not answer, or what is kept is spoilt */
export async function readDraft(store: Keeping, job: string, step: string): Promise<unknown> {
  const text = (await store.halfTyped(job, step))?.fields.draft?.text;
  return text === undefined ? undefined : JSON.parse(text);
}
