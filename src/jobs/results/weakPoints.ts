import { toSI } from "../quantity.ts";
import type { Context } from "./context.ts";
import { strengthAsWorn } from "./lineResults.ts";

/** Something between the drum and the valve that parts at a pull. */
export interface WeakPoint {
  readonly name: string;
  /** steady pull it stands, N; undefined where its record does not say */
  readonly stands: number | undefined;
}

/**
 * The wire, its socket and every tool of a string in the order in which they would part, weakest first; what
 * nobody has stated comes last, and is not strong for that.
 */
export function weakPoints(context: Context, purpose: "gauge" | "pull" | "set"): WeakPoint[] {
  const { line, strings } = context.programme;
  const points: WeakPoint[] = [
    ...(line
      ? [
          { name: line.name, stands: strengthAsWorn(line) },
          {
            name: "Rope socket, by the line's record",
            stands: line.ropeSocketStrength && toSI("force", line.ropeSocketStrength),
          },
        ]
      : []),
    ...(strings[purpose]?.tools ?? []).map(({ name, strength }) => ({
      name,
      stands: strength && toSI("force", strength),
    })),
  ];
  return points.sort(
    (a, b) => (a.stands ?? Number.POSITIVE_INFINITY) - (b.stands ?? Number.POSITIVE_INFINITY),
  );
}
