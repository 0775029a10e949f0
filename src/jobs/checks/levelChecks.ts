import { differenceInMinutes, format, parseISO } from "date-fns";
import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { Policy } from "../records/policy.ts";
import type { Measured } from "../results/measurements.ts";
import { valueFor } from "../results/results.ts";
import { channelReading, quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, type Finding, finding, valuesOf } from "./check.ts";
import { atLeast, atMost } from "./compare.ts";

/** Casing and wellhead read at one moment. */
interface Pair {
  readonly at: string;
  readonly casing: Measured;
  readonly wellhead: Measured;
  /** read in an attempt before this one */
  readonly before: boolean;
}

/** Every moment at which both gauges were read, in log order. */
function pairs({ state, results }: CheckContext): Pair[] {
  const found = new Map<string, { casing?: Measured; wellhead?: Measured; before: boolean }>();
  for (const reading of state.readings) {
    const measured = channelReading(state, reading, results.context.atmosphere);
    if (!measured) continue;
    const pair = found.get(reading.event.hash) ?? { before: reading.setAside !== undefined };
    if (measured.channel === "casing pressure") pair.casing = measured;
    if (measured.channel === "wellhead pressure") pair.wellhead = measured;
    found.set(reading.event.hash, pair);
  }
  return [...found.values()].flatMap(({ casing, wellhead, before }) =>
    casing && wellhead ? [{ casing, wellhead, at: casing.at, before }] : [],
  );
}

/**
 * Says so when the pair entered last is not the one read last by its time: a clock moved, or two tablets read.
 * Which of them stands at the gauge now is then not for a rule to guess.
 */
function disagreement(all: readonly Pair[]): string | undefined {
  const last = all.at(-1);
  const later = last && all.find((pair) => pair.at > last.at);
  if (!later) return undefined;
  return `Not known which reading is the newest: the last one entered was taken at ${clock(last.at)}, another at ${clock(later.at)}. A clock moved, or two tablets read. Set the clock and read both gauges again.`;
}

const clock = (instant: string) => format(parseISO(instant), "HH:mm");

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
  "wellhead-lowest",
  "wellhead-highest",
  "rush-most",
] as const;

/**
 * Annulus against tubing at the mandrel within the policy's band, 50 to 100 psi either way (common practice).
 * Two-sided: an annulus bled too far is as wrong as one not bled enough.
 */
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
  const unclear = disagreement(pairs(context));
  if (unclear) return withBasis(context, finding("not known", unclear));
  const [difference] = found.values as [number];
  const above = toSI("pressure difference", policy.annulusAboveTubing.value);
  const below = toSI("pressure difference", policy.tubingAboveAnnulus.value);
  const { write } = context.writer;
  const number = targetMandrel(context.programme)?.number ?? "?";
  const side = difference >= 0 ? "above" : "below";
  const words = `Annulus is ${write("pressure difference", Math.abs(difference))} ${side} tubing at mandrel ${number}`;
  if (atMost(difference, above) && atLeast(difference, -below)) {
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
  return withBasis(
    context,
    finding(
      "fails",
      `${words}. ${context.asks("open pocket") ? OPEN_POCKET : levelIt(context, policy)}`,
      [],
      levelResults,
    ),
  );
};

/** An open pocket joins the two sides: nothing that is bled or filled explains a difference between them. */
const OPEN_POCKET =
  "The open pocket joins them, so something is in it or the level moved. Do not run. Take the fluid level again; look for what is in the pocket; call the engineer.";

function levelIt(context: CheckContext, policy: Policy): string {
  const watch = context.writer.write("duration", toSI("duration", policy.watch.value));
  return `${wayOut(context)}, hold ${watch}, then read again.`;
}

/** Where the casing has to go, or that it cannot get there. */
function wayOut(context: CheckContext): string {
  const { write } = context.writer;
  const band = valuesOf(context, ["casing-lowest", "casing-highest"]);
  if ("missing" in band) return `No casing pressure levels it (${band.missing})`;
  const [lowest, highest] = band.values as [number, number];
  const { atmosphere } = context.results.context;
  if (highest <= atmosphere) {
    const wellhead = valuesOf(context, ["wellhead-lowest", "wellhead-highest"]);
    const to =
      "missing" in wellhead
        ? ""
        : `: the wellhead to between ${write("pressure", wellhead.values[0] as number)} and ${write("pressure", wellhead.values[1] as number)}`;
    return `Bleeding the casing cannot level it: even at atmosphere the annulus stands above the band. Bring the tubing up instead${to}`;
  }
  return `Bring casing to between ${write("pressure", Math.max(lowest, atmosphere))} and ${write("pressure", highest)}`;
}

/**
 * Within the band at two moments at least the watch time apart, and at every reading between.
 * The watch time is policy, 15 to 30 min (common practice), or what was agreed for this pocket when that is longer.
 * Times are those at which the gauges were read.
 */
export const steady: Check = (context) => {
  const { programme, state, results, writer } = context;
  const { policy } = programme;
  const { issued } = state;
  if (!policy || !issued)
    return withBasis(context, finding("not known", "Not known: needs the policy."));
  const all = pairs(context);
  const unclear = disagreement(all);
  if (unclear) return withBasis(context, finding("not known", unclear));
  const above = toSI("pressure difference", policy.annulusAboveTubing.value);
  const below = toSI("pressure difference", policy.tubingAboveAnnulus.value);
  const agreed = quantitySI(context.reading("time"), results.context.atmosphere) ?? 0;
  const wanted = Math.max(toSI("duration", policy.watch.value), agreed) / 60;
  const run: { at: string; difference: number }[] = [];
  const newestFirst = [...all].sort((a, b) => (a.at < b.at ? 1 : -1));
  for (const { casing, wellhead, at, before } of newestFirst) {
    // The watch begins again with the attempt.
    if (before) break;
    const measured = {
      ...results.context.measured,
      "casing pressure": casing,
      "wellhead pressure": wellhead,
    };
    const difference = valueFor(issued.hash, programme, measured, "difference-at-mandrel");
    if (difference === undefined || !atMost(difference, above) || !atLeast(difference, -below))
      break;
    run.unshift({ at, difference });
  }
  const [first] = run;
  const last = run.at(-1);
  const minutes = first && last ? differenceInMinutes(parseISO(last.at), parseISO(first.at)) : 0;
  if (!first || !last || minutes < wanted) {
    const watch = writer.write("duration", wanted * 60);
    const words = `Watched within the band for ${minutes} min so far; read both gauges again when ${watch} have passed.`;
    return withBasis(context, finding(run.length === 0 ? "fails" : "not known", words));
  }
  const drift = last.difference - first.difference;
  const words = `Within the band for ${minutes} min; it drifted ${writer.write("pressure difference", Math.abs(drift))} ${drift < 0 ? "down" : "up"}`;
  const age = toSI("duration", policy.readingAge.value) / 60;
  const ahead = last.difference + (drift / minutes) * age;
  // A reading may be this old when the first blow is struck: what drifts out by then is not steady.
  const stays = atMost(ahead, above) && atLeast(ahead, -below);
  return withBasis(
    context,
    stays
      ? finding("passes", `${words}.`)
      : finding(
          "fails",
          `${words}: at that rate it leaves the band within the ${age} min for which readings count. Something feeds or drains it; wait, level it again, and watch.`,
        ),
  );
};

/** The time for which two sides have to stay level, as agreed on location: not below the policy's watch. */
export const steadyTimeAgreed: Check = (context) => {
  const { policy } = context.programme;
  const reading = context.reading("time");
  const agreed = quantitySI(reading, context.results.context.atmosphere);
  if (agreed === undefined || !policy) {
    return finding("not known", "Not known yet: needs the time agreed, and the policy.", [reading]);
  }
  const least = toSI("duration", policy.watch.value);
  const { write } = context.writer;
  return atLeast(agreed, least)
    ? finding(
        "passes",
        `${write("duration", agreed)} agreed; the policy asks ${write("duration", least)}.`,
        [reading],
      )
    : finding(
        "fails",
        `${write("duration", agreed)} is shorter than the policy's ${write("duration", least)}. Agree on that at least.`,
        [reading],
      );
};

/** The numbers a release stands on are not older than the policy age, 30 min (common practice). */
export const fresh: Check = (context) => {
  const { policy } = context.programme;
  const last = pairs(context).findLast(({ before }) => !before);
  if (!policy || !last) {
    return withBasis(
      context,
      finding("not known", "Not known: needs casing and wellhead pressure read at one moment."),
    );
  }
  const age = differenceInMinutes(parseISO(context.now), parseISO(last.at));
  const allowed = toSI("duration", policy.readingAge.value) / 60;
  if (age < -1) {
    const words = `The clock stands at ${clock(context.now)}, before the last reading at ${clock(last.at)}: it moved, and the age of the pressures is not known. Set the clock and read both gauges again.`;
    return withBasis(context, finding("not known", words));
  }
  const says =
    age <= allowed
      ? `Both gauges were read ${Math.max(0, age)} min before.`
      : `The pressures are ${age} min old; at most ${allowed} min is allowed. Read both gauges again.`;
  return withBasis(context, finding(age <= allowed ? "passes" : "fails", says));
};
