import { useMemo, useState } from "react";
import { Link } from "wouter";
import { asEntered, writer } from "../../jobs/display.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import type { Well } from "../../jobs/records/well.ts";
import { asPlanned, siteAtmosphere } from "../../jobs/results/context.ts";
import { resultsOf } from "../../jobs/results/results.ts";
import { gasInWords } from "../../jobs/results/wellGivens.ts";
import { mandrelStates } from "../../jobs/results/wholeWell.ts";
import { assemble, type Library } from "../../jobs/store/library.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { useSettings } from "../settings.ts";
import { useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { WellDrawing } from "../WellDrawing/WellDrawing.tsx";
import { unitLabel } from "../Working/unitLabel.ts";
import { OnLift } from "./OnLift.tsx";
import { ScenarioChoice } from "./ScenarioChoice.tsx";
import "./WellScreen.css";

export default function WellScreen({ id }: { readonly id: string }) {
  const library = useLibrary();
  if (!library) return <main className="page" aria-busy="true" />;
  const well = library.wells.find((each) => each.id === id);
  return well ? <WellOf key={id} well={well} library={library} /> : <Nowhere what="well" />;
}

function WellOf({ well, library }: { readonly well: Well; readonly library: Library }) {
  const { units } = useSettings();
  const [scenario, setScenario] = useState(asPlanned);
  const jobs = library.jobs.filter((job) => job.well === well.id);
  const [job] = jobs;
  const programme = useMemo(() => programmeOf(well, job, library), [well, job, library]);
  const results = useMemo(() => resultsOf(programme, {}, scenario), [programme, scenario]);
  const states = useMemo(() => mandrelStates(results), [results]);
  const write = writer(units, siteAtmosphere({ well }));
  return (
    <>
      <TopBar title={`Well ${well.name}`} />
      <main className="page well-screen">
        <figure>
          <WellDrawing
            well={well}
            valves={library.valves}
            results={results}
            writer={write}
            target={job?.mandrel}
            states={states}
          />
        </figure>
        <section className="well-records">
          <Facts well={well} />
          <div className="row">
            <Link href={`/edit/wells/${well.id}`} className="button next">
              Change the well's record
            </Link>
            {jobs.map((each) => (
              <Link key={each.id} href={`/jobs/${each.id}`} className="button">
                Job of {each.day}
              </Link>
            ))}
          </div>
        </section>
        <section className="on-lift" aria-labelledby="on-lift-title">
          <h2 id="on-lift-title">On lift</h2>
          <ScenarioChoice
            well={well}
            replacement={programme.replacement?.serial}
            writer={write}
            scenario={scenario}
            onChange={setScenario}
          />
          <OnLift results={results} states={states} writer={write} target={job?.mandrel} />
        </section>
      </main>
    </>
  );
}

/** The well with what its job brings; a well without a job is looked at all the same. */
function programmeOf(well: Well, job: Job | undefined, library: Library): Programme {
  const none: Job = {
    id: "none",
    revision: 1,
    day: "2000-01-01",
    well: well.id,
    mandrel: "none",
    reason: "looked at",
    design: {},
    expected: {},
    strings: {},
    crew: {},
    sheet: "change-out",
    ...(library.policies[0] && { policy: library.policies[0].id }),
  };
  return assemble(job ?? none, library);
}

function Facts({ well }: { readonly well: Well }) {
  const { pressures, injectionGas: gas, annulusLiquid } = well;
  const show = (quantity: { value: number; unit: string } | undefined) =>
    quantity ? `${quantity.value} ${unitLabel(quantity.unit)}` : "not known";
  const rows: [string, string][] = [
    ["Field", well.field],
    [
      "Depths from",
      `${well.depthReference.name}, ${show(well.depthReference.aboveWellheadZero)} above wellhead zero`,
    ],
    [
      "Path",
      well.path.kind === "vertical" ? "vertical" : `${well.path.stations.length} survey stations`,
    ],
    ["Injection down the", well.injectionDown],
    ["Maximum shut-in wellhead", show(pressures.maximumShutInWellhead)],
    ["Full injection at surface", show(pressures.fullInjectionAtSurface)],
    ["Operating injection", show(pressures.operatingInjectionAtSurface)],
    ["Injection gas", gasInWords(gas) || "not known"],
    [
      "Liquid in the annulus",
      annulusLiquid.state === "standing"
        ? `from ${asEntered(annulusLiquid.topTrueVertical)} true vertical`
        : annulusLiquid.state,
    ],
    ["Tubing liquid", show(well.tubingLiquidGradient)],
    [
      "On lift",
      well.onLift
        ? `wellhead ${show(well.onLift.wellhead)}, ${show(well.onLift.liftedGradient)} above the entry of gas`
        : "not known",
    ],
    [
      "Shut-in temperatures",
      well.temperatures.shutIn ? `${well.temperatures.shutIn.length} points` : "not known",
    ],
    [
      "Flowing temperatures",
      well.temperatures.flowing ? `${well.temperatures.flowing.length} points` : "not known",
    ],
  ];
  return (
    <dl className="well-facts">
      {rows.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
