import { day, id, instant, recordBase, text, z } from "../schema.ts";

/** Something taken along beside what the jobs ask for. */
const extra = z.strictObject({ id, name: text, count: z.number().int().min(1).max(999) });

/** A day's work of one crew: its jobs in their order, and what was loaded for them. Its id is the day. */
export const workingDay = z.strictObject({
  ...recordBase,
  id: day,
  /** Jobs by their ids, in the order they are driven; jobs of the day that are not here come after. */
  order: z.array(id).max(50),
  /** Lines of the load-out list that somebody ticked, by the line's key. */
  loaded: z
    .array(
      z.strictObject({
        line: text,
        at: instant,
        by: text,
        /** as the line read then: one that reads otherwise now is ticked again */
        read: text.optional(),
      }),
    )
    .max(2000),
  extras: z.array(extra).max(200),
  remarks: z.string().max(4000).optional(),
});
export type WorkingDay = z.infer<typeof workingDay>;
