import { format } from "date-fns";
import { type KeyboardEvent, type PointerEvent, useMemo, useState } from "react";
import type { ClosingPressureAtSurface } from "../../jobs/diagnosis/closingBands.ts";
import { type LogRow, thinLog } from "../../jobs/diagnosis/thinLog.ts";
import { unitLabel, type Writer } from "../../jobs/display.ts";
import { groupedBy } from "../../jobs/groupedBy.ts";
import { toSI } from "../../jobs/quantity.ts";
import type { Evidence } from "../../jobs/records/investigation.ts";
import { plotAxis } from "../DepthPlot/axes.ts";
import { useWidth } from "../DepthPlot/useWidth.ts";
import { spread } from "../WellDrawing/spread.ts";

type Points = Extract<Evidence, { kind: "trend" }>["points"];

/** Something that happened: a gauge read, a bleed, a job. */
export interface PenEvent {
  /** instant */
  readonly at: string;
  readonly says: string;
}

interface TwoPensProps {
  readonly title: string;
  readonly points: Points;
  readonly writer: Writer;
  readonly bands?: readonly ClosingPressureAtSurface[];
  readonly events?: readonly PenEvent[];
}

const [LEFT, RIGHT, TOP, FOOT] = [64, 34, 34, 34];
/** While a page is laid out a picture may have next to no room; its field is never drawn inside out. */
const LEAST_WIDTH = 240;
/** As many rows as a screen can show. */
const MOST_DRAWN = 3000;
/** A pause this many times longer than the usual step is a gap, and no pen is drawn across it. */
const GAP = 12;

/** Casing and tubing against time as a recorder draws them, with what the valves shut at beside them. */
export function TwoPens({ title, points, writer, bands = [], events = [] }: TwoPensProps) {
  const [stage, measured] = useWidth();
  const width = Math.max(measured || 640, LEAST_WIDTH);
  const height = width < 560 ? 340 : 420;
  const rows = useMemo(() => rowsOf(points, writer.atmosphere), [points, writer]);
  const [asked, setAsked] = useState<number>();
  const [first, last] = [rows[0], rows.at(-1)];
  if (!first || !last) return null;
  const values = rows.flatMap(({ values: [casing, tubing] }) => [casing, tubing]).filter(isNumber);
  const near = bandsNear(bands, values);
  const ends = [...values, ...near.flatMap(({ least, most }) => [least, most])];
  const y = plotAxis({
    dimension: "pressure",
    writer,
    ends: [Math.min(...ends), Math.max(...ends)],
    range: [height - FOOT, TOP],
    ticks: 6,
    loose: true,
  });
  const span = Math.max(1, last.at - first.at);
  const x = (at: number) => LEFT + ((at - first.at) / span) * (width - LEFT - RIGHT);
  const reading = nearest(rows, asked ?? last.at);
  const at = (event: PointerEvent<HTMLElement>) => {
    const part = event.clientX - event.currentTarget.getBoundingClientRect().left;
    setAsked(first.at + (part / (width - LEFT - RIGHT)) * span);
  };
  const step = (event: KeyboardEvent) => {
    const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    const to = { Home: 0, End: rows.length - 1 }[event.key];
    if (by === undefined && to === undefined) return;
    event.preventDefault();
    const index = to ?? rows.indexOf(reading) + (by ?? 0) * Math.ceil(rows.length / 200);
    setAsked(rows[Math.min(Math.max(index, 0), rows.length - 1)]?.at);
  };
  const happened = atOnce(events).filter(({ at: when }) => {
    const ms = Date.parse(when);
    return ms >= first.at && ms <= last.at;
  });
  const labels = spread(
    near.map((band) => y.at(band.at)),
    20,
    TOP,
    height - FOOT,
  );
  const words = wordsOf(reading, writer);
  return (
    <figure className="two-pens">
      <figcaption className="row">
        <h3>{title}</h3>
        <ul className="pens-key small">
          <li>
            <span className="pen-sample casing" aria-hidden="true" /> casing
          </li>
          <li>
            <span className="pen-sample tubing" aria-hidden="true" /> tubing
          </li>
          {near.length > 0 && (
            <li>
              <span className="pen-sample band" aria-hidden="true" /> where a valve shuts
            </li>
          )}
        </ul>
      </figcaption>
      <div className="pens-stage" ref={stage}>
        <svg
          viewBox={`0 0 ${width} ${height}`}
          width={width}
          height={height}
          role="img"
          aria-label={`${title}: casing and tubing pressure from ${moment(first.at)} to ${moment(last.at)}. ${near
            .map(
              ({ mandrel, least, most }) =>
                `Valve ${mandrel} shuts between ${writer.write("pressure", least)} and ${writer.write("pressure", most)}.`,
            )
            .join(" ")}`}
        >
          <rect
            x={LEFT}
            y={TOP}
            width={width - LEFT - RIGHT}
            height={height - TOP - FOOT}
            className="pens-field"
          />
          {y.ticks.map((tick) => (
            <g key={tick} className="pens-tick">
              <path d={`M${LEFT} ${y.scale(tick)}H${width - RIGHT}`} />
              <text x={LEFT - 8} y={y.scale(tick) + 5} textAnchor="end">
                {y.format(tick)}
              </text>
            </g>
          ))}
          {near.map((band, index) => (
            <g key={band.mandrel} className="pens-band">
              <rect
                x={LEFT}
                y={y.at(band.most)}
                width={width - LEFT - RIGHT}
                height={Math.max(2, y.at(band.least) - y.at(band.most))}
              />
              <path d={`M${LEFT} ${y.at(band.at)}H${width - RIGHT}`} />
              <text x={width - RIGHT + 8} y={(labels[index] ?? 0) + 6}>
                {band.mandrel}
              </text>
            </g>
          ))}
          {happened.map(({ at: when, says }, index) => (
            <g key={`${when} ${says}`} className="pens-event">
              <path d={`M${x(Date.parse(when))} ${TOP}V${height - FOOT}`} />
              <text x={x(Date.parse(when))} y={TOP - 6} textAnchor="middle">
                {letter(index)}
              </text>
            </g>
          ))}
          {(["casing", "tubing"] as const).map((pen, index) => (
            <path key={pen} d={penPath(rows, index, x, y.at)} className={`pen ${pen}`} />
          ))}
          <path d={`M${x(reading.at)} ${TOP}V${height - FOOT}`} className="pens-reading" />
          <text x={0} y={16} className="pens-name">
            Pressure, {unitLabel(y.unit)}
          </text>
          <text x={LEFT} y={height - 10}>
            {moment(first.at)}
          </text>
          <text x={width - RIGHT} y={height - 10} textAnchor="end">
            {moment(last.at)}
          </text>
        </svg>
        <div
          className="pens-slider"
          style={{ left: LEFT, right: RIGHT }}
          role="slider"
          tabIndex={0}
          aria-label={`${title}: moment read`}
          aria-valuemin={0}
          aria-valuemax={rows.length - 1}
          aria-valuenow={rows.indexOf(reading)}
          aria-valuetext={words}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            at(event);
          }}
          onPointerMove={(event) =>
            event.currentTarget.hasPointerCapture(event.pointerId) && at(event)
          }
          onKeyDown={step}
        />
      </div>
      <p className="pens-words figure">{words}</p>
      {happened.length > 0 && (
        <ul className="pens-events small">
          {happened.map(({ at: when, says }, index) => (
            <li key={`${when} ${says}`}>
              <b>{letter(index)}</b> {moment(Date.parse(when))}: {says}
            </li>
          ))}
        </ul>
      )}
    </figure>
  );
}

const isNumber = (value: number | undefined): value is number => value !== undefined;
const letter = (index: number) => String.fromCharCode(97 + (index % 26));
const moment = (ms: number) => format(new Date(ms), "d MMM HH:mm");

/** What happened at one moment is one line in the picture. */
function atOnce(events: readonly PenEvent[]): PenEvent[] {
  return [...groupedBy(events, ({ at }) => at)]
    .map(([at, of]) => ({ at, says: of.map(({ says }) => says).join("; ") }))
    .sort((a, b) => a.at.localeCompare(b.at));
}

/** SI, as many rows as can be seen. */
function rowsOf(points: Points, atmosphere: number): readonly LogRow[] {
  return thinLog(
    points.map(({ at, casing, tubing, injectionRate }) => ({
      at: Date.parse(at),
      values: [
        casing && toSI("pressure", casing, atmosphere),
        tubing && toSI("pressure", tubing, atmosphere),
        injectionRate && toSI("gas rate", injectionRate),
      ],
    })),
    MOST_DRAWN,
  );
}

/** Bands far from what the pens wrote would press the pens flat. */
function bandsNear(bands: readonly ClosingPressureAtSurface[], values: readonly number[]) {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const air = Math.max(most - least, 1.4e6);
  return bands.filter((band) => band.most > least - air && band.least < most + air);
}

function nearest(rows: readonly LogRow[], at: number): LogRow {
  return rows.reduce((best, row) => (Math.abs(row.at - at) < Math.abs(best.at - at) ? row : best));
}

function wordsOf({ at, values: [casing, tubing, rate] }: LogRow, writer: Writer): string {
  return [
    moment(at),
    ...(casing === undefined ? [] : [`casing ${writer.write("pressure", casing)}`]),
    ...(tubing === undefined ? [] : [`tubing ${writer.write("pressure", tubing)}`]),
    ...(rate === undefined ? [] : [`rate ${writer.write("gas rate", rate)}`]),
  ].join(", ");
}

/** A pen is lifted where nothing was written. */
function penPath(
  rows: readonly LogRow[],
  pen: number,
  x: (at: number) => number,
  y: (si: number) => number,
): string {
  const written = rows.filter(({ values }) => values[pen] !== undefined);
  const steps = written
    .slice(1)
    .map((row, index) => row.at - (written[index]?.at ?? row.at))
    .sort((a, b) => a - b);
  const usual = steps[Math.floor(steps.length / 2)] ?? 0;
  return written
    .map((row, index) => {
      const before = written[index - 1];
      const isLifted = !before || row.at - before.at > GAP * Math.max(usual, 1);
      return `${isLifted ? "M" : "L"}${x(row.at).toFixed(1)} ${y(row.values[pen] as number).toFixed(1)}`;
    })
    .join("");
}
