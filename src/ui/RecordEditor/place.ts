import type { InRecord } from "../../jobs/planning/recordOf.ts";

/** Where the editor leads back to: the plan, or the brief of a job. */
export interface Back {
  readonly href: string;
  readonly says: string;
}

/** The address of a record's editor at a field of it. @param back `plan`, or `jobs/` with a job's id */
export function placeIn({ href, field }: Pick<InRecord, "href" | "field">, back: string): string {
  const job = /^jobs\/(.+)$/.exec(back)?.[1];
  const asks = new URLSearchParams({
    back,
    ...(field !== undefined && { at: field }),
    // A string can be copied for the job it is looked at for.
    ...(job !== undefined && href.startsWith("/strings/") && { job }),
  });
  return `${href}?${asks}`;
}

/** What an address says of the way back; nothing but a place of this app is one. */
export function backTo(search: string): Back | undefined {
  const back = new URLSearchParams(search).get("back") ?? "";
  if (back === "plan") return { href: "/plan", says: "Back to the plan" };
  return /^jobs\/[\w-]+$/.test(back) ? { href: `/${back}`, says: "Back to the brief" } : undefined;
}
