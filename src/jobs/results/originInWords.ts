import { format } from "date-fns";
import type { Origin } from "./traced.ts";

const clock = (at: string) => format(new Date(at), "HH:mm");

/**
 * Where a figure came from, in words.
 *
 * @param when says an instant; the clock alone where nothing is said, for whoever reads it on the day
 */
export function originInWords(origin: Origin, when = clock): string {
  switch (origin.kind) {
    case "record":
      return origin.where;
    case "measured":
      return `measured ${when(origin.at)} by ${origin.by}`;
    case "asked":
      return "typed here, not on record";
    case "policy":
      return `policy: ${origin.basis}`;
    case "assumed":
      return `assumed: ${origin.why}`;
    case "calculated":
      return "calculated";
  }
}
