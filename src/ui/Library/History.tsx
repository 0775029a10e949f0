import { Link } from "wouter";
import type { Befell } from "../../jobs/library/history.ts";

interface HistoryProps {
  readonly befell: readonly Befell[];
  /** which valve it was is said, where it is not plain from what stands above */
  readonly serials?: boolean;
}

/** What befell a valve or a pocket, oldest first. */
export function History({ befell, serials = false }: HistoryProps) {
  return (
    <ol className="befell">
      {befell.map(({ day, what, serial, where, words, job, unapproved, daysInService }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: nothing of what befell moves about, and two may be alike
        <li key={index}>
          <span className="figure">{day}</span>
          <span>
            <strong>
              {serials && `${serial} `}
              {what}
            </strong>
            {where !== undefined && !serials && ` ${where}`}
            {daysInService !== undefined && `, after ${daysInService} days in service`}
            {words !== undefined && `. ${words}`}{" "}
            {job !== undefined && (
              <Link href={`/jobs/${job}/review`}>
                Log of the job{unapproved && ", not approved yet"}
              </Link>
            )}
          </span>
        </li>
      ))}
    </ol>
  );
}
