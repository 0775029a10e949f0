import { format } from "date-fns";
import type { ReactNode } from "react";
import { asEntered, type Writer } from "../../jobs/display.ts";
import type { Dimension, Quantity } from "../../jobs/quantity.ts";
import { inReadersUnits } from "../../jobs/readersUnits.ts";
import { mandrelResultId } from "../../jobs/results/atMandrel.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { MandrelFigure } from "../../jobs/results/traced.ts";
import type { Check, Says } from "../../jobs/verdict/check.ts";
import type { LiftRead } from "../../jobs/verdict/liftRead.ts";
import type { MandrelNow } from "../../jobs/verdict/mandrelNow.ts";
import type { Verdict as VerdictOf } from "../../jobs/verdict/verdict.ts";
import { Figure } from "../Working/Figure.tsx";
import { WorkingFigure } from "../Working/WorkingFigure.tsx";
import type { AskSlot } from "./askSlot.ts";

/** Shape first, word second. */
const marks: Readonly<Record<Says, string>> = {
  consistent: "●",
  "not consistent": "≠",
  "cannot be told": "?",
};
const words: Readonly<Record<Says, string>> = {
  consistent: "Consistent",
  "not consistent": "Not consistent",
  "cannot be told": "Cannot be told",
};
const titles: Readonly<Record<Check["subject"], string>> = {
  "where gas enters": "Where gas enters",
  "gas rate": "Gas rate",
  "injection pressure": "Injection pressure",
};

interface VerdictProps {
  readonly verdict: VerdictOf;
  readonly writer: Writer;
  readonly ask?: AskSlot | undefined;
}

/** What was read after the return, held against what the well as left should do. */
export function Verdict({ verdict, writer, ask }: VerdictProps) {
  const { says, nearEdge, read, checks, mandrels, well, needs, doubts } = verdict;
  return (
    <section className="card review-section verdict" aria-labelledby="verdict-title">
      <h2 id="verdict-title">Verdict of the numbers</h2>
      <p className="verdict-says">
        <Mark says={says} />
        {words[says]}
        {nearEdge && ", near the edge"}
      </p>
      {read ? <Read read={read} writer={writer} /> : <p>{verdict.words}</p>}
      {checks.length > 0 && (
        <ul className="verdict-checks">
          {checks.map((check) => (
            <CheckLine key={check.subject} check={check}>
              {ask?.(
                { kind: "line", says: `Verdict of the numbers: ${check.subject}` },
                titles[check.subject],
              )}
            </CheckLine>
          ))}
        </ul>
      )}
      {needs.length > 0 && (
        <p>
          <strong>Missing to tell more:</strong> {needs.join("; ")}.
        </p>
      )}
      {well && (
        <details className="review-phase">
          <summary>Every valve at these pressures</summary>
          <Valves mandrels={mandrels} results={well.results} writer={writer} />
        </details>
      )}
      {doubts.length > 0 && (
        <details className="review-phase">
          <summary>How well these figures are known</summary>
          <ul className="verdict-doubts">
            {doubts.map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function Mark({ says }: { readonly says: Says }) {
  return (
    <span className="verdict-mark" aria-hidden="true">
      {marks[says]}
    </span>
  );
}

/** As it was typed, and in the unit of this tablet, in which the checks speak, where that is another. */
function readInWords<D extends Dimension>(
  dimension: D,
  quantity: Quantity<D>,
  writer: Writer,
): string {
  const converted = inReadersUnits(dimension, quantity, writer);
  return converted === undefined ? asEntered(quantity) : `${asEntered(quantity)} (${converted})`;
}

interface ReadProps {
  readonly read: LiftRead;
  readonly writer: Writer;
}

function Read({ read, writer }: ReadProps) {
  const { source, takenAt, by, injectionRate, liquidRate } = read;
  const parts = [
    `injection ${readInWords("pressure", read.injectionAtSurface, writer)}`,
    `production ${readInWords("pressure", read.wellhead, writer)} at surface`,
    injectionRate
      ? `injection rate ${readInWords("gas rate", injectionRate, writer)}`
      : "injection rate not read",
    ...(liquidRate ? [`liquid ${readInWords("liquid rate", liquidRate, writer)}`] : []),
  ];
  return (
    <p>
      Goes by {parts.join(", ")}, read {format(new Date(takenAt), "d MMM HH:mm")}, {by} ({source}).
    </p>
  );
}

interface CheckLineProps {
  readonly check: Check;
  readonly children?: ReactNode;
}

function CheckLine({ check, children }: CheckLineProps) {
  const { subject, says, nearEdge } = check;
  return (
    <li>
      <Mark says={says} />
      <div>
        <p>
          <strong>
            {titles[subject]}: {says}
            {nearEdge && ", near the edge"}.
          </strong>
        </p>
        <p>{check.words}</p>
        {children}
      </div>
    </li>
  );
}

const passes: Readonly<Record<MandrelNow["passes"], string>> = {
  yes: "passes gas",
  perhaps: "may pass gas",
  no: "passes nothing",
  "not known": "not known",
};

interface ValvesProps {
  readonly mandrels: readonly MandrelNow[];
  readonly results: Results;
  readonly writer: Writer;
}

function Valves({ mandrels, results, writer }: ValvesProps) {
  return (
    <table className="review-table">
      <caption className="hidden-label">Every valve at the pressures read</caption>
      <thead>
        <tr>
          <th scope="col">Mandrel</th>
          <th scope="col">Injection</th>
          <th scope="col">Production</th>
          <th scope="col">Opens at</th>
          <th scope="col">Shuts at</th>
          <th scope="col">Good for</th>
          <th scope="col">Gas it passes</th>
        </tr>
      </thead>
      <tbody>
        {mandrels.map((each) => {
          const figure = (of: MandrelFigure) => (
            <WorkingFigure
              id={mandrelResultId(of, each.mandrel)}
              results={results}
              writer={writer}
            />
          );
          const bellows = each.opening !== undefined;
          const { valve, doubt } = each;
          return (
            <tr key={each.mandrel}>
              <th scope="row">
                {each.mandrel},{" "}
                {valve ? `${valve.serial}, ${valve.kind}` : each.state.mandrel.pocketState}
                <span className="review-when">
                  {each.state.gate}: {passes[each.passes]}
                </span>
              </th>
              <td data-name="injection">{figure("injection")}</td>
              <td data-name="production">{figure("production")}</td>
              <td data-name="opens at">{bellows && figure("opening")}</td>
              <td data-name="shuts at">{bellows && figure("closing")}</td>
              <td data-name="good for" className="verdict-good">
                {bellows && (
                  <>
                    ± <Figure dimension="pressure difference" si={doubt} writer={writer} />
                  </>
                )}
              </td>
              <td data-name="gas">{gasInWords(each, writer)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function gasInWords({ gas, passes: passing, needs }: MandrelNow, writer: Writer): string {
  if (passing === "no") return "none";
  if (!gas) return `not known: needs ${needs.join("; ")}`;
  const write = (si: number) => writer.write("gas rate", si);
  return `${write(gas.least)} to ${write(gas.most)} (${gas.by})`;
}
