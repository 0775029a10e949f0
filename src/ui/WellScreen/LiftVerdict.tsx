import { useMemo } from "react";
import { injectionAtSurface, liftWellhead } from "../../jobs/results/onLift.ts";
import { surveyCounts } from "../../jobs/results/productionOnLift.ts";
import type { Given } from "../../jobs/results/traced.ts";
import { unloadingInWords, unloadingOf } from "../../jobs/results/unloadingResult.ts";
import { entryInWords } from "../../jobs/results/wholeWell.ts";
import type { Looked } from "./looked.ts";
import { UnloadingSteps } from "./UnloadingSteps.tsx";

/** Where gas should enter and whether the well unloads, with the pressures that it stands on. */
export function LiftVerdict({ results, states, writer }: Looked) {
  const { context } = results;
  const { scenario, programme } = context;
  const unloading = useMemo(() => unloadingOf(results), [results]);
  const found = scenario.lift === "as found";
  const surface = (given: Given) =>
    given.si === undefined ? "not known" : writer.write("pressure", given.si);
  const fails = unloading.ok && !unloading.unloading.reachesBottom;
  const dropped = found && programme.well?.lastFound?.survey && !surveyCounts(context);
  return (
    <>
      <p className="on-lift-verdict">{entryInWords(states)}</p>
      <p>
        Worked at injection {surface(injectionAtSurface(context))} and wellhead{" "}
        {surface(liftWellhead(context))} at surface
        {surveyCounts(context) && ", production by the survey"}.
        {found &&
          " Where the well does otherwise, look for a leak, a cut seat or a valve that does not open."}
        {dropped &&
          " The survey is not used: another wellhead pressure is asked about, and planned gradients stand in."}
      </p>
      <p className={fails ? "problem" : ""}>{unloadingInWords(unloading, writer)}</p>
      <UnloadingSteps outcome={unloading} results={results} writer={writer} />
      <p className="small soft">
        Worked out from the pressures, temperatures and settings on record. It does not see a cut
        seat, a leak or a plug: hold it against what the well does.
      </p>
    </>
  );
}
