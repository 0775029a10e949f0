import type { Line, OwnedTool, Stack, ToolString } from "../records/equipment.ts";
import type { Investigation } from "../records/investigation.ts";
import type { Job } from "../records/job.ts";
import type { Policy } from "../records/policy.ts";
import type { Valve } from "../records/valve.ts";
import type { Well } from "../records/well.ts";
import type { WorkingDay } from "../records/workingDay.ts";

/** The records of every table, by the table's name. */
export interface RecordTypes {
  wells: Well;
  valves: Valve;
  tools: OwnedTool;
  strings: ToolString;
  lines: Line;
  stacks: Stack;
  policies: Policy;
  jobs: Job;
  days: WorkingDay;
  investigations: Investigation;
}
export type RecordKind = keyof RecordTypes;
export const recordKinds: readonly RecordKind[] = [
  "wells",
  "valves",
  "tools",
  "strings",
  "lines",
  "stacks",
  "policies",
  "jobs",
  "days",
  "investigations",
];

/** Everything a planner keeps, held at one moment. */
export type Library = { readonly [K in RecordKind]: readonly RecordTypes[K][] };

export const emptyLibrary: Library = {
  wells: [],
  valves: [],
  tools: [],
  strings: [],
  lines: [],
  stacks: [],
  policies: [],
  jobs: [],
  days: [],
  investigations: [],
};
