import { format, startOfMinute } from "date-fns";
import { atMost } from "../checks/compare.ts";
import type { EventBody } from "../log/event.ts";
import { surfaceGauges } from "../programme.ts";
import { type Dimension, type Quantity, toSI } from "../quantity.ts";
import { resultsAt } from "../state/conditions.ts";
import type { JobState, LiftObserved } from "../state/jobState.ts";
import { accept, type Decision, type Doubt, refuse } from "./decision.ts";
import { type Typed, understandQuantity } from "./entry.ts";
import { doubtBodies } from "./run.ts";
import type { Situation } from "./situation.ts";
import { MOST_LONG, MOST_WORDS, tidy, tooLong } from "./text.ts";

type Observed = Extract<EventBody, { type: "lift observed" }>;

type Figure = "injectionAtSurface" | "wellhead" | "injectionRate" | "liquidRate";

interface ObservedField {
  readonly id: Figure;
  /** as the gauge is called, which goes by the side that the gas goes down */
  readonly label: string;
  readonly dimension: Dimension;
  readonly optional: boolean;
}

/** What can be read of a well on lift; the rates may stay empty. */
export function observedFields({ programme }: Pick<JobState, "programme">): ObservedField[] {
  const down = surfaceGauges(programme).injection === "tubing";
  const [injection, production] = down
    ? ["Tubing pressure at surface", "Casing pressure at surface"]
    : ["Casing pressure at surface", "Wellhead pressure"];
  return [
    { id: "injectionAtSurface", label: injection, dimension: "pressure", optional: false },
    { id: "wellhead", label: production, dimension: "pressure", optional: false },
    { id: "injectionRate", label: "Injection gas rate", dimension: "gas rate", optional: true },
    { id: "liquidRate", label: "Liquid rate", dimension: "liquid rate", optional: true },
  ];
}

export interface Observation {
  /** instant at which the figures were read; undefined: not said */
  readonly takenAt: string | undefined;
  readonly source: string;
  readonly typed: Readonly<Partial<Record<Figure, Typed>>>;
  /** the reading that it stands for instead, by the hash of its event, and why; it stays in the log */
  readonly corrects?: { readonly event: string; readonly reason: string };
  /** somebody stands by what is in doubt */
  readonly standBy?: boolean;
}

/**
 * Keeps what the well did on lift, read at one moment. The well is watched for days after the crew has left, by
 * whoever is there, so anybody may enter it, and correct what was entered, until the record is approved.
 */
export function observeLift(situation: Situation, observation: Observation): Decision {
  const { state, now, writer } = situation;
  const { takenAt, corrects } = observation;
  const wrong = corrects && state.observed.find(({ event }) => event.hash === corrects.event);
  const stopped = notWatched(state) ?? (corrects && notToCorrect(wrong));
  if (stopped) return stopped;
  if (takenAt === undefined) return refuse("Say when it was read: day and time.", "takenAt");
  if (takenAt > now) {
    return refuse(
      "It would have been read in the future. Correct the time, or the tablet's clock.",
      "takenAt",
    );
  }
  const source = tidy(observation.source);
  if (source === "") {
    return refuse("Say where the figures come from: a gauge, a recorder, a call.", "source");
  }
  const long = tooLong("Source", source, MOST_WORDS);
  if (long) return refuse(long, "source");
  const figures: Partial<Record<Figure, Quantity>> = {};
  for (const { id, label, dimension, optional } of observedFields(state)) {
    const { text = "", unit = "" } = observation.typed[id] ?? {};
    if (optional && text.trim() === "") continue;
    const read = understandQuantity(label, dimension, { text, unit }, writer.atmosphere);
    if (!read.ok) return refuse(read.why, id);
    if (dimension !== "pressure" && read.quantity.value < 0) {
      return refuse(`${label}: ${text} cannot be; a rate is 0 or more.`, id);
    }
    figures[id] = read.quantity;
  }
  const read = { type: "lift observed", takenAt, source, ...figures } as Observed;
  const reason = tidy(corrects?.reason ?? "");
  if (wrong) {
    if (reason === "") return refuse("Say why it is corrected.", "reason");
    const longReason = tooLong("Reason", reason, MOST_LONG);
    if (longReason) return refuse(longReason, "reason");
    if (isAlike(read, wrong.observed)) return refuse("That is what stands there already.");
  }
  const body = wrong ? { ...read, corrects: { event: wrong.event.hash, reason } } : read;
  const stoodBy = doubtBodies(
    undefined,
    doubtsOfLift(situation, body),
    observation.standBy ? { reason: "" } : undefined,
  );
  if (!stoodBy.ok) return stoodBy;
  return accept(body, ...stoodBy.bodies);
}

function notWatched({ stage, started }: JobState): Decision | undefined {
  if (stage === "approved") return refuse("The record is approved. It is not changed any more.");
  return started ? undefined : refuse("The run has not been started yet.");
}

/** Why a reading on lift cannot be corrected, or not any more. */
function notToCorrect(wrong: LiftObserved | undefined): Decision | undefined {
  if (!wrong) return refuse("The reading to correct is not in the log.");
  const { corrected } = wrong;
  if (!corrected) return undefined;
  const { actor, at } = corrected.event;
  return refuse(
    `${actor.name} corrected this reading already, ${time(at)}. If that is wrong, too, correct the one that stands in its place.`,
  );
}

function isAlike(one: Observed, other: Observed): boolean {
  const figures = ["injectionAtSurface", "wellhead", "injectionRate", "liquidRate"] as const;
  return (
    Date.parse(one.takenAt) === Date.parse(other.takenAt) &&
    one.source === other.source &&
    figures.every((id) => one[id]?.value === other[id]?.value && one[id]?.unit === other[id]?.unit)
  );
}

const time = (at: string) => format(new Date(at), "d MMM HH:mm");

/** What somebody should look at twice; the figures may be right. */
function doubtsOfLift({ state, writer }: Situation, body: Observed): Doubt[] {
  const { write, atmosphere } = writer;
  const injection = toSI("pressure", body.injectionAtSurface, atmosphere);
  const production = toSI("pressure", body.wellhead, atmosphere);
  const doubts: Doubt[] = [];
  const doubt = (field: string, says: string) => doubts.push({ field, says, needsReason: false });
  const { started } = state;
  if (started && new Date(body.takenAt) < startOfMinute(new Date(started.at))) {
    doubt(
      "takenAt",
      `Read ${time(body.takenAt)}, and the run was started after that, ${time(started.at)}.`,
    );
  }
  if (injection < production) {
    const gauges = surfaceGauges(state.programme);
    const side = gauges.injection === "tubing" ? "Tubing" : "Casing";
    doubt(
      "injectionAtSurface",
      `${side} pressure ${write("pressure", injection)} is less than the ${gauges.production} pressure ${write("pressure", production)}: no gas goes down like that. Are the two swapped?`,
    );
  }
  const most = resultsAt(state)?.value("expected-maximum");
  for (const { id, label, dimension } of observedFields(state)) {
    if (dimension !== "pressure" || most === undefined) continue;
    const si = id === "wellhead" ? production : injection;
    if (atMost(si, most)) continue;
    doubt(
      id,
      `${label}: ${write("pressure", si)} is more than the ${write("pressure", most)} that this well should show at surface.`,
    );
  }
  return doubts;
}
