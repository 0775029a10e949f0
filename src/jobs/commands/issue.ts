import { readinessOf } from "../readiness.ts";
import type { Programme } from "../records/programme.ts";
import type { Actor } from "../roles.ts";
import type { JobState } from "../state/jobState.ts";
import { accept, type Decision, refuse } from "./decision.ts";

/** Gives a programme out to the crew, as one numbered revision. Refused while something stops it. */
export function issueProgramme(state: JobState, programme: Programme, actor: Actor): Decision {
  if (actor.role !== "planner" && actor.role !== "production engineer") {
    return refuse(`The planner issues the programme; ${actor.name} is here as ${actor.role}.`);
  }
  if (state.stage !== "draft" && state.stage !== "issued") {
    return refuse("The run has been started; the crew works on the revision it has.");
  }
  const stops = readinessOf(programme).points.filter((point) => point.stops);
  if (stops.length > 0) {
    return refuse(`Not ready: ${stops.map((point) => point.says).join(" ")}`);
  }
  return accept({ type: "programme issued", revision: state.revision + 1, programme });
}
