import { format, parseISO } from "date-fns";
import { piecesInWords } from "../../jobs/diagnosis/inWords.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Job } from "../../jobs/records/job.ts";
import { Agreed } from "./Agree.tsx";

interface InvestigatedBeforeProps {
  readonly all: readonly Investigation[];
  readonly now: Investigation | undefined;
  readonly jobs: readonly Job[];
}

/** Investigations of a well before this one, as they ended. */
export function InvestigatedBefore({ all, now, jobs }: InvestigatedBeforeProps) {
  const before = all
    .filter(({ id }) => id !== now?.id)
    .sort((a, b) => b.opened.localeCompare(a.opened));
  if (before.length === 0) return null;
  return (
    <details className="fault-before">
      <summary>Investigated before: {before.length}</summary>
      {before.map(({ id, opened: at, openedBy, complaint, evidence, agreed }) => (
        <section key={id} className="card">
          <h3>{format(parseISO(at), "d MMM yyyy")}</h3>
          <p>{complaint ?? "Nobody said what made them look."}</p>
          <p className="small soft">
            Opened by {openedBy}; {piecesInWords(evidence.length)}
          </p>
          {agreed ? <Agreed agreed={agreed} jobs={jobs} /> : <p>Nothing was agreed.</p>}
        </section>
      ))}
    </details>
  );
}
