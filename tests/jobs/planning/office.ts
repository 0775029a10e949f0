import { library as emberMesa } from "../../../demo-data/emberMesa.ts";
import { writer } from "../../../src/jobs/display.ts";
import { freshPlan, type PlanDraft } from "../../../src/jobs/planning/planDraft.ts";
import { type Proposal, propose } from "../../../src/jobs/planning/proposal.ts";
import type { Mandrel } from "../../../src/jobs/records/well.ts";
import type { Library } from "../../../src/jobs/store/library.ts";

/** The demonstration's records, as an office holds them. They carry the rules of planning, never a check of physics. */
export const demo = emberMesa as unknown as Library;

/** A plan on EM-07, mandrel 2, unless something else is said. */
export const draftOf = (of: Partial<PlanDraft> = {}): PlanDraft => ({
  ...freshPlan("plan"),
  well: "em-07",
  day: "2026-11-27",
  reason: "Port cut.",
  pockets: [{ mandrel: "em-07-mandrel-2", work: "change out" }],
  ...of,
});

export function proposed(of: Partial<PlanDraft> = {}, library = demo): Proposal {
  const office = { library, stages: new Map(), writer: writer("field") };
  const found = propose(draftOf(of), office);
  if (!found) throw new Error("no proposal");
  return found;
}

export function lineOf({ lines }: Proposal, key: string) {
  const line = lines.find((each) => each.key === key);
  if (!line) throw new Error(`no line ${key}`);
  return line;
}

/** The library with one mandrel of EM-07 changed. */
export const withMandrel = (number: number, change: Partial<Mandrel>): Library => ({
  ...demo,
  wells: demo.wells.map((well) =>
    well.id === "em-07"
      ? {
          ...well,
          mandrels: well.mandrels.map((each) =>
            each.number === number ? { ...each, ...change } : each,
          ),
        }
      : well,
  ),
});

export function first<T>(all: readonly T[]): T {
  const [one] = all;
  if (one === undefined) throw new Error("none");
  return one;
}
