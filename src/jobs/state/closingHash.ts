import { headsOf } from "../log/heads.ts";
import { hashOf } from "../log/seal.ts";
import type { JobState } from "./jobState.ts";

/**
 * What an approval signs, in one fingerprint: SHA-256 of the canonical JSON of the job's id and the hash of every
 * device's last event. Each of those hashes stands on all events before it, so that one changed letter anywhere in the
 * log changes the fingerprint. Once approved it is that of the log as the engineer saw it, whatever came in later.
 *
 * @returns undefined while there is no event
 */
export function closingHash({
  events,
  stage,
  decidedBy,
}: Pick<JobState, "events" | "stage" | "decidedBy">): string | undefined {
  const job = events[0]?.job;
  if (job === undefined) return undefined;
  const heads = stage === "approved" && decidedBy ? decidedBy.heads : headsOf(events);
  return hashOf({ job, heads });
}

/** A fingerprint as it is printed and read out: groups of four. */
export function inFours(hash: string): string {
  return hash.replace(/.{4}(?=.)/g, "$& ");
}
