import { useState } from "react";
import { Link } from "wouter";
import { mendOf } from "../../jobs/planning/mend.ts";
import type { Proposal } from "../../jobs/planning/proposal.ts";
import type { OpenPoint } from "../../jobs/readiness.ts";
import { placeIn } from "../RecordEditor/place.ts";

interface OpenPointsProps {
  readonly proposal: Proposal;
  readonly onSeek: (line: string) => void;
}

const MOST_AT_ONCE = 4;

/** What stands open, worst first, each with where it is mended. */
export function OpenPoints({ proposal, onSeek }: OpenPointsProps) {
  const [all, setAll] = useState(false);
  const { points } = proposal;
  if (points.length === 0) {
    return (
      <section className="plan-open" aria-label="Open points">
        <p className="plan-ready">
          Nothing is open: well, valve, strings, stack, people and run sheet are ready.
        </p>
      </section>
    );
  }
  const stops = points.filter((point) => point.stops);
  const shown = all ? points : points.slice(0, MOST_AT_ONCE);
  return (
    <section className="plan-open" aria-labelledby="plan-open">
      <h2 id="plan-open">
        Open, worst first{" "}
        <span className="small soft">
          {stops.length > 0
            ? `${stops.length} of ${points.length} keep it from being issued`
            : "none keeps it from being issued"}
        </span>
      </h2>
      <ul>
        {shown.map((point) => (
          <Point key={point.says} point={point} proposal={proposal} onSeek={onSeek} />
        ))}
      </ul>
      {points.length > MOST_AT_ONCE && (
        <button type="button" className="button quiet plan-all" onClick={() => setAll(!all)}>
          {all ? "Show the worst only" : `Show all ${points.length}`}
        </button>
      )}
    </section>
  );
}

function Point({ point, proposal, onSeek }: OpenPointsProps & { readonly point: OpenPoint }) {
  const mend = mendOf(point, proposal);
  return (
    <li className={`plan-point ${point.stops ? "stops" : "asks"}`}>
      <span>
        <span className="plan-weight">{point.stops ? point.weight : "look"}</span> {point.says}
      </span>
      {mend?.at === "line" && (
        <button type="button" className="button plan-mend" onClick={() => onSeek(mend.key)}>
          {mend.says}
        </button>
      )}
      {mend?.at === "record" && (
        <Link href={placeIn(mend, "plan")} className="button plan-mend">
          {mend.says}
        </Link>
      )}
    </li>
  );
}
