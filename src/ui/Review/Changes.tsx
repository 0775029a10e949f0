import { format } from "date-fns";
import { useMemo } from "react";
import type { Writer } from "../../jobs/display.ts";
import { departures } from "../../jobs/review/changes.ts";
import type { Remarkable } from "../../jobs/review/remarkable.ts";
import type { JobState } from "../../jobs/state/jobState.ts";
import type { AskSlot } from "./askSlot.ts";

interface ChangesProps {
  readonly state: JobState;
  readonly remarkable: readonly Remarkable[];
  readonly writer: Writer;
  readonly ask?: AskSlot | undefined;
}

/** Everything in which the run left its programme, in the order it happened, each with its reason and who. */
export function Changes({ state, remarkable, writer, ask }: ChangesProps) {
  const found = useMemo(() => departures(state, remarkable, writer), [state, remarkable, writer]);
  return (
    <section className="card review-section" aria-labelledby="changes-title">
      <h2 id="changes-title">What changed and why</h2>
      {found.length === 0 && (
        <p>
          Nothing: no revision, no exception, no correction, no step left out, no limit exceeded,
          nothing in doubt that was stood by.
        </p>
      )}
      <ul className="review-remarks">
        {found.map(({ kind, title, says, event }) => (
          <li key={`${kind}${title}${event?.hash}`}>
            <p className="review-kind">{kind}</p>
            <p>
              <strong>{title}.</strong> {says}
            </p>
            {event && (
              <p className="small soft">
                {format(new Date(event.at), "d MMM HH:mm")}, {event.actor.name}, {event.actor.role}
              </p>
            )}
            {ask?.(
              event ? { kind: "event", event: event.hash } : { kind: "line", says: title },
              `${kind}: ${title}`,
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
