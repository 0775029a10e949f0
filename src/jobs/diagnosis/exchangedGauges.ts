import type { Writer } from "../display.ts";
import type { Judged } from "./judged.ts";
import type { LiftedWell } from "./liftedWell.ts";
import type { Figure, Observations } from "./observations.ts";
import { logMean } from "./surveyFit.ts";
import { termsOf } from "./terms.ts";

/**
 * Two gauges that fit once they are exchanged, in words: the side that gas goes down reads below the side it comes up, and
 * the other way round an answer gives both.
 */
export function sayExchanged(
  lifted: LiftedWell,
  seen: Observations,
  judged: readonly Judged[],
  writer: Writer,
): string | undefined {
  const pair = seen.injection
    .map((down) => ({ down, up: seen.wellhead.find(({ evidence }) => evidence === down.evidence) }))
    .find(
      (both): both is { down: Figure; up: Figure } =>
        both.up !== undefined && both.down.value < both.up.value,
    );
  if (!pair) return undefined;
  const { down, up } = pair;
  const terms = termsOf(lifted, { ...seen, injection: [up], wellhead: [down] }, writer).filter(
    ({ evidence, figure }) => evidence === down.evidence && figure?.dimension === "pressure",
  );
  const fits = judged.some(({ conditions, before, candidate }) => {
    const logs = conditions.map((condition, i) =>
      terms.reduce(
        (sum, term) => sum + term.logOf(condition, candidate.hypothesis.fault) - term.logOfNone,
        before[i] as number,
      ),
    );
    return logMean(logs) > logMean(before);
  });
  if (!fits) return undefined;
  const [casing, tubing] =
    lifted.injectionDown === "annulus" ? ["casing", "tubing"] : ["tubing", "casing"];
  return `Casing and tubing look exchanged: ${writer.write("pressure", up.value)} on the ${casing} and ${writer.write("pressure", down.value)} on the ${tubing} would fit.`;
}
