import { accept, type Decision, refuse } from "./decision.ts";
import type { Situation } from "./situation.ts";
import { MOST_WORDS, tidy, tooLong } from "./text.ts";

/** A photograph whose picture is kept beside the log, under the hash of its bytes. */
export interface Taken {
  readonly picture: string;
  readonly width: number;
  readonly height: number;
  readonly caption: string;
  /** step, hold point or contingency it belongs to */
  readonly at?: string;
}

/** Puts a photograph into the log. Whoever holds the tablet may take one while the record is open to notes. */
export function addPhotograph({ state }: Situation, taken: Taken): Decision {
  if (state.stage === "draft") return refuse("The programme has not been issued yet.");
  if (state.stage === "approved") {
    return refuse("The record is approved. It is not changed any more.");
  }
  const { picture, width, height, at } = taken;
  const caption = tidy(taken.caption);
  const long = tooLong("Caption", caption, MOST_WORDS);
  if (long) return refuse(long, "caption");
  return accept({
    type: "photograph",
    picture,
    width,
    height,
    ...(caption !== "" && { caption }),
    ...(at !== undefined && { at }),
  });
}
