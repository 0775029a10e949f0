import type { EvidenceDraft } from "../../jobs/diagnosis/evidenceDraft.ts";
import { kindNames } from "../../jobs/diagnosis/evidenceFields.ts";
import type { LogDraft } from "../../jobs/diagnosis/logEvidence.ts";
import { type ChangedIn, type Keeping, readDraft, writeDraft } from "../../jobs/store/draftRow.ts";

/** What is typed on this screen and not evidence yet, one of each for an investigation. */

const place = (investigation: string) => `fault ${investigation}`;

/** Settles when the draft is durable; undefined leaves none behind. */
export const keepEvidenceDraft = (
  store: Keeping,
  investigation: string,
  draft: EvidenceDraft | undefined,
  changed?: ChangedIn,
): Promise<void> => writeDraft(store, place(investigation), "evidence", draft, changed);

export async function keptEvidenceDraft(
  store: Keeping,
  investigation: string,
): Promise<EvidenceDraft | undefined> {
  try {
    const draft = (await readDraft(store, place(investigation), "evidence")) as
      | EvidenceDraft
      | undefined;
    const isOne =
      typeof draft?.id === "string" &&
      Object.hasOwn(kindNames, draft.kind) &&
      Array.isArray(draft.rows);
    return isOne ? draft : undefined;
  } catch {
    return undefined;
  }
}

/** Words of this screen that stand by themselves: what made somebody look, why the engineer agrees. */
export const keepWords = (
  store: Keeping,
  of: string,
  what: "complaint" | "reason",
  words: string,
  changed?: ChangedIn,
): Promise<void> =>
  writeDraft(store, place(of), what, words === "" ? undefined : { words }, changed);

export async function keptWords(
  store: Keeping,
  of: string,
  what: "complaint" | "reason",
): Promise<string> {
  try {
    const kept = (await readDraft(store, place(of), what)) as { words?: unknown } | undefined;
    return typeof kept?.words === "string" ? kept.words : "";
  } catch {
    return "";
  }
}

/** A longer text is on somebody's clipboard or disk still; kept at each key it would hold up the typing. */
const LONGEST = 400_000;

export const keepLogDraft = (
  store: Keeping,
  investigation: string,
  kind: "trend" | "survey",
  draft: LogDraft | undefined,
  changed?: ChangedIn,
): Promise<void> =>
  writeDraft(
    store,
    place(investigation),
    `log of a ${kind}`,
    draft && { ...draft, text: draft.text.length > LONGEST ? "" : draft.text },
    changed,
  );

export async function keptLogDraft(
  store: Keeping,
  investigation: string,
  kind: "trend" | "survey",
): Promise<LogDraft | undefined> {
  try {
    const draft = (await readDraft(store, place(investigation), `log of a ${kind}`)) as
      | LogDraft
      | undefined;
    return typeof draft?.text === "string" && typeof draft.source === "string" ? draft : undefined;
  } catch {
    return undefined;
  }
}

/** Everything that was typed here before and is not kept yet. */
export interface KeptHere {
  readonly evidence: EvidenceDraft | undefined;
  readonly trend: LogDraft | undefined;
  readonly survey: LogDraft | undefined;
  readonly reason: string;
  readonly complaint: string;
}
