import type { ReactNode } from "react";
import { Link } from "wouter";
import type { Well } from "../../jobs/records/well.ts";

/** More wells than this are looked for where a job is planned, by a few letters. */
const MOST_NAMED = 4;

interface WaysOnProps {
  /** what came in just now */
  readonly wells: readonly Pick<Well, "id" | "name">[];
  readonly children?: ReactNode;
}

/** Where a planner goes with what came in: to a job, or to look at a well. */
export function WaysOn({ wells, children }: WaysOnProps) {
  const [only] = wells;
  const named = wells.length <= MOST_NAMED ? wells : [];
  return (
    <div className="row">
      <Link
        href={only && wells.length === 1 ? `/plan?well=${only.id}` : "/plan"}
        className="button next"
      >
        Plan a job
      </Link>
      {children}
      {named.map(({ id, name }) => (
        <Link key={id} href={`/wells/${id}`} className="button">
          Open {name}
        </Link>
      ))}
      <Link href="/" className="button">
        To the board
      </Link>
    </div>
  );
}
