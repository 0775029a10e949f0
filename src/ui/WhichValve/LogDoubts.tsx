import { surveyDoubts, trendDoubts } from "../../jobs/diagnosis/logDoubts.ts";
import type { Writer } from "../../jobs/display.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { Log } from "./useLog.ts";

interface LogDoubtsProps {
  readonly log: Log;
  readonly well: Well;
  readonly writer: Writer;
}

/** What looks wrong with the table, before it is kept. */
export function LogDoubts({ log, well, writer }: LogDoubtsProps) {
  const { read, look } = log;
  if (!read || !look) return null;
  const doubts =
    read.kind === "trend"
      ? trendDoubts(read.points, well, writer)
      : surveyDoubts(read.stops, writer);
  const { mapping } = look;
  const { casing, tubing, ...columns } = mapping.columns;
  const { casing: inCasing, tubing: inTubing, ...units } = mapping.units;
  return doubts.map(({ says, exchanged }) => (
    <div key={says} className="notice log-doubt" role="status">
      <p>{says}</p>
      {exchanged && casing !== undefined && tubing !== undefined && (
        <button
          type="button"
          className="button"
          onClick={() =>
            void log.tell({
              ...mapping,
              columns: { ...columns, casing: tubing, tubing: casing },
              units: {
                ...units,
                ...(inTubing && { casing: inTubing }),
                ...(inCasing && { tubing: inCasing }),
              },
            })
          }
        >
          Exchange casing and tubing
        </button>
      )}
    </div>
  ));
}
