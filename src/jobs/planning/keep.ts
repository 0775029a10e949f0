import { type Job, job } from "../records/job.ts";
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
