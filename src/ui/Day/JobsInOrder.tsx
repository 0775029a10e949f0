import { useLayoutEffect, useRef, useState } from "react";
import { Link } from "wouter";
import { order } from "../../jobs/day/changeDay.ts";
import { type DayJob, movedJob } from "../../jobs/day/dayJobs.ts";
import { useChangeDay } from "./useChangeDay.ts";

interface JobsInOrderProps {
  readonly day: string;
  readonly jobs: readonly DayJob[];
}

/** The jobs as they are driven, each a place up or down by its buttons. */
export function JobsInOrder({ day, jobs }: JobsInOrderProps) {
  const { change, problem } = useChangeDay(day);
  const [said, setSaid] = useState("");
  const pressed = useRef<HTMLButtonElement>(undefined);
  const ids = jobs.map(({ job }) => job.id);
  const places = ids.join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: the places are what has changed when a row has moved
  useLayoutEffect(() => {
    // A row that is put elsewhere loses the focus: a second press of the same key is to move it on.
    const { current: button } = pressed;
    pressed.current = undefined;
    if (!button) return;
    const other = button.parentElement?.querySelector<HTMLButtonElement>("button:not(:disabled)");
    (button.disabled ? other : button)?.focus();
  }, [places]);
  const move = async (of: DayJob, by: -1 | 1, button: HTMLButtonElement) => {
    pressed.current = button;
    const moved = movedJob(ids, of.job.id, by);
    if (await change(order(moved))) {
      setSaid(`${of.well} is number ${moved.indexOf(of.job.id) + 1} now.`);
    }
  };
  return (
    <>
      <ol className="day-jobs">
        {jobs.map((each, index) => (
          <li key={each.job.id} className="card">
            <span className="day-place figure">{index + 1}</span>
            <div className="day-job">
              <h3>
                <Link href={`/jobs/${each.job.id}`}>{each.well}</Link>
              </h3>
              <p>{each.target}</p>
              <p>
                <strong>{each.change}</strong>
              </p>
            </div>
            <div className="day-move">
              <button
                type="button"
                className="button"
                aria-label={`Move ${each.well} up`}
                disabled={index === 0}
                onClick={({ currentTarget }) => void move(each, -1, currentTarget)}
              >
                Up
              </button>
              <button
                type="button"
                className="button"
                aria-label={`Move ${each.well} down`}
                disabled={index === jobs.length - 1}
                onClick={({ currentTarget }) => void move(each, 1, currentTarget)}
              >
                Down
              </button>
            </div>
          </li>
        ))}
      </ol>
      <p className="hidden-label" role="status">
        {said}
      </p>
      {problem && <p className="problem">{problem}</p>}
    </>
  );
}
