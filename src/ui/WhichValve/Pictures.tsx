import { useState } from "react";
import type { WellPath } from "../../calc/path.ts";
import { alongHoleM } from "../../calc/units.ts";
import type { ClosingPressureAtSurface } from "../../jobs/diagnosis/closingBands.ts";
import { kindNames } from "../../jobs/diagnosis/evidenceFields.ts";
import type { Ranked, Ranking } from "../../jobs/diagnosis/ranking.ts";
import type { Writer } from "../../jobs/display.ts";
import { toSI } from "../../jobs/quantity.ts";
import type { Evidence, Investigation } from "../../jobs/records/investigation.ts";
import type { Results } from "../../jobs/results/results.ts";
import { DepthPlot } from "../DepthPlot/DepthPlot.tsx";
import type { PlotLevel, PlotLine, PlotMark } from "../DepthPlot/plot.ts";
import { valueAt } from "../DepthPlot/reading.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { type PenEvent, TwoPens } from "./TwoPens.tsx";

interface PicturesProps {
  readonly investigation: Investigation;
  readonly ranking: Ranking | undefined;
  /** what flows up on lift is on the well's record, so that cooling can be worked out */
  readonly hasStream: boolean;
  readonly path: WellPath | undefined;
  /** mandrels, true vertical */
  readonly levels: readonly PlotLevel[];
  readonly bands: readonly ClosingPressureAtSurface[];
  readonly results: Results;
  /** jobs on the well */
  readonly jobs: readonly PenEvent[];
  readonly writer: Writer;
}

const FIRST = 3;

/** What was measured beside what each of the likeliest answers would give. */
export function Pictures(props: PicturesProps) {
  const { investigation, ranking, hasStream, path, levels, bands, results, jobs, writer } = props;
  const counted = investigation.evidence.filter(({ setAside }) => !setAside);
  const surveys = counted.filter((piece) => piece.kind === "survey");
  const trends = counted.filter((piece) => piece.kind === "trend");
  const first = (ranking?.ranked ?? []).slice(0, FIRST);
  const [off, setOff] = useState<readonly string[]>([]);
  const looked = first.filter(({ hypothesis }) => !off.includes(hypothesis.id));
  const events = [...eventsOf(counted), ...jobs];
  return (
    <div className="fault-pictures">
      {(surveys.length > 0 || first.length > 0) && (
        <>
          {first.length > 0 && (
            <fieldset className="fault-looked row">
              <legend>What would be seen if it were</legend>
              {first.map(({ hypothesis: { id, title } }) => (
                <label key={id} className="fault-look">
                  <input
                    type="checkbox"
                    checked={!off.includes(id)}
                    onChange={(event) =>
                      setOff(
                        event.target.checked ? off.filter((each) => each !== id) : [...off, id],
                      )
                    }
                  />
                  {title}
                </label>
              ))}
            </fieldset>
          )}
          <div className="fault-profiles">
            <Profile
              of="pressure"
              surveys={surveys}
              looked={looked}
              path={path}
              levels={levels}
              writer={writer}
            />
            <div>
              <Profile
                of="temperature"
                surveys={surveys}
                looked={looked}
                path={path}
                levels={levels}
                writer={writer}
              />
              {looked.length > 0 && !hasStream && (
                <p className="small">
                  The cooling where gas enters is not drawn: what flows up on lift is not on this
                  well's record.
                </p>
              )}
            </div>
          </div>
        </>
      )}
      {trends.map((trend) => (
        <TwoPens
          key={trend.id}
          title={`Two pens, ${trend.source}`}
          points={trend.points}
          writer={writer}
          bands={bands}
          events={events}
        />
      ))}
      {bands.length > 0 && (
        <details className="fault-bands">
          <summary>Where each valve shuts, seen at surface</summary>
          {bands.flatMap(({ mandrel, results: [at, band] }) => [
            <ResultRow
              key={at}
              id={at}
              label={`Valve in mandrel ${mandrel}`}
              results={results}
              writer={writer}
            />,
            <ResultRow
              key={band}
              id={band}
              label="may differ by ±"
              results={results}
              writer={writer}
            />,
          ])}
        </details>
      )}
    </div>
  );
}

/** What was read beside the pens, with its moment. */
const eventsOf = (evidence: readonly Evidence[]): PenEvent[] =>
  evidence.flatMap(({ kind, at, source }) =>
    kind === "trend" ? [] : [{ at, says: `${kindNames[kind]}, ${source}` }],
  );

interface ProfileProps {
  readonly of: "pressure" | "temperature";
  readonly surveys: readonly Extract<Evidence, { kind: "survey" }>[];
  readonly looked: readonly Ranked[];
  readonly path: WellPath | undefined;
  readonly levels: readonly PlotLevel[];
  readonly writer: Writer;
}

function Profile({ of, surveys, looked, path, levels, writer }: ProfileProps) {
  const marks = surveys.flatMap((survey) => measured(of, survey, path, writer.atmosphere));
  const [first] = looked;
  const lines = looked.flatMap((ranked, index) => lineOf(of, ranked, index));
  if (marks.length === 0 && lines.length === 0) return null;
  return (
    <DepthPlot
      title={of === "pressure" ? "Pressure against depth" : "Temperature against depth"}
      dimension={of}
      writer={writer}
      lines={lines}
      marks={[...(first ? spreadOf(of, first, levels) : []), ...marks]}
      levels={levels}
      shapes={{ dot: "measured", ring: `expected, if ${first?.hypothesis.title ?? ""}` }}
    />
  );
}

function measured(
  of: "pressure" | "temperature",
  { stops }: ProfileProps["surveys"][number],
  path: WellPath | undefined,
  atmosphere: number,
): PlotMark[] {
  return stops.flatMap((stop): PlotMark[] => {
    const read = stop[of];
    const along = toSI("length", stop.depthAlongHole);
    if (!read || along < 0) return [];
    const depth: number = path ? path.at(alongHoleM(along)).vertical : along;
    const si =
      of === "pressure"
        ? toSI("pressure", read as NonNullable<typeof stop.pressure>, atmosphere)
        : toSI("temperature", read as NonNullable<typeof stop.temperature>);
    return [{ depth, si, name: "Measured", shape: "dot" }];
  });
}

function lineOf(
  of: "pressure" | "temperature",
  { hypothesis, predicted }: Ranked,
  place: number,
): PlotLine[] {
  const points = predicted.profile.flatMap((point) => {
    const expected = point[of];
    return expected ? [{ depth: point.depth, si: expected.mean }] : [];
  });
  const dash = { dashed: place === 1, dotted: place === 2 };
  return points.length > 1 ? [{ name: hypothesis.title, ink: "calculated", ...dash, points }] : [];
}

/** Two standard deviations to each side at every mandrel: where the survey is read. */
function spreadOf(
  of: "pressure" | "temperature",
  { hypothesis: { fault }, predicted: { profile } }: Ranked,
  levels: readonly PlotLevel[],
): PlotMark[] {
  const means = profile.flatMap(({ depth, [of]: at }) => (at ? [{ depth, si: at.mean }] : []));
  const spreads = profile.flatMap(({ depth, [of]: at }) => (at ? [{ depth, si: at.spread }] : []));
  const suspected = "mandrel" in fault ? String(fault.mandrel) : undefined;
  return levels.flatMap(({ depth, label }): PlotMark[] => {
    const [mean, spread] = [valueAt(means, depth), valueAt(spreads, depth)];
    if (mean === undefined || spread === undefined) return [];
    return [
      {
        depth,
        si: mean,
        name: "Expected",
        shape: "ring",
        emphasis: label === suspected,
        band: [mean - 2 * spread, mean + 2 * spread],
      },
    ];
  });
}
