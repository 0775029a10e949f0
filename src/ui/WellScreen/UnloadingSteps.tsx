import { type UnloadingCheck, unloadingMethod } from "../../calc/unloading.ts";
import type { Writer } from "../../jobs/display.ts";
import { mandrelResultId } from "../../jobs/results/atMandrel.ts";
import { productionSide } from "../../jobs/results/context.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { UnloadingOutcome } from "../../jobs/results/unloadingResult.ts";

interface UnloadingStepsProps {
  readonly outcome: UnloadingOutcome;
  readonly results: Results;
  readonly writer: Writer;
}

const words: Readonly<Record<UnloadingCheck["what"], string>> = {
  uncovered: "gas reaches it",
  opens: "it opens",
  "valve above shuts": "the valve above shuts",
  "valve above stays shut": "the valve above stays shut",
};

/** How the verdict came about: every valve in its turn, with what it has in hand. */
export function UnloadingSteps({ outcome, results, writer }: UnloadingStepsProps) {
  if (!outcome.ok) return null;
  const { unloading, mandrels } = outcome;
  const pressure = (si: number) => writer.write("pressure", si);
  const side = productionSide(results.context.programme) === "tubing" ? "Tubing" : "Annulus";
  /** the opening band of the valve that a check speaks of: a margin inside it may not be there */
  const bandOf = (what: UnloadingCheck["what"], place: number): number => {
    const of = what.startsWith("valve above") ? place - 1 : place;
    const index = unloading.steps[of]?.mandrel;
    const mandrel = index === undefined ? undefined : mandrels[index];
    return (mandrel && results.value(mandrelResultId("opening-band", mandrel.number))) ?? 0;
  };
  return (
    <details className="card unloading">
      <summary>Unloading, valve by valve</summary>
      <ol>
        {unloading.steps.map((step, place) => (
          <li key={step.mandrel}>
            <p>
              <strong>Mandrel {mandrels[step.mandrel]?.number}.</strong> {side}{" "}
              {pressure(step.transfer)} when gas first reaches it, {pressure(step.lifted)} once gas
              enters here.
              {step.surfaceOpening !== undefined &&
                ` At surface it opens at ${pressure(step.surfaceOpening)}`}
              {step.surfaceClosing !== undefined &&
                ` and shuts at ${pressure(step.surfaceClosing)}`}
              {step.surfaceOpening !== undefined && "."}
            </p>
            <ul>
              {step.checks.map(({ what, inHand }) => (
                <li key={what} className={inHand < 0 ? "short" : ""}>
                  {words[what]}: {writer.write("pressure difference", Math.abs(inHand))}{" "}
                  {inHand < 0 ? "short" : "in hand"}
                  {inHand >= 0 &&
                    inHand < bandOf(what, place) &&
                    `, less than the ± ${writer.write("pressure difference", bandOf(what, place))} of the valve's setting`}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
      <p className="small">
        "Gas reaches it" is judged with the casing as low as the valve above lets it fall, "it
        opens" with the casing as high as that valve lets it rise again. A well that is colder at
        the start sets every charged valve lower, and how much gas each valve passes is not counted.
      </p>
      <dl className="working-method">
        <dt>Formula</dt>
        <dd>{unloadingMethod.formula}</dd>
        <dt>Source</dt>
        <dd>{unloadingMethod.source}</dd>
      </dl>
    </details>
  );
}
