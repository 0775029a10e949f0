import { useMemo } from "react";
import { Link } from "wouter";
import { asEntered, writer } from "../../jobs/display.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import type { Mandrel, Well } from "../../jobs/records/well.ts";
import { siteAtmosphere } from "../../jobs/results/context.ts";
import { resultsOf } from "../../jobs/results/results.ts";
import { changeOut } from "../../jobs/sheet/changeOut/changeOut.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { useSettings } from "../settings.ts";
import { useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { WellDrawing } from "../WellDrawing/WellDrawing.tsx";
import { unitLabel } from "../Working/unitLabel.ts";
import "./WellScreen.css";

export default function WellScreen({ id }: { readonly id: string }) {
  const library = useLibrary();
  const { units } = useSettings();
  const well = library?.wells.find((each) => each.id === id);
  const jobs = library?.jobs.filter((job) => job.well === id) ?? [];
  const valves = library?.valves ?? [];
  const results = useMemo(() => well && resultsOf(asProgramme(well, jobs[0]), {}), [well, jobs[0]]);
  if (!library) return <main className="page" aria-busy="true" />;
  if (!well || !results) return <Nowhere what="well" />;
  return (
    <>
      <TopBar title={`Well ${well.name}`} />
      <main className="page well-screen">
        <figure>
          <WellDrawing
            well={well}
            valves={valves}
            results={results}
            writer={writer(units, siteAtmosphere({ well }))}
            target={jobs[0]?.mandrel}
          />
        </figure>
        <section className="well-records">
          <Facts well={well} />
          <div className="row">
            <Link href={`/edit/wells/${well.id}`} className="button next">
              Change the well's record
            </Link>
            {jobs.map((job) => (
              <Link key={job.id} href={`/jobs/${job.id}`} className="button">
                Job of {job.day}
              </Link>
            ))}
          </div>
          <h2>Mandrels</h2>
          <ol className="well-mandrels">
            {well.mandrels.map((mandrel) => (
              <MandrelCard
                key={mandrel.id}
                mandrel={mandrel}
                valve={valves.find((valve) => valve.id === mandrel.valve)}
              />
            ))}
          </ol>
        </section>
      </main>
    </>
  );
}

/** The drawing needs depths only; a well without a job still has them. */
function asProgramme(well: Well, job: Job | undefined): Programme {
  const none: Job = {
    id: "none",
    revision: 1,
    day: "2000-01-01",
    well: well.id,
    mandrel: "none",
    reason: "drawing",
    design: {},
    expected: {},
    strings: {},
    crew: {},
    sheet: "change-out",
  };
  return { job: job ?? none, well, installed: [], strings: {}, sheet: changeOut };
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
    [
      "Injection gas",
      gas
        ? `gravity ${gas.specificGravity.value}, CO2 ${show(gas.co2)}, H2S ${show(gas.h2s)}, N2 ${show(gas.n2)}`
        : "not known",
    ],
    [
      "Liquid in the annulus",
      annulusLiquid.state === "standing"
        ? `from ${asEntered(annulusLiquid.topTrueVertical)} true vertical`
        : annulusLiquid.state,
    ],
    ["Tubing liquid", show(well.tubingLiquidGradient)],
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

function MandrelCard({
  mandrel,
  valve,
}: {
  readonly mandrel: Mandrel;
  readonly valve: Valve | undefined;
}) {
  const sleeve = {
    yes: "orienting sleeve",
    no: "no orienting sleeve",
    "not known": "sleeve not known",
  }[mandrel.orientingSleeve];
  return (
    <li className="card well-mandrel">
      <h3>
        {mandrel.number} <span className="figure">{asEntered(mandrel.depthAlongHole)}</span>
      </h3>
      <p className="small">
        {mandrel.construction}, {mandrel.pocket} pocket, {sleeve},{" "}
        {mandrel.latchProfile ?? "latch profile not known"}
      </p>
      {valve ? (
        <Link href={`/edit/valves/${valve.id}`} className="button">
          {valve.serial}, {valve.kind}
          {valve.card && `, ${asEntered(valve.card.testRackOpening60F)} at 60 °F`}
        </Link>
      ) : (
        <p>{mandrel.pocketState}</p>
      )}
    </li>
  );
}
