import type { Axis, Chart, Series } from "../../jobs/report/document.ts";
import { useWidth } from "../DepthPlot/useWidth.ts";

/** Beside the axes' names there is room for five figures on the left, and on the right for half of a mark's words. */
const MARGIN = { left: 78, right: 28, top: 12, bottom: 54 };
const LEAST_HEIGHT = 280;
const MOST_HEIGHT = 560;
/** On paper, where nothing has measured the width yet. */
const USUAL_WIDTH = 720;
const MOST_WIDTH = 960;

/** A chart of the report: expected a hollow ring, measured a filled dot, a limit a hard bar. */
export function ChartPicture({ of }: { readonly of: Chart }) {
  const [container, measured = USUAL_WIDTH] = useWidth();
  const width = Math.min(MOST_WIDTH, Math.max(280, measured));
  const height = Math.min(MOST_HEIGHT, Math.max(LEAST_HEIGHT, width * (of.ratio ?? 0.6)));
  const x = placer(of.x, MARGIN.left, width - MARGIN.right);
  const y = placer(of.y, MARGIN.top, height - MARGIN.bottom);
  const letters = lettersOf(of.series);
  return (
    <figure className="report-chart" ref={container}>
      <figcaption>
        <strong>{of.title}</strong>
      </figcaption>
      <svg viewBox={`0 0 ${width} ${height}`} width={width} role="img" aria-label={of.title}>
        <Axes of={of} x={x} y={y} width={width} height={height} />
        {of.series.map((series) => (
          <SeriesPicture key={series.name} of={series} x={x} y={y} letter={letters.get(series)} />
        ))}
      </svg>
      <ul className="report-key">
        {of.series.map((series) => (
          <li key={series.name}>
            <Sample of={series} />
            {letters.get(series)} {series.name}
          </li>
        ))}
      </ul>
    </figure>
  );
}

type Place = (value: number) => number;

const placer =
  ({ from, to }: Axis, start: number, end: number): Place =>
  (value) =>
    start + ((value - from) / (to - from || 1)) * (end - start);

const isLine = ({ shape }: Series) =>
  shape === "line" || shape === "dashed line" || shape === "steps";

/** Where several lines are drawn, a letter at the end of each tells them apart without colour. */
function lettersOf(series: readonly Series[]): ReadonlyMap<Series, string> {
  const lines = series.filter(isLine);
  if (lines.length < 2) return new Map();
  return new Map(lines.map((each, index) => [each, String.fromCharCode(65 + index)]));
}

interface AxesProps {
  readonly of: Chart;
  readonly x: Place;
  readonly y: Place;
  readonly width: number;
  readonly height: number;
}

function Axes({ of, x, y, width, height }: AxesProps) {
  const [left, right, top, bottom] = [
    MARGIN.left,
    width - MARGIN.right,
    MARGIN.top,
    height - MARGIN.bottom,
  ];
  // On a phone there is room for every second mark of the lower edge only.
  const every = Math.ceil((of.x.ticks.length * 64) / (right - left));
  return (
    <g className="report-axes">
      {of.y.ticks.map(({ at, label }) => (
        <g key={at}>
          <line x1={left} x2={right} y1={y(at)} y2={y(at)} />
          <text x={left - 8} y={y(at)} dy="0.35em" className="end">
            {label}
          </text>
        </g>
      ))}
      {of.x.ticks.map(({ at, label }, index) => (
        <g key={at}>
          <line x1={x(at)} x2={x(at)} y1={top} y2={bottom} />
          {index % every === 0 && (
            <text x={x(at)} y={bottom + 20} className="middle">
              {label}
            </text>
          )}
        </g>
      ))}
      <path className="report-frame" d={`M${left} ${top}V${bottom}H${right}`} />
      <text x={(left + right) / 2} y={height - 8} className="middle name">
        {of.x.label}
      </text>
      <text transform={`translate(20 ${(top + bottom) / 2}) rotate(-90)`} className="middle name">
        {of.y.label}
      </text>
    </g>
  );
}

interface SeriesProps {
  readonly of: Series;
  readonly x: Place;
  readonly y: Place;
  readonly letter: string | undefined;
}

function SeriesPicture({ of, x, y, letter }: SeriesProps) {
  const { shape, points } = of;
  const name = `report-series ${of.of}`;
  const places = points.map(([at = 0, value = 0]) => [x(at), y(value)] as const);
  if (shape === "dots" || shape === "rings") {
    return (
      <g className={`${name} ${shape}`}>
        {places.map(([cx, cy], index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a document is set whole and never reordered
          <circle key={index} cx={cx} cy={cy} r={5} />
        ))}
      </g>
    );
  }
  if (shape === "band") {
    const high = points.map(([at = 0, , value = 0]) => [x(at), y(value)] as const).reverse();
    return <path className={`${name} band`} d={`${pathOf([...places, ...high])}Z`} />;
  }
  const [endX, endY] = places.at(-1) ?? [0, 0];
  return (
    <g className={`${name} ${shape === "dashed line" ? "dashed" : shape}`}>
      <path d={shape === "steps" ? stepsOf(places) : pathOf(places)} />
      {letter && (
        <text x={endX} y={endY} dy="-0.5em" className="middle letter">
          {letter}
        </text>
      )}
    </g>
  );
}

type Places = readonly (readonly [number, number])[];

const pathOf = (places: Places) =>
  places.map(([px, py], index) => `${index === 0 ? "M" : "L"}${px} ${py}`).join("");

/** Each value holds until the next begins. */
const stepsOf = (places: Places) =>
  places.map(([px, py], index) => (index === 0 ? `M${px} ${py}` : `H${px}V${py}`)).join("");

/** How a series is drawn, for the words beside it. */
function Sample({ of }: { readonly of: Series }) {
  const single = { ...of, points: of.shape === "dots" || of.shape === "rings" ? [[1, 1]] : ENDS };
  return (
    <svg viewBox="0 0 40 20" width="40" height="20" aria-hidden="true">
      <SeriesPicture of={single} x={(at) => at * 20} y={(at) => at * 10} letter={undefined} />
    </svg>
  );
}
const ENDS: Series["points"] = [
  [0.1, 1, 1.6],
  [1.9, 1, 1.6],
];
