import { differenceInMinutes, parseISO } from "date-fns";
import { toSI } from "../quantity.ts";
import { productionSide } from "../results/context.ts";
import type { Measured } from "../results/measurements.ts";
import { resultsFor } from "../results/results.ts";
import type { Reading } from "../state/jobState.ts";
import { quantitySI } from "../state/measurementsOf.ts";
import { type Check, type CheckContext, finding, valuesOf } from "./check.ts";
import { atLeast, atMost } from "./compare.ts";

/**
 * The new valve holds: a difference was made across it, and it stayed for the watch time. How much has to stand
 * across it and how much may be lost is policy (common practice). Statics of both columns; a check valve holds
 * one way only, and which side was bled is the programme's to say.
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
  const side = (difference: number) =>
    `annulus ${write("pressure difference", Math.abs(difference))} ${difference < 0 ? "below" : "above"} tubing`;
  const words = `At the mandrel ${side(start)}, ${side(end)} after ${minutes} min`;
  const gauges = [
    ["casing", change(context, casing1, casing2)],
    ["wellhead", change(context, wellhead1, wellhead2)],
  ] as const;
  const moved = gauges.filter(([, by]) => !atMost(Math.abs(by), allowed));
  const problems = [
    holdsThisWay(context, start),
    !atLeast(Math.abs(start), made) &&
      `at least ${write("pressure difference", made)} has to stand across it to prove anything`,
    minutes < wanted && `watch it for ${write("duration", wanted * 60)}`,
    !atMost(Math.abs(end - start), allowed) &&
      `it changed by ${write("pressure difference", Math.abs(end - start))}, more than ${write("pressure difference", allowed)}`,
    ...moved.map(
      ([name, by]) =>
        `the ${name} gauge moved by ${write("pressure difference", Math.abs(by))}: packing, latch or seat leaks, or temperature moves it. Do not return the well`,
    ),
  ].filter((problem) => typeof problem === "string");
  return problems.length === 0
    ? finding("passes", `${words}.`, parts, ["difference-at-mandrel"])
    : finding("fails", `${words}; ${problems.join("; ")}.`, parts, ["difference-at-mandrel"]);
};

/** How far a gauge moved between two readings, Pa. */
function change({ results }: CheckContext, from: Reading, to: Reading): number {
  const { atmosphere } = results.context;
  return (quantitySI(to, atmosphere) ?? 0) - (quantitySI(from, atmosphere) ?? 0);
}

/**
 * Why a difference made this way round says nothing about this kind of valve; undefined when it does. Gas goes
 * from injection to production: down the annulus and into the tubing, or the other way round.
 */
function holdsThisWay({ programme, results }: CheckContext, start: number): string | undefined {
  const kind = programme.replacement?.kind;
  const production = productionSide(programme);
  const injection = production === "tubing" ? "annulus" : "tubing";
  const injectionAbove = production === "tubing" ? start > 0 : start < 0;
  if (!injectionAbove) return undefined;
  if (kind === "orifice") {
    return `an orifice lets gas in from the ${injection}: its check holds only with the ${production} above, so make the difference the other way round`;
  }
  const closing = results.value("replacement-closing");
  const acting = results.value(`${injection}-at-mandrel`);
  const mayOpen = kind === "injection-operated" && closing !== undefined && acting !== undefined;
  return mayOpen && acting > closing
    ? `the ${injection} stands above the valve's closing pressure, where it may be open: bring it down first`
    : undefined;
}

function differenceAt(
  { programme, state, results }: CheckContext,
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
  const { issued } = state;
  if (!both["casing pressure"] || !both["wellhead pressure"] || !issued) return undefined;
  return resultsFor(issued.hash, programme, {
    ...measured,
    "casing pressure": both["casing pressure"],
    "wellhead pressure": both["wellhead pressure"],
  }).value("difference-at-mandrel");
}

/**
 * A dummy blanks its pocket both ways: once the annulus stood above the tubing at the mandrel, once below it. Each
 * difference is judged by `proofOfSeat`; this looks at their directions.
 */
export const provedBothWays: Check = (context) => {
  const parts = ["first casing", "first wellhead", "second casing", "second wellhead"].map((part) =>
    context.reading(part),
  );
  const [casing1, wellhead1, casing2, wellhead2] = parts;
  if (!casing1 || !wellhead1 || !casing2 || !wellhead2) {
    return finding(
      "not known",
      "Not known yet: needs both gauges at the start of either proof.",
      parts,
    );
  }
  const first = differenceAt(context, casing1, wellhead1);
  const second = differenceAt(context, casing2, wellhead2);
  if (first === undefined || second === undefined) {
    const found = valuesOf(context, ["difference-at-mandrel"]);
    return finding(
      "not known",
      `Not known: needs ${"missing" in found ? found.missing : "the difference at the mandrel"}.`,
      parts,
    );
  }
  const { write } = context.writer;
  const side = (difference: number) =>
    `annulus ${write("pressure difference", Math.abs(difference))} ${difference < 0 ? "below" : "above"} tubing`;
  const words = `At the mandrel first ${side(first)}, then ${side(second)}`;
  return first * second < 0
    ? finding("passes", `${words}.`, parts, ["difference-at-mandrel"])
    : finding(
        "fails",
        `${words}: both the same way round. Make a difference the other way and watch that, too.`,
        parts,
        ["difference-at-mandrel"],
      );
};
