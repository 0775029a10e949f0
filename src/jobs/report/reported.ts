import type { Writer } from "../display.ts";
import type { JobEvent } from "../log/event.ts";
import type { Programme } from "../records/programme.ts";
import type { ReviewRecord } from "../review/record.ts";
import type { JobState } from "../state/jobState.ts";
import type { Progress } from "../state/progress.ts";
import type { Verdict } from "../verdict/verdict.ts";

/** What lies beside the log and is known of it here. */
export interface ReportExtra {
  /** hashes of pictures that the log names and this tablet does not hold */
  readonly missing: ReadonlySet<string>;
}

/** A job as the parts of its report look at it: worked out once for all of them. */
export interface Reported {
  readonly state: JobState;
  /** that the crew worked on */
  readonly programme: Programme;
  readonly record: ReviewRecord;
  readonly progress: Progress;
  readonly verdict: Verdict | undefined;
  /** instant at which the report is asked for */
  readonly now: string;
  readonly writer: Writer;
  readonly extra: ReportExtra;
}

/** The place of an event in the log, from 1: how the report refers to it. */
export const entryNumber = ({ position }: JobState, { hash }: Pick<JobEvent, "hash">) =>
  String((position.get(hash) ?? -1) + 1);

/** Who did something, as a report writes it. */
export const byWhom = ({ actor }: Pick<JobEvent, "actor">) => `${actor.name}, ${actor.role}`;
