import { unitLabel } from "../../jobs/display.ts";
import type { Evidence } from "../../jobs/records/investigation.ts";

/** As many stops as are read through; the picture after keeping shows them all. */
const SHOWN = 12;

interface LogStopsProps {
  readonly stops: Extract<Evidence, { kind: "survey" }>["stops"];
}

/** The stops of a survey as they were read, to be looked over before they are kept. */
export function LogStops({ stops }: LogStopsProps) {
  const write = (of: { value: number; unit: string } | undefined) =>
    of ? `${of.value} ${unitLabel(of.unit)}` : "";
  return (
    <table className="log-stops figure">
      <thead>
        <tr>
          <th scope="col">Along hole</th>
          <th scope="col">Pressure</th>
          <th scope="col">Temperature</th>
        </tr>
      </thead>
      <tbody>
        {stops.slice(0, SHOWN).map((stop, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two stops may be alike, and none moves
          <tr key={index}>
            <td>{write(stop.depthAlongHole)}</td>
            <td>{write(stop.pressure)}</td>
            <td>{write(stop.temperature)}</td>
          </tr>
        ))}
        {stops.length > SHOWN && (
          <tr>
            <td colSpan={3}>and {stops.length - SHOWN} more</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
