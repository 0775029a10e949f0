import { format } from "date-fns";
import type { Origin } from "./traced.ts";

/** Where a figure came from, in words. */
export function originInWords(origin: Origin): string {
  switch (origin.kind) {
    case "record":
      return origin.where;
    case "measured":
      return `measured ${format(new Date(origin.at), "HH:mm")} by ${origin.by}`;
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
