import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { siteAtmosphere } from "../../jobs/results/context.ts";
import type { Library } from "../../jobs/store/library.ts";
import { usePocketHistory } from "../Library/usePocketHistory.ts";
import { useSettings } from "../settings.ts";
import { type RankingNow, useRanking } from "./useRanking.ts";

/** What the evidence of an investigation says, with all that is known of the well and its pockets. */
export function useAnswer(
  investigation: Investigation,
  well: Well,
  { valves, policies }: Pick<Library, "valves" | "policies">,
): RankingNow {
  const { units } = useSettings();
  const history = usePocketHistory(well);
  const given = {
    well,
    valves,
    policy: policies[0],
    history: (history ?? []).flatMap(({ befell }) => befell),
  };
  const key = JSON.stringify([
    investigation.evidence,
    investigation.agreed?.job,
    units,
    history,
    well.revision,
    valves.map(({ id, revision }) => `${id} ${revision}`),
  ]);
  return useRanking({ given, investigation, units, atmosphere: siteAtmosphere({ well }) }, key);
}
