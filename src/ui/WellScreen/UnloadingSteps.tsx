import { type UnloadingCheck, unloadingMethod } from "../../calc/unloading.ts";
import type { Writer } from "../../jobs/display.ts";
import type { UnloadingOutcome } from "../../jobs/results/wholeWell.ts";

interface UnloadingStepsProps {
  readonly outcome: UnloadingOutcome;
  readonly writer: Writer;
}

const words: Readonly<Record<UnloadingCheck["what"], string>> = {
  uncovered: "gas reaches it",
  opens: "it opens",
  "valve above shuts": "the valve above shuts",
  "valve above stays shut": "the valve above stays shut",
};

/** How the verdict came about: every valve in its turn, with what it has in hand. */
export function UnloadingSteps({ outcome, writer }: UnloadingStepsProps) {
  if (!outcome.ok) return null;
  const { unloading, mandrels } = outcome;
  const pressure = (si: number) => writer.write("pressure", si);
  return (
    <details className="card unloading">
      <summary>Unloading, valve by valve</summary>
      <ol>
        {unloading.steps.map((step) => (
          <li key={step.mandrel}>
            <p>
              <strong>Mandrel {mandrels[step.mandrel]?.number}.</strong> Tubing{" "}
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
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
      <dl className="working-method">
        <dt>Formula</dt>
        <dd>{unloadingMethod.formula}</dd>
        <dt>Source</dt>
        <dd>{unloadingMethod.source}</dd>
      </dl>
    </details>
  );
}
