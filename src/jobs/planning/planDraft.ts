import { z } from "../schema.ts";
import { works } from "../sheet/changeOut/options.ts";
import type { Store } from "../store/store.ts";

/** A plan that is being made: what the planner chose and typed. Everything else follows from it and is not kept. */

const typed = z.strictObject({ text: z.string().max(4000), unit: z.string().max(40).optional() });

const pocketDraft = z.strictObject({ mandrel: z.string(), work: z.enum(works) });
export type PocketDraft = z.infer<typeof pocketDraft>;

const planDraft = z.strictObject({
  /** of the job that it becomes, so that keeping it twice is keeping it once */
  id: z.string(),
  well: z.string().optional(),
  /** in the order they are worked; the first is the job's own */
  pockets: z.array(pocketDraft).max(10),
  reason: z.string().max(4000),
  /** that led to it, by its id: it is told which job it became */
  investigation: z.string().optional(),
  /** when that was agreed on which the plan is made: agreed anew, it is another plan's reason */
  agreed: z.string().optional(),
  day: z.string().max(10).optional(),
  catcher: z.boolean(),
  /** What stands in the place of a proposal, by the key of its line; an empty text leaves the line open. */
  mine: z.record(z.string(), typed),
});
export type PlanDraft = z.infer<typeof planDraft>;

export const freshPlan = (id: string): PlanDraft => ({
  id,
  pockets: [],
  reason: "",
  catcher: false,
  mine: {},
});

/** The plan for another well: what was chosen for the pockets of the old one goes. */
export const forWell = (draft: PlanDraft, well: string | undefined): PlanDraft => {
  const { well: _, investigation: __, agreed: ___, ...rest } = draft;
  return { ...rest, pockets: [], mine: {}, ...(well !== undefined && { well }) };
};

/** The plan with something in the place of a proposal; undefined: the proposal again. */
export function withMine(
  draft: PlanDraft,
  key: string,
  value: PlanDraft["mine"][string] | undefined,
): PlanDraft {
  const { [key]: _, ...mine } = draft.mine;
  return { ...draft, mine: value === undefined ? mine : { ...mine, [key]: value } };
}

/** Keys of the lines that are about one pocket. */
export const ofPocket = (mandrel: string, what: string): string => `${what} of ${mandrel}`;

/** The plan without one of its further pockets. */
export function withoutPocketOf(draft: PlanDraft, mandrel: string): PlanDraft {
  const mine = Object.entries(draft.mine).filter(([key]) => !key.endsWith(` of ${mandrel}`));
  return {
    ...draft,
    pockets: draft.pockets.filter((each) => each.mandrel !== mandrel),
    mine: Object.fromEntries(mine),
  };
}

type Keeping = Pick<Store, "halfTyped" | "keepHalfTyped">;

/** One plan is made at a time on a device. */
const place = { job: "plan", step: "draft of the plan" } as const;

/** Settles when the plan is durable; undefined takes it away. */
export async function keepPlan(store: Keeping, draft: PlanDraft | undefined): Promise<void> {
  await store.keepHalfTyped({
    ...place,
    since: "",
    fields: draft ? { draft: { text: JSON.stringify(draft) } } : {},
  });
}

/** The plan that was begun here; undefined where there is none, or none that can be read. */
export async function keptPlan(store: Keeping): Promise<PlanDraft | undefined> {
  const text = (await store.halfTyped(place.job, place.step))?.fields.draft?.text;
  if (text === undefined) return undefined;
  try {
    const kept = planDraft.safeParse(JSON.parse(text));
    return kept.success ? kept.data : undefined;
  } catch {
    return undefined;
  }
}
