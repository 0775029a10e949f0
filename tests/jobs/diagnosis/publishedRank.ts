import { rankFaults } from "../../../src/jobs/diagnosis/rank.ts";
import type { Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../../src/jobs/display.ts";
import type { Evidence } from "../../../src/jobs/records/investigation.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Well } from "../../../src/jobs/records/well.ts";

/** The ranking of a well that is published, or of one made to show what is published. */
export function rank(
  given: { readonly well: Well; readonly valves: readonly Valve[] },
  evidence: readonly Evidence[],
): Ranking {
  const answer = rankFaults(
    { ...given, policy: undefined, history: [] },
    {
      id: "published",
      revision: 1,
      well: given.well.id,
      opened: "2026-03-12T06:00:00.000Z",
      openedBy: "office",
      evidence: [...evidence],
    },
    writer("metric"),
    { draws: 150 },
  );
  if ("needs" in answer) throw new Error(answer.needs.map(({ says }) => says).join("; "));
  return answer;
}
