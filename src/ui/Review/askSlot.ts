import type { ReactNode } from "react";
import type { Question } from "../../jobs/state/jobState.ts";

/** What stands beside a line of the record so that something can be asked about it; `what` names the line. */
export type AskSlot = (about: Question["about"], what: string) => ReactNode;
