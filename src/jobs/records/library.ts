import { enteredString, line, ownedTool, stack, toolString } from "./equipment.ts";
import { investigation } from "./investigation.ts";
import { job } from "./job.ts";
import { policy } from "./policy.ts";
import { valve } from "./valve.ts";
import { well } from "./well.ts";
import { workingDay } from "./workingDay.ts";

/** Every kind of record, by the name of its table. */
export const recordSchemas = {
  wells: well,
  valves: valve,
  tools: ownedTool,
  strings: toolString,
  lines: line,
  stacks: stack,
  policies: policy,
  jobs: job,
  days: workingDay,
  investigations: investigation,
} as const;

/** The same as they may be entered from now on: stricter, for what was kept before has to stay readable. */
export const entrySchemas = { ...recordSchemas, strings: enteredString } as const;
