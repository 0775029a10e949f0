import type { ToolString } from "../../jobs/records/equipment.ts";
import { figuresOf } from "../../jobs/toolString.ts";
import { DrawnTools, placeTools, widening } from "../StringBuilder/DrawnTools.tsx";
import { spread } from "../WellDrawing/spread.ts";

const WIDTH = 200;
const HEIGHT = 620;
const MARGIN = 26;
/** Middles of the numbers, of the string closed, of the string extended. */
const AT = { numbers: 18, closed: 76, extended: 156 } as const;
/** Units across for the largest diameter. */
const WANTED = 50;

/** The string closed and extended, side by side at one scale. */
export function SketchPicture({ string }: { readonly string: ToolString }) {
  const { extended, largest, lengthsOpen } = figuresOf(string);
  const isKnown = lengthsOpen.length === 0;
  if (!largest) return null;
  const along = (HEIGHT - 2 * MARGIN) / extended;
  const times = widening(largest.diameter, along, WANTED);
  const scale = { along, across: along * times };
  const closed = placeTools(string.tools, MARGIN, scale, "closed");
  const middles = closed.map(({ y, height }) => y + height / 2);
  const ys = spread(middles, 22, MARGIN, HEIGHT - MARGIN);
  return (
    <figure className="sketch-picture">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`${string.name}, drawn to scale closed${isKnown ? " and with jars extended" : ""}`}
      >
        <text x={AT.closed} y="16" className="sketch-word">
          closed
        </text>
        <DrawnTools placed={closed} x={AT.closed} scale={scale} />
        {isKnown && (
          <>
            <text x={AT.extended} y="16" className="sketch-word">
              extended
            </text>
            <DrawnTools
              placed={placeTools(string.tools, MARGIN, scale, "extended")}
              x={AT.extended}
              scale={scale}
            />
          </>
        )}
        {closed.map(({ tool, width }, index) => {
          const middle = middles[index] ?? 0;
          const y = ys[index] ?? middle;
          return (
            <g key={tool.id}>
              <path
                d={`M${AT.numbers + 12} ${y}L${AT.closed - width / 2 - 3} ${middle}`}
                className="sketch-leader"
              />
              <text x={AT.numbers} y={y + 6} className="sketch-number">
                {index + 1}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption className="small">Lengths to scale; diameters {times} times as wide.</figcaption>
    </figure>
  );
}
