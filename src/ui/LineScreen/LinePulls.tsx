import { format } from "date-fns";
import { useMemo, useState } from "react";
import { alongHoleM } from "../../calc/units.ts";
import type { Writer } from "../../jobs/display.ts";
import { toSI } from "../../jobs/quantity.ts";
import { indicatorInWords } from "../../jobs/results/indicatorResults.ts";
import {
  type LineChart,
  lineChart,
  type Movement,
  type Purpose,
} from "../../jobs/results/lineChart.ts";
import type { LineReading } from "../../jobs/results/lineReadings.ts";
import type { Results } from "../../jobs/results/results.ts";
import { DepthPlot } from "../DepthPlot/DepthPlot.tsx";
import type { PlotLevel, PlotLine, PlotMark } from "../DepthPlot/plot.ts";
import { OneOf } from "../OneOf/OneOf.tsx";
import { Figure } from "../Working/Figure.tsx";
import { ResultRow } from "../Working/ResultRow.tsx";
import { unknownInWords } from "./unknown.ts";
import "./LineScreen.css";

interface LinePullsProps {
  readonly results: Results;
  readonly readings: readonly LineReading[];
  readonly writer: Writer;
  /** at which pressures all this is worked out */
  readonly stands?: string;
}

/** Where a job is looked at as it stands. */
const STANDS_NOW = "Held against what is expected at the pressures that stand now.";

const purposes: readonly Purpose[] = ["gauge", "pull", "set"];
const movements: readonly { readonly movement: Movement; readonly name: string }[] = [
  { movement: "runningIn", name: "Going in" },
  { movement: "hanging", name: "Hanging" },
  { movement: "pullingOut", name: "Coming out" },
];

/** What the indicator should show with a string from top to bottom, and what it did show. */
export function LinePulls({ results, readings, writer, stands = STANDS_NOW }: LinePullsProps) {
  const [asked, setAsked] = useState<Purpose>();
  const [close, setClose] = useState(false);
  // The string that hung on the line last is the one to look at, until somebody chooses.
  const purpose = asked ?? readings.at(-1)?.purpose ?? "gauge";
  const chart = useMemo(() => lineChart(results, purpose), [results, purpose]);
  const own = readings.filter((reading) => reading.purpose === purpose);
  const indicator = results.get("indicator-factor");
  return (
    <section className="line-pulls" aria-labelledby="line-pulls-title">
      <h2 id="line-pulls-title">Line pull on the way</h2>
      <StringChoice chosen={purpose} onChoose={setAsked} results={results} />
      {chart.state === "known" ? (
        <>
          <Chart chart={chart} close={close} readings={own} results={results} writer={writer} />
          {chart.limit !== undefined && (
            <div className="row">
              <button
                type="button"
                className="button"
                aria-pressed={close}
                onClick={() => setClose(!close)}
              >
                Look closer
              </button>
              {close && (
                <p>
                  What is permitted at most, {writer.write("force", chart.limit)}, lies outside the
                  picture.
                </p>
              )}
            </div>
          )}
        </>
      ) : (
        <p className="problem">The line pull is {unknownInWords(chart)}</p>
      )}
      <div className="line-pulls-figures">
        <div className="card">
          <h3>Expected at the mandrel</h3>
          <ResultRow
            id={`least-in-${purpose}`}
            label="Least on the way in, on the line"
            results={results}
            writer={writer}
          />
          <ResultRow id={`in-${purpose}`} label="Going in" results={results} writer={writer} />
          <ResultRow id={`hanging-${purpose}`} label="Hanging" results={results} writer={writer} />
          <ResultRow id={`out-${purpose}`} label="Coming out" results={results} writer={writer} />
          <ResultRow id="largest-pull" label="At most" results={results} writer={writer} />
          {indicator && <p className="small soft">{indicatorInWords(indicator, writer)}</p>}
        </div>
        <div className="card">
          <h3>Read on location</h3>
          <Readings readings={own} writer={writer} stands={stands} />
        </div>
      </div>
    </section>
  );
}

interface StringChoiceProps {
  readonly chosen: Purpose;
  readonly onChoose: (purpose: Purpose) => void;
  readonly results: Results;
}

function StringChoice({ chosen, onChoose, results }: StringChoiceProps) {
  const { strings } = results.context.programme;
  return (
    <OneOf
      legend="The string on the line"
      options={purposes.map((purpose) => ({
        value: purpose,
        says: strings[purpose]?.name ?? `No ${purpose} string chosen`,
      }))}
      chosen={chosen}
      onChoose={onChoose}
    />
  );
}

interface ChartProps {
  readonly chart: LineChart;
  /** without the limit, which is several times what hangs on the line and squeezes the rest together */
  readonly close: boolean;
  readonly readings: readonly LineReading[];
  readonly results: Results;
  readonly writer: Writer;
}

function Chart({ chart, close, readings, results, writer }: ChartProps) {
  const { depths, limit, pushed } = chart;
  const foot = depths.at(-1) ?? 0;
  const lines: PlotLine[] = movements.map(({ movement, name }) => ({
    name,
    ink: "calculated",
    // A coefficient of friction stands behind the two that move, none behind the one that hangs.
    dashed: movement !== "hanging",
    points: depths.map((depth, index) => ({ depth, si: chart[movement][index] ?? 0 })),
  }));
  if (limit !== undefined && !close) {
    const points = [0, foot].map((depth) => ({ depth, si: limit }));
    lines.push({ name: "At most", ink: "limit", points });
  }
  return (
    <>
      {pushed !== undefined && (
        <p className="problem">
          Going in, the line would have to push as deep as {writer.write("length", pushed)}: the
          string does not go there by its weight.
        </p>
      )}
      <DepthPlot
        title="Indicator over depth"
        dimension="force"
        writer={writer}
        lines={lines}
        marks={[...expectedMarks(chart, results), ...readings.map(readingMark)]}
        levels={levelsOf(results)}
        count="along hole"
      />
    </>
  );
}

/** Where the string works: the three pulls to look for. */
function expectedMarks(chart: LineChart, results: Results): PlotMark[] {
  const target = results.value("target-depth");
  if (target === undefined) return [];
  const index = chart.depths.indexOf(alongHoleM(target));
  return movements.flatMap(({ movement, name }): PlotMark[] => {
    const si = chart[movement][index];
    if (si === undefined) return [];
    return [{ depth: target, si, name, shape: "ring", emphasis: movement === "hanging" }];
  });
}

const readingMark = ({ depth, si, label }: LineReading): PlotMark => ({
  depth,
  si,
  name: label,
  shape: "dot",
});

function levelsOf({ context: { programme } }: Results): PlotLevel[] {
  return (programme.well?.mandrels ?? []).map(({ number, depthAlongHole }) => ({
    depth: toSI("length", depthAlongHole),
    label: String(number),
  }));
}

interface ReadingsProps {
  readonly readings: readonly LineReading[];
  readonly writer: Writer;
  readonly stands: string;
}

function Readings({ readings, writer, stands }: ReadingsProps) {
  if (readings.length === 0) return <p>No line pull was read with this string yet.</p>;
  return (
    <>
      <ul className="line-readings">
        {readings.map((reading) => (
          <li key={reading.field}>
            <span>
              {reading.label}
              <span className="line-reading-when small soft">
                {reading.at === "surface"
                  ? "in the first 100 ft"
                  : `at ${writer.write("length", reading.depth)}`}
                , {format(new Date(reading.takenAt), "HH:mm")}, {reading.by}
              </span>
            </span>
            <span className="line-reading-figures">
              <Figure dimension="force" si={reading.si} writer={writer} />
              <span className="small">{heldAgainst(reading, writer)}</span>
            </span>
          </li>
        ))}
      </ul>
      <p className="small soft">
        {stands} The needle is good for 10 to 20 lbf (common practice): a sign, never proof of what
        hangs below.
      </p>
    </>
  );
}

function heldAgainst({ si, expected, overLimit }: LineReading, writer: Writer): string {
  if (overLimit) return "over the limit";
  if (expected === undefined) return "";
  const away = si - expected;
  return `${writer.write("force", Math.abs(away))} ${away < 0 ? "less" : "more"} than expected`;
}
