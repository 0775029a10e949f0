import { differenceInMinutes, parseISO } from "date-fns";
import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { Measured } from "../results/measurements.ts";
import { resultsOf } from "../results/results.ts";
import type { Reading } from "../state/jobState.ts";
import { channelReading, quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, type Finding, finding, valuesOf } from "./check.ts";

/** Casing and wellhead read at one moment. */
interface Pair {
  readonly at: string;
  readonly casing: Measured;
  readonly wellhead: Measured;
  readonly event: string;
}

/** Every moment at which both gauges were read, in log order. */
function pairs({ state, results }: CheckContext): Pair[] {
  const found = new Map<string, { casing?: Measured; wellhead?: Measured }>();
  for (const reading of state.readings) {
    const measured = channelReading(state, reading, results.context.atmosphere);
    if (!measured) continue;
    const pair = found.get(reading.event.hash) ?? {};
    if (measured.channel === "casing pressure") pair.casing = measured;
    if (measured.channel === "wellhead pressure") pair.wellhead = measured;
    found.set(reading.event.hash, pair);
  }
  return [...found].flatMap(([event, { casing, wellhead }]) =>
    casing && wellhead ? [{ event, casing, wellhead, at: casing.at }] : [],
  );
}

/** What the levelling checks stand on: both gauges and, where it was found, the fluid level. */
function levelBasis({ results }: CheckContext): string[] {
  const { measured } = results.context;
  return ["casing pressure", "wellhead pressure", "fluid level"].flatMap((channel) => {
    const found = measured[channel as "casing pressure"];
    return found ? [found.event] : [];
  });
}

function withBasis(context: CheckContext, result: Finding): Finding {
  return { ...result, basis: [...new Set(levelBasis(context))] };
}

const levelResults = [
  "difference-at-mandrel",
  "annulus-at-mandrel",
  "tubing-at-mandrel",
  "casing-lowest",
  "casing-highest",
] as const;

/** Two-sided: an annulus bled too far is as wrong as one not bled enough. */
export const levelled: Check = (context) => {
  const { policy } = context.programme;
  const found = valuesOf(context, ["difference-at-mandrel"]);
  if ("missing" in found || !policy) {
    return withBasis(
      context,
      finding(
        "not known",
        `Not known: needs ${"missing" in found ? found.missing : "the policy"}.`,
      ),
    );
  }
  const [difference = 0] = found.values;
  const above = toSI("pressure difference", policy.annulusAboveTubing.value);
  const below = toSI("pressure difference", policy.tubingAboveAnnulus.value);
  const { write } = context.writer;
  const number = targetMandrel(context.programme)?.number ?? "?";
  const side = difference >= 0 ? "above" : "below";
  const words = `Annulus is ${write("pressure difference", Math.abs(difference))} ${side} tubing at mandrel ${number}`;
  if (difference <= above && difference >= -below) {
    return withBasis(
      context,
      finding(
        "passes",
        `${words}; up to ${write("pressure difference", above)} above and ${write("pressure difference", below)} below is allowed.`,
        [],
        levelResults,
      ),
    );
  }
  const watch = write("duration", toSI("duration", policy.watch.value));
  return withBasis(
    context,
    finding(
      "fails",
      `${words}. ${wayOut(context)}, hold ${watch}, then read again.`,
      [],
      levelResults,
    ),
  );
};

/** Where the casing has to go, or that it cannot get there. */
function wayOut(context: CheckContext): string {
  const { write } = context.writer;
  const band = valuesOf(context, ["casing-lowest", "casing-highest"]);
  if ("missing" in band) return `No casing pressure levels it (${band.missing})`;
  const [lowest = 0, highest = 0] = band.values;
  const { atmosphere } = context.results.context;
  if (highest <= atmosphere) {
    return "Bleeding the casing cannot level it: even at atmosphere the annulus stands above the band. Bring the tubing up instead";
  }
  return `Bring casing to between ${write("pressure", Math.max(lowest, atmosphere))} and ${write("pressure", highest)}`;
}

/** Within the band at two moments at least the watch time apart, and at every reading between. */
export const steady: Check = (context) => {
  const { programme, results, writer } = context;
  const { policy } = programme;
  if (!policy) return withBasis(context, finding("not known", "Not known: needs the policy."));
  const above = toSI("pressure difference", policy.annulusAboveTubing.value);
  const below = toSI("pressure difference", policy.tubingAboveAnnulus.value);
  const wanted = toSI("duration", policy.watch.value) / 60;
  const run: { at: string; difference: number }[] = [];
  for (const { casing, wellhead, at } of pairs(context).reverse()) {
    const measured = {
      ...results.context.measured,
      "casing pressure": casing,
      "wellhead pressure": wellhead,
    };
    const difference = resultsOf(programme, measured).value("difference-at-mandrel");
    if (difference === undefined || difference > above || difference < -below) break;
    run.unshift({ at, difference });
  }
  const [first] = run;
  const last = run.at(-1);
  const minutes = first && last ? differenceInMinutes(parseISO(last.at), parseISO(first.at)) : 0;
  const watch = writer.write("duration", wanted * 60);
  if (!first || !last || minutes < wanted) {
    return withBasis(
      context,
      finding(
        run.length === 0 ? "fails" : "not known",
        `Watched within the band for ${minutes} min so far; read both gauges again when ${watch} have passed.`,
      ),
    );
  }
  const drift = writer.write("pressure difference", Math.abs(last.difference - first.difference));
  return withBasis(
    context,
    finding("passes", `Within the band for ${minutes} min; it drifted ${drift}.`),
  );
};

/** The numbers a release stands on are not older than the policy age. */
export const fresh: Check = (context) => {
  const { policy } = context.programme;
  const last = pairs(context).at(-1);
  if (!policy || !last) {
    return withBasis(
      context,
      finding("not known", "Not known: needs casing and wellhead pressure read at one moment."),
    );
  }
  const age = differenceInMinutes(parseISO(context.now), parseISO(last.at));
  const allowed = toSI("duration", policy.readingAge.value) / 60;
  return withBasis(
    context,
    age <= allowed
      ? finding("passes", `Both gauges were read ${Math.max(0, age)} min ago.`)
      : finding(
          "fails",
          `The pressures are ${age} min old; at most ${allowed} min is allowed. Read both gauges again.`,
        ),
  );
};

/**
 * The new valve holds: a difference was made across it, and it stayed.
 */
export const proofOfSeat: Check = (context) => {
  const { policy } = context.programme;
  const { write } = context.writer;
  const parts = ["start casing", "start wellhead", "end casing", "end wellhead"].map((part) =>
    context.reading(part),
  );
  const [casing1, wellhead1, casing2, wellhead2] = parts;
  if (!casing1 || !wellhead1 || !casing2 || !wellhead2 || !policy) {
    return finding(
      "not known",
      "Not known yet: needs casing and wellhead pressure at the start and at the end of the watch.",
      parts,
    );
  }
  const start = differenceAt(context, casing1, wellhead1);
  const end = differenceAt(context, casing2, wellhead2);
  if (start === undefined || end === undefined) {
    const found = valuesOf(context, ["difference-at-mandrel"]);
    return finding(
      "not known",
      `Not known: needs ${"missing" in found ? found.missing : "the difference at the mandrel"}.`,
      parts,
    );
  }
  const made = toSI("pressure difference", policy.proofDifference.value);
  const allowed = toSI("pressure difference", policy.proofLoss.value);
  const wanted = toSI("duration", policy.watch.value) / 60;
  const minutes = differenceInMinutes(parseISO(casing2.takenAt), parseISO(casing1.takenAt));
  const loss = Math.abs(start) - Math.abs(end);
  const words = `${write("pressure difference", Math.abs(start))} across the valve at the mandrel, ${write("pressure difference", Math.abs(end))} after ${minutes} min`;
  const problems = [
    Math.abs(start) < made &&
      `at least ${write("pressure difference", made)} has to stand across it to prove anything`,
    minutes < wanted && `watch it for ${write("duration", wanted * 60)}`,
    Math.abs(loss) > allowed &&
      `it changed by more than ${write("pressure difference", allowed)}: packing, latch or seat leaks, or temperature moves it. Do not return the well`,
  ].filter((problem) => problem !== false);
  return problems.length === 0
    ? finding("passes", `${words}.`, parts, ["difference-at-mandrel"])
    : finding("fails", `${words}; ${problems.join("; ")}.`, parts, ["difference-at-mandrel"]);
};

function differenceAt(
  { programme, results }: CheckContext,
  casing: Reading,
  wellhead: Reading,
): number | undefined {
  const { atmosphere, measured } = results.context;
  const at = (reading: Reading): Measured | undefined => {
    const si = quantitySI(reading, atmosphere);
    if (si === undefined) return undefined;
    return { si, at: reading.takenAt, by: reading.event.actor.name, event: reading.standsOn };
  };
  const both = { "casing pressure": at(casing), "wellhead pressure": at(wellhead) };
  if (!both["casing pressure"] || !both["wellhead pressure"]) return undefined;
  return resultsOf(programme, {
    ...measured,
    "casing pressure": both["casing pressure"],
    "wellhead pressure": both["wellhead pressure"],
  }).value("difference-at-mandrel");
}
