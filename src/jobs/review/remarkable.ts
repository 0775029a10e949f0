import type { JobEvent } from "../log/event.ts";

/** Something an engineer has to look at, with the event it comes from. */
export interface Remarkable {
  readonly kind:
    | "exception"
    | "hold point voided"
    | "hold point passed unreleased"
    | "answer"
    | "correction"
    | "step left out"
    | "limit exceeded"
    | "stood by"
    | "contingency"
    | "done again"
    | "done on two tablets"
    | "standby"
    | "crew change"
    | "tablets differed"
    | "not followed";
  readonly title: string;
  readonly says: string;
  readonly event: JobEvent | undefined;
}
