import type { Actor } from "../roles.ts";
import type { Strokes } from "../signature.ts";
import { accept, type Decision, refuse } from "./decision.ts";
import { secondRole } from "./onePerson.ts";
import { notRunning, type Situation } from "./situation.ts";
import { MOST_LONG, MOST_WORDS, notSigned, samePerson, tidy, tooLong } from "./text.ts";

/** Handing a run over to the next supervisor. */
export interface Handover {
  readonly to: string;
  /** where things stand: string, pressures, what is open; said and heard */
  readonly state: string;
  readonly drawn: { readonly by?: Strokes; readonly to?: Strokes };
}

/** One supervisor gives the run to the next; both sign, and the next holds the tablet from then on. */
export function changeCrew({ state, actor }: Situation, handover: Handover): Decision {
  const stopped = notRunning(state);
  if (stopped) return stopped;
  if (actor.role !== "wireline supervisor") {
    return refuse(
      `A wireline supervisor hands the run over; ${actor.name} is here as ${actor.role}.`,
    );
  }
  const name = tidy(handover.to);
  if (name === "") return refuse("Enter who takes the run over.", "to");
  if (samePerson(name, actor.name)) {
    return refuse(`${actor.name} has the run already. Enter who takes it over.`, "to");
  }
  const second = secondRole(state, { name, role: actor.role });
  if (second) return refuse(second, "to");
  const words = tidy(handover.state);
  if (words === "") {
    return refuse(
      "Say where things stand: where the string is, the pressures, what is open.",
      "state",
    );
  }
  const tooMuch = tooLong("Name", name, MOST_WORDS);
  if (tooMuch) return refuse(tooMuch, "to");
  const long = tooLong("Where things stand", words, MOST_LONG);
  if (long) return refuse(long, "state");
  const drawing = notSigned(handover.drawn.by, actor.name) ?? notSigned(handover.drawn.to, name);
  if (drawing) return refuse(drawing, "drawn");
  const to: Actor = { name, role: actor.role };
  return accept({ type: "crew changed", by: actor, to, state: words, drawn: handover.drawn });
}
