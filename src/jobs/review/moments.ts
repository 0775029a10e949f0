import type { JobEvent } from "../log/event.ts";
import type { JobState, Reading } from "../state/jobState.ts";
import { LogReader } from "../state/logReader.ts";

/** A reading's place for good: an event may carry several. */
export const readingKey = ({ event, field }: Pick<Reading, "event" | "field">) =>
  `${event.hash} ${field}`;

/**
 * The log read again: what stood when each event had come, so that a reading meets the numbers of its own moment. What
 * was corrected later counts as corrected; what was read later does not count yet.
 *
 * @param look is called after each event; the state it is given is to be used before the next
 */
export function atEachEvent(
  state: JobState,
  look: (event: JobEvent, then: () => JobState) => void,
): void {
  const final = new Map(state.readings.map((reading) => [readingKey(reading), reading]));
  const reader = new LogReader();
  const asItStands = (reading: Reading): Reading => {
    const { value, standsOn } = final.get(readingKey(reading)) ?? reading;
    return { ...reading, value, standsOn };
  };
  for (const event of state.events) {
    reader.read(event);
    look(event, () => {
      const { readings, ...then } = reader.state;
      return { ...then, readings: readings.map(asItStands) };
    });
  }
}
