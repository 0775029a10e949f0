import { atMost } from "../checks/compare.ts";
import { asEntered, type Writer } from "../display.ts";
import { placesOf } from "../library/places.ts";
import { toSI } from "../quantity.ts";
import type { Job } from "../records/job.ts";
import type { Programme } from "../records/programme.ts";
import type { Valve } from "../records/valve.ts";
import type { Mandrel } from "../records/well.ts";
import { resultsOf } from "../results/results.ts";
import type { Library } from "../store/library.ts";
import { isSet, type Kind } from "./design.ts";
import { jobName } from "./jobsBefore.ts";
import { counted, type Option, open, type Proposed } from "./line.ts";

/** Which valves may go into a pocket, the nearest to what is needed first, and what to look for where there is none. */

/** A valve that fits the pocket and is free, with how near its card is. */
interface Candidate {
  readonly valve: Valve;
  /** of the card, less what is needed, Pa; undefined where it is not known */
  readonly difference: number | undefined;
  /** of the port, from that of the valve in the pocket, m */
  readonly port: number;
}

export interface Replacements {
  readonly options: readonly Option[];
  readonly proposed: Proposed<string>;
}

interface Pocket {
  /** focused on the pocket, with its design, and without a replacement */
  readonly programme: Programme;
  readonly mandrel: Mandrel;
  readonly kind: Kind | undefined;
  /** valves that other jobs or other pockets of this one take, with the job */
  readonly taken: ReadonlyMap<string, Job>;
}

export function replacementsFor(pocket: Pocket, library: Library, writer: Writer): Replacements {
  const { mandrel, kind, programme } = pocket;
  if (mandrel.pocket === "not known" || !mandrel.latchProfile) {
    return {
      options: [],
      proposed: open(
        `Pocket size or latch profile of mandrel ${mandrel.number} is not known: no valve can be looked for.`,
      ),
    };
  }
  if (kind === undefined) {
    return {
      options: [],
      proposed: open("Which valves fit depends on the kind: choose it first."),
    };
  }
  const of = fitting(pocket, kind, library);
  const installed = programme.installed.find(({ id }) => id === mandrel.valve);
  const candidates = of.free
    .map((valve) => candidate(valve, programme, installed))
    .sort(byNearness);
  const allowed = programme.policy?.setPressureTolerance.value;
  const tolerance = allowed && toSI("pressure difference", allowed);
  const options = candidates.map((each) => ({
    id: each.valve.id,
    name: nameOf(each.valve),
    says: words(each, installed, tolerance, writer),
    fits: !isSet(kind) || isWithin(each, tolerance),
  }));
  return { options, proposed: proposal(candidates, options, of, pocket, kind, library, writer) };
}

interface Fitting {
  readonly free: readonly Valve[];
  /** would fit, and is not to be had: why, by its serial */
  readonly held: readonly string[];
}

function fitting({ mandrel, taken }: Pocket, kind: Kind, library: Library): Fitting {
  const inPocket = placesOf(library.wells);
  const fits = library.valves.filter(
    (valve) =>
      valve.kind === kind &&
      valve.size === mandrel.pocket &&
      valve.latch === mandrel.latchProfile &&
      !inPocket.has(valve.id),
  );
  const held = fits.flatMap((valve): { readonly valve: Valve; readonly why: string }[] => {
    const job = taken.get(valve.id);
    if (job) return [{ valve, why: `${valve.serial} is taken by ${jobName(job, library)}` }];
    const { state = "in stock" } = valve;
    return state === "in stock" ? [] : [{ valve, why: `${valve.serial} is ${state}` }];
  });
  return {
    free: fits.filter((valve) => !held.some((each) => each.valve === valve)),
    held: held.map(({ why }) => why),
  };
}

function candidate(valve: Valve, programme: Programme, installed: Valve | undefined): Candidate {
  const results = resultsOf({ ...programme, replacement: valve }, {});
  return { valve, difference: results.value("card-difference"), port: portApart(valve, installed) };
}

const portApart = ({ port }: Valve, installed: Valve | undefined): number =>
  port && installed?.port ? Math.abs(toSI("diameter", port) - toSI("diameter", installed.port)) : 0;

/** A port that differs by less than this is the same one, written in another unit, m. */
const SAME_PORT = 1e-5;

const byNearness = (a: Candidate, b: Candidate): number =>
  far(a) - far(b) || a.port - b.port || a.valve.serial.localeCompare(b.valve.serial);
const far = ({ difference, valve }: Candidate) =>
  isSet(valve.kind) ? Math.abs(difference ?? Number.MAX_VALUE) : 0;

const isWithin = ({ difference }: Candidate, tolerance: number | undefined): boolean =>
  difference !== undefined && tolerance !== undefined && atMost(Math.abs(difference), tolerance);

const nameOf = ({ serial, card }: Valve): string =>
  card ? `${serial}, ${asEntered(card.testRackOpening60F)} at 60 °F` : serial;

function words(
  of: Candidate,
  installed: Valve | undefined,
  tolerance: number | undefined,
  writer: Writer,
): string {
  const { valve, difference, port } = of;
  const said: string[] = [];
  if (isSet(valve.kind)) {
    if (!valve.card) said.push("It has no card: it has to be set and tested.");
    else if (difference === undefined) said.push("How near its card is is not known yet.");
    else {
      const apart = writer.write("pressure difference", Math.abs(difference));
      const side = difference < 0 ? "below" : "above";
      const sets =
        tolerance === undefined
          ? ""
          : isWithin(of, tolerance)
            ? `, within the ${writer.write("pressure difference", tolerance)} allowed`
            : `; ${writer.write("pressure difference", tolerance)} is allowed: it has to be set again`;
      said.push(
        writer.parts("pressure difference", Math.abs(difference)).number === "0"
          ? `Its card is what is needed${sets}.`
          : `Its card is ${apart} ${side} what is needed${sets}.`,
      );
    }
  }
  if (valve.kind !== "dummy" && port > SAME_PORT && valve.port && installed?.port) {
    said.push(
      `Its port is ${asEntered(valve.port)}, ${installed.serial} has ${asEntered(installed.port)}: other gas goes through.`,
    );
  }
  return said.join(" ");
}

function proposal(
  candidates: readonly Candidate[],
  options: readonly Option[],
  { held }: Fitting,
  pocket: Pocket,
  kind: Kind,
  library: Library,
  writer: Writer,
): Proposed<string> {
  const [best] = candidates;
  const [first] = options;
  if (!best || !first) {
    const gone = held.length > 0 ? ` ${listed(held)}.` : "";
    return open(`No valve that fits is free.${gone} ${lookFor(pocket, kind, library, writer)}`);
  }
  if (isSet(kind) && best.difference === undefined && candidates.length > 1) {
    return open(
      `${counted(candidates.length, "valve")} fit. Which is nearest is known once both pressures at the mandrel are, and the card, bellows area and seat of each valve. Choose one to be told what its record lacks.`,
    );
  }
  const one = candidates.length === 1;
  const why = one
    ? "The only one that fits and is free."
    : isSet(kind)
      ? `Nearest of ${candidates.length} that fit and are free.`
      : `One of ${candidates.length} that fit and are free.`;
  return {
    value: best.valve.id,
    source: one ? "only one" : "nearest",
    why: first.says ? `${why} ${first.says}` : why,
  };
}

/** Enough to see the pattern; a library of thousands would fill the screen. */
const MOST_HELD = 3;
function listed(held: readonly string[]): string {
  const more = held.length - MOST_HELD;
  return `${held.slice(0, MOST_HELD).join("; ")}${more > 0 ? `; and ${more} more` : ""}`;
}

/** What somebody has to ask the shop for. */
function lookFor(
  { programme, mandrel }: Pocket,
  kind: Kind,
  library: Library,
  writer: Writer,
): string {
  const like = programme.installed.find(({ id, kind: of }) => id === mandrel.valve && of === kind);
  const body =
    like ??
    library.valves.find(
      (valve) => valve.kind === kind && valve.size === mandrel.pocket && valve.port,
    );
  const looked = `Look for: ${kind}, ${mandrel.pocket}, latch "${mandrel.latchProfile}"`;
  if (kind === "dummy") return `${looked}.`;
  const port = like?.port ? `, port ${asEntered(like.port)} as ${like.serial} has` : "";
  if (kind === "orifice") return `${looked}${port}.`;
  const needed =
    body && resultsOf({ ...programme, replacement: body }, {}).value("test-rack-needed");
  const set =
    needed === undefined
      ? "; its test-rack pressure follows once both pressures at the mandrel are known"
      : `, set to ${writer.write("pressure", needed)} on the test rack at 60 °F (with the bellows and port of ${body?.serial})`;
  return `${looked}${port}${set}.`;
}
