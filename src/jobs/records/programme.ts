import { z } from "../schema.ts";
import { sheet } from "../sheet/sheet.ts";
import { line, stack, toolString } from "./equipment.ts";
import { job } from "./job.ts";
import { policy } from "./policy.ts";
import { valve } from "./valve.ts";
import { well } from "./well.ts";

/**
 * Everything a job stands on, in one piece: the records as they were when it was put together. A part
 * that the planner has not chosen, or that the library no longer holds, is absent.
 *
 * Issued, it goes into the log whole, so that later edits to the library cannot change what the crew
 * works on: the crew works on one revision only.
 */
export const programme = z.strictObject({
  job,
  well: well.optional(),
  /** Valves in the well's pockets. */
  installed: z.array(valve),
  replacement: valve.optional(),
  /** Valves that go into the further pockets. */
  replacements: z.array(valve).optional(),
  strings: z.strictObject({
    gauge: toolString.optional(),
    pull: toolString.optional(),
    set: toolString.optional(),
    catcher: toolString.optional(),
  }),
  line: line.optional(),
  stack: stack.optional(),
  policy: policy.optional(),
  sheet,
});
export type Programme = z.infer<typeof programme>;
