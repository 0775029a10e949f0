import { type KeyboardEvent, type PointerEvent, useState } from "react";
import type { Writer } from "../../jobs/display.ts";
import type { Dimension } from "../../jobs/quantity.ts";
import { plotAxis } from "./axes.ts";
import { FOOT, LEFT, TOP } from "./frame.ts";
import { MarkSample } from "./Marks.tsx";
import { Picture } from "./Picture.tsx";
import type { DepthCount, MarkShape, PlotLevel, PlotLine, PlotMark } from "./plot.ts";
import { Readout } from "./Readout.tsx";
import { moved, nearestStop, reachOf, stopsOf } from "./reading.ts";
import { useWidth } from "./useWidth.ts";
import { described, plotWords, spoken } from "./words.ts";
import "./DepthPlot.css";

interface DepthPlotProps {
  /** heading of the picture, and its name */
  readonly title: string;
  readonly dimension: Dimension;
  readonly writer: Writer;
  readonly lines: readonly PlotLine[];
  readonly marks: readonly PlotMark[];
  /** mandrels and whatever else has a depth of its own */
  readonly levels: readonly PlotLevel[];
  /** what the shapes stand for in this picture; without it the words of every picture */
  readonly shapes?: Readonly<Partial<Record<MarkShape, string>>>;
  /** how every depth handed over is counted; true vertical when it is not said */
  readonly count?: DepthCount;
}

const shapeWords: Readonly<Record<MarkShape, string>> = {
  ring: "expected",
  dot: "measured",
  bar: "limit",
  triangle: "marked point",
};
const shapeOrder: readonly MarkShape[] = ["ring", "dot", "bar", "triangle"];

/** Drawn this wide until the page has said how wide it is. */
const WIDTH_BEFORE_LAYOUT = 640;
/** While a page is laid out a picture may have next to no room; its field is never drawn inside out. */
const LEAST_WIDTH = 240;

/** A gloved finger does not hit a level to the pixel. */
const CATCH = 14;

/** A quantity over depth. A reading line, moved by finger or keys, reads every line at one depth. */
export function DepthPlot(props: DepthPlotProps) {
  const { title, dimension, writer, lines, marks, levels, shapes = {} } = props;
  const { count = "true vertical" } = props;
  const [stage, measured] = useWidth();
  const width = Math.max(measured || WIDTH_BEFORE_LAYOUT, LEAST_WIDTH);
  const [asked, setAsked] = useState<number>();
  const points = [...lines.flatMap((line) => line.points), ...marks];
  if (points.length === 0) {
    return (
      <figure className="depth-plot">
        <figcaption>
          <h3>{title}</h3>
        </figcaption>
        <p>Nothing is known yet that could be drawn here.</p>
      </figure>
    );
  }

  const height = Math.min(Math.max(Math.round(width * 1.35), 460), 560);
  const right = 24 + Math.max(0, ...levels.map((level) => level.label.length)) * 11;
  const reach = reachOf([...points, ...levels].map(({ depth }) => depth));
  const values = [...points.map(({ si }) => si), ...marks.flatMap(({ band }) => band ?? [])];
  const x = plotAxis({
    dimension,
    writer,
    ends: [Math.min(...values), Math.max(...values)],
    range: [LEFT, width - right],
    ticks: width < 560 ? 3 : 6,
    loose: true,
  });
  const y = plotAxis({
    dimension: "length",
    writer,
    ends: [reach.top, reach.foot],
    range: [TOP, height - FOOT],
    ticks: 5,
  });

  const stops = stopsOf(levels, marks);
  const first = marks.find((mark) => mark.emphasis)?.depth ?? stops[0]?.depth ?? reach.foot / 2;
  const reading = Math.min(Math.max(asked ?? first, reach.top), reach.foot);
  const near = nearestStop(stops, reading);
  const words = plotWords(dimension, writer);
  const inUnit = (depth: number) => Math.round(y.shown(depth));

  const readAt = (event: PointerEvent<HTMLElement>) => {
    const place = event.clientY - event.currentTarget.getBoundingClientRect().top;
    const [top, foot] = [y.at(reach.top), y.at(reach.foot)];
    const part = (Math.min(Math.max(place, top), foot) - top) / (foot - top);
    const depth = reach.top + part * (reach.foot - reach.top);
    const stop = nearestStop(stops, depth);
    setAsked(stop && Math.abs(y.at(stop.depth) - place) < CATCH ? stop.depth : depth);
  };
  const grip = (event: PointerEvent<HTMLElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    readAt(event);
  };
  const drag = (event: PointerEvent<HTMLElement>) => {
    if (event.currentTarget.hasPointerCapture(event.pointerId)) readAt(event);
  };
  const step = (event: KeyboardEvent) => {
    const depth = moved(event.key, reading, reach, stops);
    if (depth === undefined) return;
    event.preventDefault();
    setAsked(depth);
  };

  const used = shapeOrder.filter((shape) => marks.some((mark) => mark.shape === shape));
  return (
    <figure className="depth-plot">
      <figcaption>
        <h3>{title}</h3>
        {used.length > 0 && (
          <ul className="depth-key">
            {used.map((shape) => (
              <li key={shape}>
                <MarkSample shape={shape} />
                {shapes[shape] ?? shapeWords[shape]}
              </li>
            ))}
          </ul>
        )}
      </figcaption>
      <div className="depth-plot-body">
        <div className="depth-stage" ref={stage}>
          <Picture
            label={described(title, lines, stops, reach, words, count)}
            quantity={`${dimension.charAt(0).toUpperCase()}${dimension.slice(1)}`}
            width={width}
            height={height}
            right={right}
            x={x}
            y={y}
            lines={lines}
            marks={marks}
            levels={levels}
            reading={reading}
            readingText={writer.parts("length", reading).number}
            count={count}
          />
          <div
            className="depth-slider"
            style={{ left: LEFT }}
            role="slider"
            tabIndex={0}
            aria-label={`${title}: depth read`}
            aria-orientation="vertical"
            aria-valuemin={inUnit(reach.top)}
            aria-valuemax={inUnit(reach.foot)}
            aria-valuenow={inUnit(reading)}
            aria-valuetext={spoken(reading, lines, near, words)}
            onPointerDown={grip}
            onPointerMove={drag}
            onKeyDown={step}
          />
        </div>
        <Readout
          depth={reading}
          lines={lines}
          near={near}
          dimension={dimension}
          writer={writer}
          words={words}
        />
      </div>
    </figure>
  );
}
