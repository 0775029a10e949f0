import { format } from "date-fns";
import { type ReactNode, useEffect, useMemo, useRef } from "react";
import type { Writer } from "../../jobs/display.ts";
import type { ResultId } from "../../jobs/results/traced.ts";
import {
  type Comparison,
  differenceOf,
  planAgainstActual,
  type Standing,
  standingInWords,
} from "../../jobs/review/planActual.ts";
import { Figure } from "../Working/Figure.tsx";
import { WorkingFigure } from "../Working/WorkingFigure.tsx";
import type { AskSlot } from "./askSlot.ts";

interface PlanActualProps {
  readonly comparisons: readonly Comparison[];
  readonly writer: Writer;
  readonly ask?: AskSlot | undefined;
}

/** Readings that the plan says something of: what lies outside on top, the rest folded by phase. */
export function PlanActual({ comparisons, writer, ask }: PlanActualProps) {
  const { out, phases, says } = useMemo(() => planAgainstActual(comparisons), [comparisons]);
  return (
    <section className="card review-section" aria-labelledby="plan-actual-title">
      <h2 id="plan-actual-title">Plan against actual</h2>
      <p className="review-lead">{says}</p>
      {out.length > 0 && (
        <Readings rows={out} writer={writer} ask={ask} caption="Outside, worst first" phased />
      )}
      {phases.map(({ title, rows }) => (
        <Folded key={title} title={`${title}, ${rows.length}`} rows={rows}>
          <Readings rows={rows} writer={writer} ask={ask} caption={title} />
        </Folded>
      ))}
      <p className="small soft">
        Planned: by the programme's figures alone. Expected: with what had been measured by then.
        The band is the policy's; it says what is usual, not what is permitted.
      </p>
    </section>
  );
}

interface FoldedProps {
  readonly title: string;
  readonly rows: readonly Comparison[];
  readonly children: ReactNode;
}

/** Opens by itself when the address names one of its rows. */
function Folded({ title, rows, children }: FoldedProps) {
  const details = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    const named = rows.find(({ anchor }) => window.location.hash === `#${anchor}`);
    if (!named || !details.current) return;
    details.current.open = true;
    document.getElementById(named.anchor)?.scrollIntoView({ block: "center" });
  }, [rows]);
  return (
    <details className="review-phase" ref={details}>
      <summary>{title}</summary>
      {children}
    </details>
  );
}

interface ReadingsProps {
  readonly rows: readonly Comparison[];
  readonly writer: Writer;
  readonly ask: AskSlot | undefined;
  readonly caption: string;
  /** each row says its phase */
  readonly phased?: boolean;
}

function Readings({ rows, writer, ask, caption, phased = false }: ReadingsProps) {
  return (
    <table className="review-table plan-table">
      <caption className="hidden-label">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Reading</th>
          <th scope="col">Read</th>
          <th scope="col">Planned</th>
          <th scope="col">Expected</th>
          <th scope="col">Band</th>
          <th scope="col">At most</th>
          <th scope="col">It lies</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <ReadingRow key={row.anchor} row={row} writer={writer} phased={phased}>
            {ask?.(
              { kind: "event", event: row.reading.event.hash, field: row.reading.field },
              row.label,
            )}
          </ReadingRow>
        ))}
      </tbody>
    </table>
  );
}

/** Shape first, word second: a bar where it is over a limit, a ring left open where it is outside. */
const marks: Readonly<Record<Standing, string>> = {
  "over limit": "▮",
  outside: "◌",
  inside: "●",
  "no band": "○",
  "not known": "?",
};

interface ReadingRowProps {
  readonly row: Comparison;
  readonly writer: Writer;
  readonly phased: boolean;
  /** what stands beside the reading, such as a question about it */
  readonly children?: ReactNode;
}

function ReadingRow({ row, writer, phased, children }: ReadingRowProps) {
  const { reading, dimension, planned, band, most, standing } = row;
  const { takenAt, event } = reading;
  const isOut = standing === "over limit" || standing === "outside";
  const figure = (si: number | undefined, of = dimension) =>
    si !== undefined && <Figure dimension={of} si={si} writer={writer} calculated />;
  return (
    <tr id={row.anchor} className={isOut ? "exceeds" : ""}>
      <th scope="row">
        {row.label}
        <span className="review-when small soft">
          {phased && row.phase && `${row.phase}, `}
          {format(new Date(takenAt), "d MMM HH:mm")}, {event.actor.name}
        </span>
        {children}
      </th>
      <td data-name="read">
        <Figure dimension={dimension} si={row.actual} writer={writer} />
      </td>
      <td data-name="planned">
        {row.recomputed ? figure(planned) : <Working row={row} writer={writer} of="expected" />}
      </td>
      <td data-name="expected">
        {row.recomputed ? (
          <Working row={row} writer={writer} of="expected" />
        ) : (
          row.expected !== undefined && <span className="small">the same</span>
        )}
      </td>
      <td data-name="band">
        {band !== undefined && <>± {figure(band, differenceOf(dimension))}</>}
      </td>
      <td data-name="at most">
        {most !== undefined && <Working row={row} writer={writer} of="most" />}
      </td>
      <td data-name="" className="review-lies">
        <span aria-hidden="true">{marks[standing]} </span>
        {standingInWords(row, writer)}
      </td>
    </tr>
  );
}

interface WorkingProps {
  readonly row: Comparison;
  readonly writer: Writer;
  readonly of: "expected" | "most";
}

/** What is expected, or the limit, opening its working where it has one. */
function Working({ row, writer, of }: WorkingProps) {
  const si = row[of];
  if (si === undefined) return null;
  const id: ResultId | undefined = of === "expected" ? row.working : row.limit;
  if (id) return <WorkingFigure id={id} results={row.results} writer={writer} />;
  return <Figure dimension={row.dimension} si={si} writer={writer} calculated />;
}
