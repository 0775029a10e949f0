import { asEntered, type Writer } from "../display.ts";
import type { Quantity } from "../quantity.ts";
import type { Job } from "../records/job.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import { mandrelResultId } from "../results/atMandrel.ts";
import { asPlanned, productionSide } from "../results/context.ts";
import { wholeWellOf } from "../results/mandrelResults.ts";
import type { Results } from "../results/results.ts";
import type { MandrelFigure } from "../results/traced.ts";
import { isBellows } from "../results/valveGivens.ts";
import type { Work } from "../sheet/changeOut/options.ts";
import type { Library } from "../store/library.ts";
import { jobName, lastSaid } from "./jobsBefore.ts";
import { open, type Proposed, rounded } from "./line.ts";

/** What goes into a pocket, and what it is to be set for: from the well on lift, never from nothing. */

export type Kind = Valve["kind"];

/** The kind of valve that the work asks for. */
export function proposedKind(work: Work, installed: Valve | undefined): Proposed<Kind> {
  if (work === "pull and dummy off") {
    return { value: "dummy", source: "worked out", why: "The pocket is to be blanked." };
  }
  if (work === "set into an empty pocket") {
    return open("Nothing sits in the pocket to go by. What kind goes in?");
  }
  if (!installed) return open("The valve in the pocket has no record to go by. What kind goes in?");
  if (installed.kind === "dummy") {
    return open(`A dummy, ${installed.serial}, sits in the pocket. What kind goes in?`);
  }
  return {
    value: installed.kind,
    source: "on record",
    why: `As ${installed.serial}, which sits in the pocket.`,
  };
}

export interface Design {
  /** of the pressure on the bellows */
  readonly opening: Proposed<Quantity<"pressure">>;
  /** on the seat when it opens */
  readonly seat: Proposed<Quantity<"pressure">>;
  readonly seatKey: "productionAtMandrel" | "injectionAtMandrel";
  readonly seatLabel: string;
}

/** Whether a valve of this kind is set for anything. */
export const isSet = (kind: Kind | undefined): boolean =>
  kind === "injection-operated" || kind === "production-operated";

/**
 * Design pressures of a pocket. What the valve that sits there was set for holds until the engineer says otherwise;
 * the pressures on its seat are those of the well on lift as it is meant to run.
 *
 * @param programme with the well and its installed valves
 */
export function proposedDesign(
  programme: Programme,
  mandrel: Mandrel,
  kind: Kind,
  library: Library,
  writer: Writer,
): Design {
  const results = wholeWellOf(programme, asPlanned);
  const byProduction = kind === "production-operated";
  const seatKey = byProduction ? "injectionAtMandrel" : "productionAtMandrel";
  const side = productionSide(programme);
  return {
    opening: opening(results, programme, mandrel, kind, library, writer),
    seat: seat(results, programme, mandrel, byProduction, library, writer),
    seatKey,
    seatLabel: byProduction
      ? "Injection pressure at the mandrel when it opens"
      : `${side === "tubing" ? "Tubing" : "Annulus"} pressure at the mandrel when it opens`,
  };
}

const known = (results: Results, figure: MandrelFigure, { number }: Mandrel) =>
  results.value(mandrelResultId(figure, number));

/** What the engineer asked for when this pocket was last worked on. */
function ofLastJob(
  { job, well }: Programme,
  mandrel: Mandrel,
  library: Library,
  key: keyof Job["design"],
): Proposed<Quantity<"pressure">> | undefined {
  const last = lastSaid(library, job.id, (before) => {
    if (before.well !== well?.id) return undefined;
    const pockets = [before, ...(before.also ?? [])];
    return pockets.find((pocket) => pocket.mandrel === mandrel.id)?.design[key];
  });
  return (
    last && {
      value: last.said,
      source: "last job",
      why: `As in ${jobName(last.job, library)}, for this pocket.`,
    }
  );
}

function opening(
  results: Results,
  programme: Programme,
  mandrel: Mandrel,
  kind: Kind,
  library: Library,
  writer: Writer,
): Proposed<Quantity<"pressure">> {
  const installed = programme.installed.find(({ id }) => id === mandrel.valve);
  const si = known(results, "opening", mandrel);
  const like = installed?.kind === kind && isBellows(installed);
  if (like && installed.card && si !== undefined) {
    return {
      value: rounded("pressure", si, writer.system, writer.atmosphere),
      source: "worked out",
      why: `What ${installed.serial} opens at there by its card (${asEntered(installed.card.testRackOpening60F)} at 60 °F), on lift as planned.`,
    };
  }
  const before = ofLastJob(programme, mandrel, library, "openingAtMandrel");
  if (before) return before;
  const there = known(
    results,
    kind === "production-operated" ? "production" : "injection",
    mandrel,
  );
  const stands =
    there === undefined
      ? ""
      : ` On lift ${writer.write("pressure", there)} stands on its bellows there.`;
  const lacks = like && !installed.card ? ` ${installed.serial} has no card.` : "";
  return open(`Asked of the engineer: what it is to open at, at the mandrel.${lacks}${stands}`);
}

function seat(
  results: Results,
  programme: Programme,
  mandrel: Mandrel,
  byProduction: boolean,
  library: Library,
  writer: Writer,
): Proposed<Quantity<"pressure">> {
  const figure = byProduction ? "injection" : "production";
  const si = known(results, figure, mandrel);
  if (si !== undefined) {
    return {
      value: rounded("pressure", si, writer.system, writer.atmosphere),
      source: "worked out",
      why: `The ${figure} pressure at mandrel ${mandrel.number}, on lift as planned.`,
    };
  }
  const key = byProduction ? "injectionAtMandrel" : "productionAtMandrel";
  const before = ofLastJob(programme, mandrel, library, key);
  if (before) return before;
  const outcome = results.get(mandrelResultId(figure, mandrel.number))?.outcome;
  const needs = outcome?.state === "missing" ? outcome.needs.join("; ") : "the well on lift";
  return open(`Enter it, or mend the well's record: needs ${needs}.`);
}
