import { Link } from "wouter";
import { asEntered } from "../../jobs/display.ts";
import type { Befell } from "../../jobs/library/history.ts";
import { conditionWords } from "../../jobs/pulledConditions.ts";

interface HistoryProps {
  readonly befell: readonly Befell[];
  /** which valve it was is said, where it is not plain from what stands above */
  readonly serials?: boolean;
}

/** What befell a valve or a pocket, oldest first. */
export function History({ befell, serials = false }: HistoryProps) {
  return (
    <ol className="befell">
      {befell.map((each, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: nothing of what befell moves about, and two may be alike
        <li key={index}>
          <span className="figure">{each.day}</span>
          <OneOf of={each} serials={serials} />
        </li>
      ))}
    </ol>
  );
}

function OneOf({ of, serials }: { readonly of: Befell; readonly serials: boolean }) {
  const { what, serial, where, words, condition, setPressure, job, unapproved, daysInService } = of;
  const found = words ?? (condition && conditionWords[condition]);
  return (
    <span>
      <strong>
        {serials && `${serial} `}
        {what}
      </strong>
      {where !== undefined && !serials && ` ${where}`}
      {setPressure && `, opens at ${asEntered(setPressure)} on the test rack at 60 degF`}
      {daysInService !== undefined && `, after ${daysInService} days in service`}
      {found !== undefined && `. ${found}`}{" "}
      {job !== undefined && (
        <Link href={`/jobs/${job}/review`}>Log of the job{unapproved && ", not approved yet"}</Link>
      )}
    </span>
  );
}
