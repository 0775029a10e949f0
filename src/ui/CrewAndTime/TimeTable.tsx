import { durationInWords } from "../../jobs/durationInWords.ts";
import { timesOf } from "../../jobs/state/times.ts";
import type { LiveJob } from "../useJob.ts";
import { useNow } from "../useNow.ts";

/** Where the run's time went, phase by phase. */
export function TimeTable({ live }: { readonly live: LiveJob }) {
  const now = useNow(60);
  const times = timesOf(live.state, now);
  const rows = [
    ...times.phases.map(({ phase, worked, attempts }) => ({
      id: phase.id,
      title: attempts > 1 ? `${phase.title}, made ${attempts} times` : phase.title,
      spent: worked,
    })),
    { id: "contingencies", title: "Dealing with what went wrong", spent: times.contingencies },
    { id: "standby", title: "Standby", spent: times.standby },
  ].filter(({ spent }) => spent > 0);
  return (
    <section className="crew-part" aria-label="Time">
      <h3>Time</h3>
      <table className="times">
        <tbody>
          {rows.map(({ id, title, spent }) => (
            <tr key={id}>
              <th scope="row">{title}</th>
              <td className="figure">{durationInWords(spent)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">Since the start</th>
            <td className="figure">{durationInWords(times.whole)}</td>
          </tr>
        </tfoot>
      </table>
      {times.clockMoved && (
        <p className="problem">
          A clock was set back between two entries: the times around it say nothing. The order of
          the log does not hang on clocks.
        </p>
      )}
    </section>
  );
}
