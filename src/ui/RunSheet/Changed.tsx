import { useMemo } from "react";
import { changesBetween } from "../../jobs/results/changes.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { LiveJob } from "../useJob.ts";
import "./Changed.css";

interface ChangedProps {
  readonly live: LiveJob;
  /** what was known before the last entry */
  readonly before: Results;
}

const MOST = 6;

/** What the last entry moved among the figures that the crew works to. */
export function Changed({ live, before }: ChangedProps) {
  const { results, programme, writer } = live;
  const changes = useMemo(
    () => changesBetween(before, results, programme.sheet, writer),
    [before, results, programme.sheet, writer],
  );
  if (changes.length === 0) return null;
  return (
    <section className="changed" aria-label="What it changed">
      <h3>It changed</h3>
      <ul>
        {changes.slice(0, MOST).map(({ id, label, before: was, after: is }) => (
          <li key={id}>
            <span>{label}</span>
            <span className="figure soft">{was ?? "not known"}</span>
            <span className="figure calculated">{is ?? "not known"}</span>
          </li>
        ))}
      </ul>
      {changes.length > MOST && (
        <p className="small">And {changes.length - MOST} more; the brief has them all.</p>
      )}
    </section>
  );
}
