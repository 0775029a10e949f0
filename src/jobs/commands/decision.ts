import type { EventBody } from "../log/event.ts";

/** Something that was typed and is unlikely, or over a limit: it is recorded when somebody stands by it. */
export interface Doubt {
  readonly field: string;
  readonly says: string;
  /** over a limit: a reason goes with it */
  readonly needsReason: boolean;
  /** what the reason is asked with, where it is for something else than a limit */
  readonly asks?: string;
}

/** What a command comes to: events to write, or why not. */
export type Decision =
  | {
      readonly ok: true;
      readonly bodies: readonly EventBody[];
      /** why the step is recorded and not done */
      readonly stopped?: string;
    }
  | {
      readonly ok: false;
      readonly why: string;
      readonly field?: string;
      readonly doubts?: readonly Doubt[];
    };

export const accept = (...bodies: EventBody[]): Decision => ({ ok: true, bodies });

export const refuse = (why: string, field?: string): Decision => ({
  ok: false,
  why,
  ...(field !== undefined && { field }),
});
