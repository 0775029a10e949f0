import { format } from "date-fns";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import { fieldById } from "../../jobs/sheet/walk.ts";
import type { HoldState } from "../../jobs/state/holdState.ts";
import { latestReading, type Reading } from "../../jobs/state/jobState.ts";
import type { LiveJob } from "../useJob.ts";

interface StandsOnProps {
  readonly live: LiveJob;
  readonly hold: HoldState;
}

/** The readings that a hold point's checks stand on, for whoever is asked to sign on them. */
export function StandsOn({ live, hold }: StandsOnProps) {
  const readings = readingsOf(live, hold);
  if (readings.length === 0) return null;
  return (
    <ul className="stands-on" aria-label="It stands on">
      {readings.map((reading) => {
        const field = fieldById(live.programme.sheet, reading.field);
        return (
          <li key={`${reading.event.hash} ${reading.field}`}>
            <span>{field?.label ?? reading.field}</span>
            <span>
              <span className="figure">{fieldInWords(field, reading.value)}</span>{" "}
              <span className="small">read {format(new Date(reading.takenAt), "HH:mm")}</span>
            </span>
          </li>
        );
      })}
    </ul>
  );
}

/** Measured ones only, each as it stands: answers and words are in the conditions themselves. */
function readingsOf({ state }: LiveJob, { conditions }: HoldState): Reading[] {
  const basis = new Set(
    conditions.flatMap((each) => (each.condition.kind === "check" ? each.basis : [])),
  );
  return state.readings.filter(
    (reading) =>
      basis.has(reading.standsOn) &&
      reading.value.kind === "quantity" &&
      latestReading(state, reading.field) === reading,
  );
}
