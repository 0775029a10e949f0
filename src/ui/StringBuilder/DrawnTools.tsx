import { toSI } from "../../jobs/quantity.ts";
import type { Tool } from "../../jobs/records/equipment.ts";
import "./DrawnTools.css";

/** Units of the drawing for a metre down the string, and for a metre across it. */
export interface Scale {
  readonly along: number;
  readonly across: number;
}

/** A tool with its place in the drawing. */
export interface PlacedTool {
  readonly tool: Tool;
  readonly y: number;
  readonly height: number;
  readonly width: number;
}

/** Tools one under the other, each as long as it is in its longest state or closed. */
export function placeTools(
  tools: readonly Tool[],
  top: number,
  scale: Scale,
  state: "closed" | "extended",
): PlacedTool[] {
  let y = top;
  return tools.map((tool) => {
    const length = (state === "extended" && tool.lengthExtended) || tool.length;
    const height = toSI("length", length) * scale.along;
    const placed = {
      tool,
      y,
      height,
      width: toSI("diameter", tool.outsideDiameter) * scale.across,
    };
    y += height;
    return placed;
  });
}

/** How many times wider than long a unit is drawn, so that the widest thing is some `wanted` units across. */
export function widening(widest: number, along: number, wanted: number): number {
  return Math.max(1, Math.floor(wanted / (widest * along)));
}

const NECK = 7;

interface DrawnToolsProps {
  readonly placed: readonly PlacedTool[];
  /** of the middle of the string */
  readonly x: number;
  readonly scale: Scale;
  readonly tooLarge?: (tool: Tool) => boolean;
}

/** A string as it hangs: the same marks on every screen and in print. */
export function DrawnTools({ placed, x, scale, tooLarge }: DrawnToolsProps) {
  return (
    <>
      {placed.map(({ tool, y, height, width }) => {
        const neck = tool.fishingNeck ? toSI("diameter", tool.fishingNeck) * scale.across : width;
        return (
          <g
            key={tool.id}
            transform={`translate(${x} ${y})`}
            className={`drawn-tool${tooLarge?.(tool) ? " too-large" : ""}`}
          >
            <ToolMark kind={tool.kind} width={width} neck={Math.min(neck, width)} height={height} />
          </g>
        );
      })}
    </>
  );
}

interface ToolMarkProps {
  readonly kind: Tool["kind"];
  readonly width: number;
  readonly neck: number;
  readonly height: number;
}

/** One tool from its fishing neck down, told by its shape. */
function ToolMark({ kind, width: w, neck, height: h }: ToolMarkProps) {
  const top = Math.min(NECK, h / 3);
  const half = w / 2;
  // A hair of paper between two tools, so that they can be counted.
  const foot = h - 1.5;
  const neckPath = `M${-neck / 2} 0h${neck}v${top}h${-neck}z`;
  const body = `M${-half} ${top}h${w}V${foot}h${-w}z`;
  switch (kind) {
    case "rope socket":
      return (
        <path
          className="drawn-solid"
          d={`M${-neck / 4} 0h${neck / 2}L${half} ${top * 2}V${foot}h${-w}V${top * 2}z`}
        />
      );
    case "stem":
      return <path className="drawn-solid" d={neckPath + body} />;
    case "jars":
      return (
        <>
          <path
            className="drawn-solid"
            d={`${neckPath}M${-half} ${top}h${w}V${h * 0.3}h${-w}zM${-half} ${h * 0.72}h${w}V${foot}h${-w}z`}
          />
          <path
            className="drawn-rods"
            d={`M${-half * 0.6} ${h * 0.3}V${h * 0.72}M${half * 0.6} ${h * 0.3}V${h * 0.72}`}
          />
        </>
      );
    case "knuckle joint":
      return (
        <>
          <path className="drawn-solid" d={neckPath + body} />
          <circle className="drawn-ball" cy={(top + foot) / 2} r={Math.min(half * 0.6, h / 4)} />
        </>
      );
    case "kickover tool":
      return (
        <>
          <path className="drawn-solid" d={neckPath} />
          <path className="drawn-open" d={body} />
          <path className="drawn-arm" d={`M${-half * 0.4} ${h * 0.4}L${half * 0.4} ${h * 0.9}`} />
          <circle className="drawn-pivot" cx={-half * 0.4} cy={h * 0.4} r="3.5" />
        </>
      );
    case "pulling tool":
      return (
        <path
          className="drawn-solid"
          d={`${neckPath}M${-half} ${top}h${w}V${foot}h${-w * 0.3}V${h * 0.55}h${-w * 0.4}V${foot}h${-w * 0.3}z`}
        />
      );
    case "running tool":
      return (
        <path
          className="drawn-solid"
          d={`${neckPath}M${-half} ${top}h${w}V${h * 0.55}L${w * 0.2} ${foot}h${-w * 0.4}L${-half} ${h * 0.55}z`}
        />
      );
    case "gauge cutter":
      return (
        <>
          <path className="drawn-solid" d={neckPath} />
          <path className="drawn-open" d={body} />
          <path className="drawn-edge" d={`M${-half} ${foot - 2}h${w}`} />
        </>
      );
    case "other":
      return <path className="drawn-open unknown" d={neckPath + body} />;
  }
}
