import { Link } from "wouter";
import { asEntered, type Writer } from "../../jobs/display.ts";
import type { Mandrel } from "../../jobs/records/well.ts";
import { mandrelResultId } from "../../jobs/results/atMandrel.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { MandrelFigure } from "../../jobs/results/traced.ts";
import { isBellows } from "../../jobs/results/valveGivens.ts";
import type { MandrelState } from "../../jobs/results/wholeWell.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import type { Looked } from "./looked.ts";

/** Every mandrel with its valve: what it does, what it is from doing another thing, and the figures behind that. */
export function MandrelsOnLift({ results, states, writer, target }: Looked) {
  return (
    <ol className="on-lift-mandrels">
      {states.map((state) => (
        <MandrelOnLift
          key={state.mandrel.id}
          state={state}
          results={results}
          writer={writer}
          well={results.context.programme.well?.id ?? ""}
          atWork={state.mandrel.id === target}
        />
      ))}
    </ol>
  );
}

const sleeveWords: Readonly<Record<Mandrel["orientingSleeve"], string>> = {
  yes: "orienting sleeve",
  no: "no orienting sleeve",
  "not known": "sleeve not known",
};

/** What its state means, and how far it is from another one. */
function stateInWords(
  { gate, toChange, mayPass, noDrop, needs }: MandrelState,
  writer: Writer,
): string {
  if (noDrop) return "Production stands above injection: nothing passes.";
  const far = toChange === undefined ? "" : writer.write("pressure difference", toChange);
  switch (gate) {
    case "not known":
      return `Not known: needs ${needs.join("; ")}.`;
    case "blank":
      return "Lets nothing through.";
    case "always open":
      return "Always open. Gas passes.";
    case "shut":
      return `Shut, ${far} from opening.`;
    case "open":
      return `Open, ${far} above where it shuts.${mayPass ? " Gas passes." : ""}`;
    case "as it was":
      return `Open or shut as it was before, ${far} from a change. Gas passes if it was open.`;
  }
}

interface MandrelProps {
  readonly state: MandrelState;
  readonly results: Results;
  readonly writer: Writer;
  /** by its id */
  readonly well: string;
  readonly atWork: boolean;
}

function MandrelOnLift({ state, results, writer, well, atWork }: MandrelProps) {
  const { mandrel, valve, gate } = state;
  return (
    <li className={`card on-lift-mandrel${atWork ? " at-work" : ""}`}>
      <h3>
        Mandrel {mandrel.number}, {asEntered(mandrel.depthAlongHole)} along hole
        {atWork && <span className="on-lift-tag"> at work</span>}
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
      <p className="on-lift-gate">{stateInWords(state, writer)}</p>
      {rowsOf(state)
        .filter(
          // What is missing is said once, above.
          ([figure]) =>
            gate !== "not known" ||
            results.value(mandrelResultId(figure, mandrel.number)) !== undefined,
        )
        .map(([figure, label]) => (
          <ResultRow
            key={figure}
            id={mandrelResultId(figure, mandrel.number)}
            label={label}
            results={results}
            writer={writer}
          />
        ))}
      <Link
        href={`/plan?well=${encodeURIComponent(well)}&mandrel=${encodeURIComponent(mandrel.id)}`}
        className="button quiet"
      >
        Plan a change-out<span className="hidden-label"> in mandrel {mandrel.number}</span>
      </Link>
    </li>
  );
}

/** The figures of a mandrel in the order they are read. */
function rowsOf({ valve }: MandrelState): (readonly [MandrelFigure, string])[] {
  const bellows = isBellows(valve);
  const ofProduction = valve?.kind === "production-operated" ? ", production" : "";
  const throttles = bellows && (valve?.loadRate ?? valve?.ballDiameter) !== undefined;
  return [
    ["injection", "Injection"],
    ["production", "Production"],
    ["temperature", "Temperature"],
    ...(bellows
      ? ([
          ["opening", `Opens at${ofProduction}`],
          ["opening-band", "That may differ by ±"],
          ["closing", `Shuts at${ofProduction}`],
          ...(valve?.kind === "injection-operated"
            ? ([
                ["closing-at-surface", "Seen at surface that is"],
                ["closing-band", "Shutting may differ by ±"],
              ] as const)
            : []),
          ["most-gas", "Fully open it would pass"],
        ] as const)
      : []),
    ...(valve?.kind === "orifice" ? ([["most-gas", "Passes"]] as const) : []),
    ...(throttles ? ([["throttled-gas", "Throttled by its stem"]] as const) : []),
  ];
}
