import { type Keeping, readDraft, writeDraft } from "../store/draftRow.ts";
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

/** What is typed into a record that is here already and not saved, by the record's kind and id. */
const placeOf = (kind: string, id: string) => `typed ${kind} ${id}`;

/** Settles when it is durable; undefined leaves none behind. */
export const keepTyped = (
  store: Keeping,
  kind: string,
  id: string,
  typed: Readonly<Record<string, unknown>> | undefined,
): Promise<void> => writeDraft(store, placeOf(kind, id), STEP, typed);

/** What was typed into a record and not saved; undefined where there is nothing, or nothing that can be read. */
export async function keptTyped(
  store: Keeping,
  kind: string,
  id: string,
): Promise<Record<string, unknown> | undefined> {
  try {
    const typed = (await readDraft(store, placeOf(kind, id), STEP)) as
      | Record<string, unknown>
      | undefined;
    return typed?.id === id ? typed : undefined;
  } catch {
    return undefined;
  }
}
