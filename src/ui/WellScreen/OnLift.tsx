import { Link } from "wouter";
import { asEntered, type Writer } from "../../jobs/display.ts";
import type { Mandrel } from "../../jobs/records/well.ts";
import { depthLines } from "../../jobs/results/depthLines.ts";
import { mandrelResultId } from "../../jobs/results/mandrelResults.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { MandrelFigure } from "../../jobs/results/traced.ts";
import {
  entryInWords,
  type MandrelState,
  unloadingInWords,
  unloadingOf,
} from "../../jobs/results/wholeWell.ts";
import { DepthPlot } from "../DepthPlot/DepthPlot.tsx";
import type { PlotLevel, PlotLine, PlotMark } from "../DepthPlot/plot.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { UnloadingSteps } from "./UnloadingSteps.tsx";

interface OnLiftProps {
  readonly results: Results;
  readonly states: readonly MandrelState[];
  readonly writer: Writer;
  /** the mandrel at work, by its id */
  readonly target: string | undefined;
}

/** The whole well on lift: where gas enters, whether it unloads, and every valve against its pressures. */
export function OnLift({ results, states, writer, target }: OnLiftProps) {
  const unloading = unloadingOf(results);
  return (
    <>
      <p className="on-lift-verdict">{entryInWords(states)}</p>
      <p>{unloadingInWords(unloading, writer)}</p>
      <UnloadingSteps outcome={unloading} writer={writer} />
      <p className="small soft">
        Worked out from the pressures, temperatures and settings on record. It does not see a cut
        seat, a leak or a plug: hold it against what the well does.
      </p>
      <Plots results={results} states={states} writer={writer} target={target} />
      <ol className="on-lift-mandrels">
        {states.map((state) => (
          <MandrelOnLift key={state.mandrel.id} state={state} results={results} writer={writer} />
        ))}
      </ol>
    </>
  );
}

function Plots({ results, states, writer, target }: OnLiftProps) {
  const lines = depthLines(results);
  const value = (figure: MandrelFigure, { mandrel }: MandrelState) =>
    results.value(mandrelResultId(figure, mandrel.number));
  const levels = states.flatMap((state): PlotLevel[] => {
    const depth = value("tvd", state);
    return depth === undefined ? [] : [{ depth, label: String(state.mandrel.number) }];
  });
  const marks = states.flatMap((state): PlotMark[] => {
    const depth = value("tvd", state);
    const opening = value("opening", state);
    const closing = value("closing", state);
    if (depth === undefined) return [];
    const emphasis = state.mandrel.id === target;
    const widest = value("opening-band", state);
    const band = opening !== undefined && widest !== undefined;
    return [
      ...(opening === undefined
        ? []
        : [
            {
              depth,
              si: opening,
              name: "Opening",
              shape: "ring",
              emphasis,
              ...(band && { band: [opening - widest, opening + widest] as const }),
            } as const,
          ]),
      ...(closing === undefined
        ? []
        : [{ depth, si: closing, name: "Closing", shape: "bar", emphasis } as const]),
    ];
  });
  const surveyed = results.context.scenario.lift === "as found";
  const named = (
    name: string,
    points: PlotLine["points"],
    more: Partial<PlotLine> = {},
  ): PlotLine[] => (points.length > 0 ? [{ name, ink: "calculated", points, ...more }] : []);
  return (
    <div className="on-lift-plots">
      <DepthPlot
        title="Pressure on lift"
        dimension="pressure"
        writer={writer}
        lines={[
          ...named("Injection", lines.injection),
          ...named("Production", lines.production, {
            dashed: true,
            ...(surveyed && { ink: "measured" as const }),
          }),
        ]}
        marks={marks}
        levels={levels}
        shapes={{ ring: "opens at", bar: "shuts at" }}
      />
      <DepthPlot
        title="Temperature"
        dimension="temperature"
        writer={writer}
        lines={[
          ...named("On lift", lines.flowing),
          ...named("Shut in", lines.shutIn, { dashed: true }),
        ]}
        marks={[]}
        levels={levels}
      />
    </div>
  );
}

const gateWords: Readonly<Record<MandrelState["gate"], string>> = {
  open: "open",
  shut: "shut",
  "as it was": "open or shut, as it was before",
  "always open": "always open",
  blank: "lets nothing through",
  "not known": "not known",
};

/** What its state means, and how far it is from another one. */
function stateInWords({ gate, toChange, mayPass, needs }: MandrelState, writer: Writer): string {
  if (gate === "not known") return `Not known: needs ${needs.join("; ")}.`;
  if (gate === "blank") return "Lets nothing through.";
  const far = toChange === undefined ? "" : writer.write("pressure difference", toChange);
  const change = {
    open: `, ${far} above where it changes`,
    shut: `, ${far} from opening`,
    "as it was": `, ${far} from a change`,
    "always open": "",
  }[gate];
  const flow = mayPass
    ? " Gas passes."
    : gate === "shut"
      ? ""
      : " Production stands above injection: its check stays shut.";
  return `${gateWords[gate].replace(/^./, (first) => first.toUpperCase())}${change}.${flow}`;
}

const rows: readonly (readonly [MandrelFigure, string])[] = [
  ["injection", "Injection"],
  ["production", "Production"],
  ["temperature", "Temperature"],
];
const bellowsRows: readonly (readonly [MandrelFigure, string])[] = [
  ["opening", "Opens at"],
  ["opening-band", "That may differ by"],
  ["closing", "Shuts at"],
];

const sleeveWords: Readonly<Record<Mandrel["orientingSleeve"], string>> = {
  yes: "orienting sleeve",
  no: "no orienting sleeve",
  "not known": "sleeve not known",
};

interface MandrelProps {
  readonly state: MandrelState;
  readonly results: Results;
  readonly writer: Writer;
}

function MandrelOnLift({ state, results, writer }: MandrelProps) {
  const { mandrel, valve, gate } = state;
  const bellows = valve && valve.kind !== "orifice" && valve.kind !== "dummy";
  const throttles = bellows && (valve.loadRate !== undefined || valve.ballDiameter !== undefined);
  const row = ([figure, label]: readonly [MandrelFigure, string]) => (
    <ResultRow
      key={figure}
      id={mandrelResultId(figure, mandrel.number)}
      label={label}
      results={results}
      writer={writer}
    />
  );
  return (
    <li className="card on-lift-mandrel">
      <h3>
        {mandrel.number} <span className="figure">{asEntered(mandrel.depthAlongHole)}</span>
      </h3>
      <p className="small">
        {mandrel.construction}, {mandrel.pocket} pocket, {sleeveWords[mandrel.orientingSleeve]},{" "}
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
      <p className={`on-lift-gate ${gate.replaceAll(" ", "-")}`}>{stateInWords(state, writer)}</p>
      {rows.map(row)}
      {bellows && bellowsRows.map(row)}
      {(bellows || valve?.kind === "orifice") &&
        row(["most-gas", bellows ? "Fully open it passes at most" : "Passes"])}
      {throttles && row(["throttled-gas", "Throttled by its stem it passes"])}
    </li>
  );
}
