import {
  type Evidence,
  type Investigation,
  investigation,
  MOST_EVIDENCE,
} from "../records/investigation.ts";
import type { Actor } from "../roles.ts";
import { Outdated, type Store } from "../store/store.ts";

/** A change that the investigation does not take; it says why, and nothing was written. */
export class NotChanged extends Error {
  override readonly name = "NotChanged";
}

/**
 * Each is the investigation as it is to be; its revision is counted here.
 *
 * @throws NotChanged where it cannot be
 */
export type Change = (now: Investigation) => Investigation;

const TRIES = 4;

/**
 * Changes an investigation as it is in the store at that moment: two hands that add evidence at once both count.
 *
 * Settles when the change is durable.
 *
 * @throws NotChanged when it is not there any more, or does not take the change
 */
export async function changeInvestigation(
  store: Pick<Store, "recordsFor" | "put">,
  id: string,
  change: Change,
): Promise<void> {
  for (let tries = 1; ; tries++) {
    const { investigations } = await store.recordsFor({ records: { investigations: [id] } });
    const [before] = investigations;
    if (!before) {
      throw new NotChanged(
        "Not saved: this investigation is not on the tablet any more. What you entered is still on this screen.",
      );
    }
    const after = change(before);
    if (after === before) return;
    const record = investigation.parse({ ...after, revision: before.revision + 1 });
    try {
      await store.put("investigations", record);
      return;
    } catch (error) {
      if (!(error instanceof Outdated) || tries === TRIES) throw error;
    }
  }
}

/** @param at instant */
export const opened = (
  id: string,
  well: string,
  complaint: string,
  { name }: Actor,
  at: string,
): Investigation =>
  investigation.parse({
    id,
    revision: 1,
    well,
    opened: at,
    openedBy: name,
    ...(complaint.trim() !== "" && { complaint: complaint.trim() }),
    evidence: [],
  });

/** A piece more, or the same piece as it reads now. */
export const withEvidence =
  (...pieces: readonly Evidence[]): Change =>
  (now) => {
    const evidence = [
      ...now.evidence.map((old) => {
        const read = pieces.find(({ id }) => id === old.id);
        return read ? { ...read, ...(old.setAside && { setAside: true }) } : old;
      }),
      ...pieces.filter(({ id }) => !now.evidence.some((old) => old.id === id)),
    ];
    if (evidence.length > MOST_EVIDENCE) {
      throw new NotChanged(
        `Not saved: ${MOST_EVIDENCE} pieces of evidence are kept of one investigation, and it has ${now.evidence.length}. Begin a new investigation to go on.`,
      );
    }
    return { ...now, evidence };
  };

/** Kept, and left out of the ranking; or taken in again. */
export const setAside =
  (id: string, isSetAside: boolean): Change =>
  (now) => ({
    ...now,
    evidence: now.evidence.map((piece) => {
      if (piece.id !== id) return piece;
      const { setAside: _, ...kept } = piece;
      return isSetAside ? { ...kept, setAside: true } : kept;
    }),
  });

export const withComplaint =
  (words: string): Change =>
  ({ complaint: _, ...now }) => ({
    ...now,
    ...(words.trim() !== "" && { complaint: words.trim() }),
  });

/** The engineer agrees, or agrees anew; what a job stands on is not changed any more. */
export const agree =
  (agreed: NonNullable<Investigation["agreed"]>): Change =>
  (now) => {
    if (now.agreed?.job === undefined) return { ...now, agreed };
    throw new NotChanged(
      `Not saved: a job was made of what ${now.agreed.by} agreed, and that stands. Begin a new investigation to agree otherwise.`,
    );
  };

/** The investigation that led to a job, as it is kept with it. */
export function withJob(now: Investigation, job: string): Investigation {
  if (!now.agreed || now.agreed.job === job) return now;
  return { ...now, revision: now.revision + 1, agreed: { ...now.agreed, job } };
}

/** The one under work: the latest that was opened. Those before are kept. */
export const underWork = (all: readonly Investigation[]): Investigation | undefined =>
  [...all].sort((a, b) => b.opened.localeCompare(a.opened) || b.id.localeCompare(a.id))[0];
