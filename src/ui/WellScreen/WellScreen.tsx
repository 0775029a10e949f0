import { useMemo, useState } from "react";
import { Link } from "wouter";
import { assemble } from "../../jobs/assemble.ts";
import { asEntered, unitLabel, writer } from "../../jobs/display.ts";
import { lookedAt } from "../../jobs/lookedAt.ts";
import type { Well } from "../../jobs/records/well.ts";
import { valveIn } from "../../jobs/results/atMandrel.ts";
import { asPlanned, siteAtmosphere } from "../../jobs/results/context.ts";
import { wholeWellOf } from "../../jobs/results/mandrelResults.ts";
import type { Results } from "../../jobs/results/results.ts";
import { gasInWords } from "../../jobs/results/wellGivens.ts";
import { mandrelStates } from "../../jobs/results/wholeWell.ts";
import type { Library } from "../../jobs/store/library.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { PocketsBefore } from "../Library/PocketsBefore.tsx";
import { useSettings } from "../settings.ts";
import { useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { WellDrawing } from "../WellDrawing/WellDrawing.tsx";
import { LiftVerdict } from "./LiftVerdict.tsx";
import { MandrelsOnLift } from "./MandrelsOnLift.tsx";
import { PressurePlot, TemperaturePlot } from "./plots.tsx";
import { ScenarioChoice } from "./ScenarioChoice.tsx";
import "./WellScreen.css";

export default function WellScreen({ id }: { readonly id: string }) {
  const library = useLibrary({ wells: [id], whole: ["policies"] });
  if (!library) return <main className="page" aria-busy="true" />;
  const well = library.wells.find((each) => each.id === id);
  return well ? <WellOf key={id} well={well} library={library} /> : <Nowhere what="well" />;
}

function WellOf({ well, library }: { readonly well: Well; readonly library: Library }) {
  const { units } = useSettings();
  const [scenario, setScenario] = useState(asPlanned);
  const jobs = library.jobs
    .filter((each) => each.well === well.id)
    .sort((a, b) => b.day.localeCompare(a.day));
  const [chosen, setChosen] = useState(jobs[0]?.id);
  const job = jobs.find((each) => each.id === chosen) ?? jobs[0];
  const programme = useMemo(
    () => (job ? assemble(job, library) : lookedAt(well, library)),
    [well, job, library],
  );
  const results = useMemo(() => wholeWellOf(programme, scenario), [programme, scenario]);
  const states = useMemo(() => mandrelStates(results), [results]);
  const write = useMemo(() => writer(units, siteAtmosphere({ well })), [units, well]);
  const looked = { results, states, writer: write, target: job?.mandrel };
  return (
    <>
      <TopBar title={`Well ${well.name}`} />
      <main className="page well-screen">
        <section className="on-lift" aria-labelledby="on-lift-title">
          <h2 id="on-lift-title">On lift</h2>
          <LiftVerdict {...looked} />
          <div className="row">
            {job && (
              <Link href={`/jobs/${job.id}`} className="button next">
                Job of {job.day}
              </Link>
            )}
            <Link href={`/wells/${well.id}/fault`} className="button">
              Which valve is at fault
            </Link>
          </div>
          <ScenarioChoice
            well={well}
            jobs={jobs}
            job={job?.id}
            onJob={setChosen}
            replacement={programme.replacement?.serial}
            writer={write}
            scenario={scenario}
            onChange={setScenario}
          />
        </section>
        <figure>
          <WellDrawing
            well={drawnWell(well, results)}
            valves={library.valves}
            results={results}
            writer={write}
            target={job?.mandrel}
            states={states}
          />
        </figure>
        <PressurePlot {...looked} />
        <MandrelsOnLift {...looked} />
        <TemperaturePlot {...looked} />
        <section className="well-records">
          <h2>On record</h2>
          <Facts well={well} />
          <div className="row">
            <Link href={`/edit/wells/${well.id}`} className="button">
              Change the well's record
            </Link>
            <Link href={`/new/wells?from=${well.id}`} className="button">
              Begin a new well from this
            </Link>
          </div>
          <PocketsBefore well={well} />
        </section>
      </main>
    </>
  );
}

/** The well with the valve in each pocket that the scenario puts there. */
function drawnWell(well: Well, { context }: Results): Well {
  const mandrels = well.mandrels.map((mandrel) => {
    const valve = valveIn(context, mandrel);
    return valve && valve.id !== mandrel.valve
      ? { ...mandrel, valve: valve.id, pocketState: "holds a valve" as const }
      : mandrel;
  });
  return { ...well, mandrels };
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
