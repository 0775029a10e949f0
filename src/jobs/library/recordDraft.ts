import { type ChangedIn, type Keeping, readDraft, writeDraft } from "../store/draftRow.ts";
import type { RecordKind } from "../store/library.ts";
import type { LibraryKind } from "./entry.ts";
import type { Begun } from "./newRecord.ts";

/**
 * A new record while it is typed, kept on the tablet at every key: one of each kind. It is no record until it is saved,
 * and no other screen knows of it.
 */

export interface RecordDraft {
  readonly record: Begun;
  /** the record it was begun from, by its id */
  readonly from?: string | undefined;
}

const place = (kind: LibraryKind) => `new ${kind}`;
const STEP = "draft";

/** Settles when the draft is durable; undefined leaves none behind. */
export const keepRecordDraft = (
  store: Keeping,
  kind: LibraryKind,
  draft: RecordDraft | undefined,
): Promise<void> => writeDraft(store, place(kind), STEP, draft);

/** The draft of a new record of a kind; undefined where there is none, or none that can be read. */
export async function keptRecordDraft(
  store: Keeping,
  kind: LibraryKind,
): Promise<RecordDraft | undefined> {
  try {
    const draft = (await readDraft(store, place(kind), STEP)) as Partial<RecordDraft> | undefined;
    return typeof draft?.record?.id === "string" ? (draft as RecordDraft) : undefined;
  } catch {
    return undefined;
  }
}

const changing = (kind: RecordKind) => `changing ${kind}`;

/** The same for a record that is there and is being changed: one draft of each record. */
export const keepChangedRecord = (
  store: Keeping,
  kind: RecordKind,
  id: string,
  draft: Begun | undefined,
  changed?: ChangedIn,
): Promise<void> => writeDraft(store, changing(kind), id, draft, changed);

/** What was changed of a record and not saved; undefined where there is nothing, or nothing that can be read. */
export async function keptChangedRecord(
  store: Keeping,
  kind: RecordKind,
  id: string,
): Promise<Begun | undefined> {
  try {
    const draft = (await readDraft(store, changing(kind), id)) as Begun | undefined;
    return draft?.id === id ? draft : undefined;
  } catch {
    return undefined;
  }
}
