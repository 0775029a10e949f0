import { AxisLeft, AxisTop } from "@visx/axis";
import { spread } from "../WellDrawing/spread.ts";
import type { PlotAxis } from "./axes.ts";
import { LEFT, TOP } from "./frame.ts";
import type { PlotLevel, PlotMark } from "./plot.ts";

interface EdgesProps {
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  /** depth of the reading line, whose own figure stands over the axis */
  readonly reading: number;
}

/** The two axes, ticks at round values of the units shown. */
export function Edges({ x, y, reading }: EdgesProps) {
  const isCovered = (at: number) => Math.abs(at - y.at(reading)) < 26;
  return (
    <>
      <AxisTop
        scale={x.scale}
        tickValues={x.ticks}
        tickFormat={(value) => x.format(Number(value))}
        top={TOP}
        axisClassName="depth-axis"
        tickComponent={({ x: at, y: end, formattedValue }) => (
          <text x={at} y={end - 4} className="depth-tick middle">
            {formattedValue}
          </text>
        )}
      />
      <AxisLeft
        scale={y.scale}
        tickValues={y.ticks}
        tickFormat={(value) => y.format(Number(value))}
        left={LEFT}
        axisClassName="depth-axis"
        tickComponent={({ x: end, y: at, formattedValue }) =>
          !isCovered(at) && (
            <text x={end - 4} y={at + 6} className="depth-tick end">
              {formattedValue}
            </text>
          )
        }
      />
    </>
  );
}

interface LevelsProps {
  readonly levels: readonly PlotLevel[];
  readonly marks: readonly PlotMark[];
  readonly y: PlotAxis;
  readonly x: number;
  readonly foot: number;
}

/** The levels' numbers at the right edge, moved apart where mandrels stand close. */
export function Levels({ levels, marks, y, x, foot }: LevelsProps) {
  const falling = [...levels].sort((one, other) => one.depth - other.depth);
  const places = spread(
    falling.map((level) => y.at(level.depth)),
    22,
    TOP,
    foot,
  );
  return falling.map((level, index) => {
    const place = places[index] ?? TOP;
    const atWork = marks.some(
      (mark) => mark.emphasis && Math.abs(y.at(mark.depth) - y.at(level.depth)) < 1,
    );
    return (
      <g key={`${level.label} ${level.depth}`} className={atWork ? "emphasis" : ""}>
        <path d={`M${x} ${y.at(level.depth)}L${x + 10} ${place}`} className="depth-leader" />
        <text x={x + 14} y={place + 6} className="depth-level">
          {level.label}
        </text>
      </g>
    );
  });
}
