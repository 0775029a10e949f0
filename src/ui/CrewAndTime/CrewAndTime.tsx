import type { LiveJob } from "../useJob.ts";
import { Handover } from "./Handover.tsx";
import { Standby } from "./Standby.tsx";
import { TimeTable } from "./TimeTable.tsx";
import "./CrewAndTime.css";

interface CrewAndTimeProps {
  readonly live: LiveJob;
  readonly onClose: () => void;
  readonly onSaid: (said: string) => void;
}

/** Who has the run, what the crew waits for, and where the time went. */
export default function CrewAndTime({ live, onClose, onSaid }: CrewAndTimeProps) {
  return (
    <section className="crew-time" aria-labelledby="crew-time-title">
      <h2 id="crew-time-title" className="step-title" tabIndex={-1}>
        Crew and time
      </h2>
      <Standby live={live} onSaid={onSaid} />
      <Handover live={live} onSaid={onSaid} />
      <TimeTable live={live} />
      <button type="button" className="button step-again" onClick={onClose}>
        Back to the sheet
      </button>
    </section>
  );
}
