import { format } from "date-fns";
import type { Remarkable } from "../../jobs/review/remarkable.ts";
import type { Question } from "../../jobs/state/jobState.ts";
import type { LiveJob } from "../useJob.ts";
import { Ask } from "./Ask.tsx";

interface RemarksProps {
  readonly live: LiveJob;
  readonly remarkable: readonly Remarkable[];
}

export function Remarks({ live, remarkable }: RemarksProps) {
  return (
    <section className="card review-section">
      <h2>Out of the ordinary</h2>
      {remarkable.length === 0 && (
        <p>
          Nothing: no exception, no correction, no step left out, no limit exceeded, nothing in
          doubt that was stood by.
        </p>
      )}
      <ul className="review-remarks">
        {remarkable.map((each) => (
          <li key={`${each.kind}${each.title}${each.event?.hash}`}>
            <p className="review-kind">{each.kind}</p>
            <p>
              <strong>{each.title}.</strong> {each.says}
            </p>
            {each.event && (
              <p className="small soft">
                {format(new Date(each.event.at), "d MMM HH:mm")}, {each.event.actor.name},{" "}
                {each.event.actor.role}
              </p>
            )}
            <Ask live={live} about={aboutOf(each)} what={`${each.kind}: ${each.title}`} />
          </li>
        ))}
      </ul>
    </section>
  );
}

const aboutOf = ({ event, title }: Remarkable): Question["about"] =>
  event ? { kind: "event", event: event.hash } : { kind: "line", says: title };
