import { NotChanged, withJob } from "../diagnosis/changeInvestigation.ts";
import { agreedAnswer } from "../diagnosis/nextAction.ts";
import { type Job, job } from "../records/job.ts";
import type { Store } from "../store/store.ts";
import type { PlanDraft } from "./planDraft.ts";

/** Whether a plan can be kept as a job. Open points do not keep it from that: they keep it from being issued. */
export type Keepable =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly at: "reason" | "day" | "job"; readonly why: string };

export function keepable(proposed: Job, draft: PlanDraft): Keepable {
  const reason = draft.reason.trim();
  if (reason === "") {
    return {
      ok: false,
      at: "reason",
      why: "Say why: tap a reason, or write one. It goes on the job.",
    };
  }
  if (draft.day === undefined || draft.day === "") {
    return { ok: false, at: "day", why: "Choose the day: the board sorts by it." };
  }
  const checked = job.safeParse({ ...proposed, reason, day: draft.day });
  if (checked.success) return { ok: true, job: checked.data };
  const [issue] = checked.error.issues;
  const path = issue?.path.join(", ") ?? "";
  const at = path === "reason" || path === "day" ? path : "job";
  const what = { reason: "The reason", day: "The day", job: `The plan (${path})` }[at];
  return { ok: false, at, why: `${what} cannot be kept as it is: ${issue?.message}.` };
}

/**
 * Keeps a planned job; the investigation that led to it is told in the same transaction, so that neither names the other
 * alone. Settles when both are durable.
 *
 * @throws Outdated when somebody changed one of them in the meantime
 * @throws NotChanged when the investigation is agreed otherwise by now, or has led to another job
 */
export async function keepJob(
  store: Pick<Store, "put" | "receive" | "recordsFor">,
  kept: Job,
  { investigation, agreed }: Pick<PlanDraft, "investigation" | "agreed">,
): Promise<void> {
  const { investigations } = await store.recordsFor({
    records: { investigations: investigation === undefined ? [] : [investigation] },
  });
  const [led] = investigations;
  if (led?.well !== kept.well) {
    await store.put("jobs", kept);
    return;
  }
  if (agreed !== undefined && led.agreed?.at !== agreed) {
    throw new NotChanged(
      `Not kept: what was agreed on has changed since this plan was begun${led.agreed ? `. It is now: ${agreedAnswer(led.agreed)} (${led.agreed.by})` : ""}. Make the job from "Which valve is at fault" of the well; what is typed here stays until then.`,
    );
  }
  if (led.agreed?.job !== undefined && led.agreed.job !== kept.id) {
    throw new NotChanged(
      "Not kept: another job was made from this investigation. Open that one, or plan this one by itself: choose the well again.",
    );
  }
  const records = { jobs: [kept], investigations: led.agreed ? [withJob(led, kept.id)] : [] };
  await store.receive({ records, events: [] });
}
