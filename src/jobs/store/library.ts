import type { Line, Stack, ToolString } from "../records/equipment.ts";
import type { Job } from "../records/job.ts";
import type { Policy } from "../records/policy.ts";
import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";

/** The records of every table, by the table's name. */
export interface RecordTypes {
  wells: Well;
  valves: Valve;
  strings: ToolString;
  lines: Line;
  stacks: Stack;
  policies: Policy;
  jobs: Job;
}
export type RecordKind = keyof RecordTypes;
export const recordKinds: readonly RecordKind[] = [
  "wells",
  "valves",
  "strings",
  "lines",
  "stacks",
  "policies",
  "jobs",
];

/** Everything a planner keeps, held at one moment. */
export type Library = { readonly [K in RecordKind]: readonly RecordTypes[K][] };

export const emptyLibrary: Library = {
  wells: [],
  valves: [],
  strings: [],
  lines: [],
  stacks: [],
  policies: [],
  jobs: [],
};
