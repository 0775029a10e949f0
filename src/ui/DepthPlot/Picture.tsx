import { GridColumns, GridRows } from "@visx/grid";
import { LinePath } from "@visx/shape";
import { unitLabel } from "../../jobs/display.ts";
import { spread } from "../WellDrawing/spread.ts";
import type { PlotAxis } from "./axes.ts";
import { Edges, Levels } from "./Edges.tsx";
import { FOOT, LEFT, TOP } from "./frame.ts";
import { letterOf, lineClass, Mark } from "./Marks.tsx";
import type { DepthCount, MarkShape, PlotLevel, PlotLine, PlotMark } from "./plot.ts";
import { valueAt } from "./reading.ts";

interface PictureProps {
  readonly label: string;
  /** what runs to the right, e.g. `Pressure` */
  readonly quantity: string;
  readonly width: number;
  readonly height: number;
  readonly right: number;
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  readonly lines: readonly PlotLine[];
  readonly marks: readonly PlotMark[];
  readonly levels: readonly PlotLevel[];
  /** depth of the reading line */
  readonly reading: number;
  readonly readingText: string;
  readonly count: DepthCount;
}

/** Later shapes lie on earlier ones: a bar stays whole across a ring that it falls together with. */
const layers: readonly MarkShape[] = ["ring", "triangle", "bar", "dot"];

export function Picture(props: PictureProps) {
  const { label, quantity, width, height, right, x, y, lines, marks, levels } = props;
  const field = { width: width - LEFT - right, height: height - TOP - FOOT };
  const layered = layers.flatMap((shape) => marks.filter((mark) => mark.shape === shape));
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      className="depth-picture"
      role="img"
      aria-label={label}
    >
      <rect x={LEFT} y={TOP} width={field.width} height={height - TOP} className="depth-field" />
      <GridColumns
        scale={x.scale}
        tickValues={x.ticks.filter((value) => x.scale(value) > LEFT)}
        top={TOP}
        height={height - TOP}
        className="depth-columns"
      />
      <GridRows
        scale={y.scale}
        tickValues={levels.map((level) => y.shown(level.depth))}
        left={LEFT}
        width={field.width}
        className="depth-levels"
      />
      <Edges x={x} y={y} reading={props.reading} />
      <Levels levels={levels} marks={marks} y={y} x={width - right} foot={height - FOOT} />
      {lines.map((line) => (
        <Line key={line.name} line={line} x={x} y={y} room={field.height} />
      ))}
      {lines.length > 1 && (
        <Letters lines={lines} x={x} y={y} from={LEFT + 14} to={width - right - 10} />
      )}
      <ReadingLine {...props} />
      {layered.map((mark) => (
        <g key={`${mark.name} ${mark.shape} ${mark.depth} ${mark.si}`}>
          {mark.band && <Whisker band={mark.band} x={x} y={y.at(mark.depth)} mark={mark} />}
          <Mark
            shape={mark.shape}
            x={x.at(mark.si)}
            y={y.at(mark.depth)}
            emphasis={mark.emphasis}
          />
        </g>
      ))}
      <text x={width - right} y="18" className="depth-axis-name end">
        {quantity}, {unitLabel(x.unit)}
      </text>
      <text x="0" y="18" className="depth-axis-name">
        Depth, {unitLabel(y.unit)} {props.count}
      </text>
    </svg>
  );
}

interface LineProps {
  readonly line: PlotLine;
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  readonly room: number;
}

/** Least distance down the picture at which the stations of a survey still read as dots. */
const STATION_ROOM = 14;

function Line({ line, x, y, room }: LineProps) {
  const { points } = line;
  return (
    <>
      <LinePath
        data={[...points]}
        x={(point) => x.at(point.si)}
        y={(point) => y.at(point.depth)}
        fill="none"
        className={lineClass(line)}
      />
      {line.ink === "measured" &&
        points.length * STATION_ROOM < room &&
        points.map((point) => (
          <circle
            key={`${point.depth} ${point.si}`}
            cx={x.at(point.si)}
            cy={y.at(point.depth)}
            r="5"
            className="depth-station"
          />
        ))}
    </>
  );
}

interface LettersProps {
  readonly lines: readonly PlotLine[];
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  readonly from: number;
  readonly to: number;
}

/** A letter under the lower end of each line, side by side where lines end together. */
function Letters({ lines, x, y, from, to }: LettersProps) {
  const ends = lines
    .map(({ ink, points }, index) => ({ ink, letter: letterOf(index), end: lowest(points) }))
    .flatMap(({ end, ...rest }) => (end ? [{ ...rest, x: x.at(end.si), y: y.at(end.depth) }] : []))
    .sort((one, other) => one.x - other.x);
  const places = spread(
    ends.map((end) => end.x),
    22,
    from,
    to,
  );
  return ends.map(({ ink, letter, y: end }, index) => (
    <text key={letter} x={places[index]} y={end + 27} className={`depth-letter ${ink}`}>
      {letter}
    </text>
  ));
}

function lowest(points: PlotLine["points"]) {
  const [first, last] = [points[0], points.at(-1)];
  return first && last && first.depth > last.depth ? first : last;
}

interface WhiskerProps {
  readonly band: readonly [number, number];
  readonly x: PlotAxis;
  readonly y: number;
  readonly mark: PlotMark;
}

function Whisker({ band, x, y, mark }: WhiskerProps) {
  const [from, to] = [x.at(band[0]), x.at(band[1])];
  return (
    <path
      d={`M${from} ${y}H${to}M${from} ${y - 6}v12M${to} ${y - 6}v12`}
      className={`depth-whisker${mark.emphasis ? " emphasis" : ""}`}
    />
  );
}

/** Across the field, with the depth where the axis has its figures and a diamond on each line it meets. */
function ReadingLine({ reading, readingText, lines, x, y, width, right }: PictureProps) {
  const at = y.at(reading);
  return (
    <g className="depth-reading">
      <path d={`M${LEFT} ${at}H${width - right}`} className="depth-reading-line" />
      {lines.map((line) => {
        const si = valueAt(line.points, reading);
        return (
          si !== undefined && (
            <path
              key={line.name}
              d={`M${x.at(si)} ${at - 8}l8 8l-8 8l-8 -8z`}
              className={`depth-crossing ${line.ink}`}
            />
          )
        );
      })}
      <path d={`M0 ${at - 15}H${LEFT - 12}L${LEFT} ${at}L${LEFT - 12} ${at + 15}H0z`} />
      <text x={LEFT - 14} y={at + 6} className="depth-reading-text">
        {readingText}
      </text>
    </g>
  );
}
