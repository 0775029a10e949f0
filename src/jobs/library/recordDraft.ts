import type { Store } from "../store/store.ts";
import type { LibraryKind } from "./entry.ts";
import type { Begun } from "./newRecord.ts";

/**
 * A new record while it is typed, kept on the tablet at every key: one of each kind. It is no record until it is saved,
 * and no other screen knows of it.
 */

type Keeping = Pick<Store, "halfTyped" | "keepHalfTyped">;

export interface RecordDraft {
  readonly record: Begun;
  /** the record it was begun from, by its id */
  readonly from?: string | undefined;
}

const place = (kind: LibraryKind) => ({ job: `new ${kind}`, step: "draft" });

/** Settles when the draft is durable; undefined leaves none behind. */
export async function keepRecordDraft(
  store: Keeping,
  kind: LibraryKind,
  draft: RecordDraft | undefined,
): Promise<void> {
  const fields = draft ? { draft: { text: JSON.stringify(draft) } } : {};
  await store.keepHalfTyped({ ...place(kind), since: "", fields });
}

/** The draft of a new record of a kind; undefined where there is none, or none that can be read. */
export async function keptRecordDraft(
  store: Keeping,
  kind: LibraryKind,
): Promise<RecordDraft | undefined> {
  const { job, step } = place(kind);
  try {
    const text = (await store.halfTyped(job, step))?.fields.draft?.text;
    if (text === undefined) return undefined;
    const draft = JSON.parse(text) as Partial<RecordDraft>;
    return typeof draft.record?.id === "string" ? (draft as RecordDraft) : undefined;
  } catch {
    return undefined;
  }
}
