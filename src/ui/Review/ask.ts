import type { ReactNode } from "react";
import type { Question } from "../../jobs/state/jobState.ts";

/** What stands beside a line of the record so that something can be asked about it. */
export type Ask = (about: Question["about"]) => ReactNode;
