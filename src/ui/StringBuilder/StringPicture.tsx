import type { Writer } from "../../jobs/display.ts";
import type { ToolString } from "../../jobs/records/equipment.ts";
import { isTooLarge, type JobFit, worstOf } from "../../jobs/stringFit.ts";
import { fitInShort } from "../../jobs/stringFitWords.ts";
import { figuresOf } from "../../jobs/toolString.ts";
import { spread } from "../WellDrawing/spread.ts";
import { DrawnTools, type PlacedTool, placeTools, type Scale, widening } from "./DrawnTools.tsx";

interface StringPictureProps {
  readonly string: ToolString;
  readonly fits: readonly JobFit[];
  readonly writer: Writer;
}

const WIDTH = 420;
const HEIGHT = 640;
const TOP = 58;
const FOOT = 46;
/** Middles of the lubricator, of the numbers, of the tubing. */
const AT = { lubricator: 110, numbers: 212, tubing: 314 } as const;
/** Units across for the widest bore. */
const WANTED = 76;

/** The string with its jars extended, in the lubricator and in the tubing: lengths to scale, diameters widened. */
export function StringPicture({ string, fits, writer }: StringPictureProps) {
  const inLubricator = worstOf(fits, "lubricator");
  const inBore = worstOf(fits, "bore");
  const { extended, largest, lengthsOpen } = figuresOf(string);
  if (!largest) return null;
  const sections = inLubricator?.sections ?? [];
  const usable = sections.reduce((sum, length) => sum + length, 0);
  const asked = extended + (inLubricator?.valve ?? 0) + (inLubricator?.margin ?? 0);
  const along = (HEIGHT - TOP - FOOT) / Math.max(usable, asked);
  const widest = Math.max(largest.diameter, inLubricator?.stackBore ?? 0, inBore?.drift ?? 0);
  const times = widening(widest, along, WANTED);
  const scale: Scale = { along, across: along * times };
  const placed = placeTools(string.tools, TOP, scale, "extended");
  const tooLarge = (tool: ToolString["tools"][number]) => isTooLarge(tool, inBore);
  return (
    <figure className="string-picture">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={describe(string, inLubricator, inBore, writer)}
      >
        <text x={AT.lubricator} y="22" className="picture-head">
          Lubricator
        </text>
        <text x={AT.tubing} y="22" className="picture-head">
          Tubing
        </text>
        <LengthScale scale={scale} writer={writer} />
        {inLubricator && usable > 0 && (
          <Lubricator fit={inLubricator} extended={extended} scale={scale} writer={writer} />
        )}
        {inBore && (
          <Tubing fit={inBore} bottom={TOP + extended * along} scale={scale} writer={writer} />
        )}
        <DrawnTools placed={placed} x={AT.lubricator} scale={scale} />
        {inLubricator && <CrownValve fit={inLubricator} scale={scale} />}
        <DrawnTools placed={placed} x={AT.tubing} scale={scale} tooLarge={tooLarge} />
        {inBore && <Narrowest fit={inBore} bottom={TOP + extended * along} scale={scale} />}
        <Numbers placed={placed} tooLarge={tooLarge} />
      </svg>
      <figcaption className="small">
        {lengthsOpen.length > 0 ? "Jars as closed: length extended not known." : "Jars extended."}{" "}
        Lengths to scale; diameters drawn {times} times as wide.
        {inBore?.bore.state !== "not known" && " The dashed lines mark the narrowest bore."}
      </figcaption>
    </figure>
  );
}

function LengthScale({ scale, writer }: { readonly scale: Scale; readonly writer: Writer }) {
  const field = writer.system === "field";
  const step = field ? 5 * 0.3048 : 2;
  const count = Math.floor((HEIGHT - TOP - FOOT) / (scale.along * step)) + 1;
  return (
    <>
      {Array.from({ length: count }, (_, i) => i).map((i) => (
        <g key={i}>
          <path d={`M40 ${TOP + i * step * scale.along}h10`} className="picture-tick" />
          <text x="36" y={TOP + i * step * scale.along + 6} className="picture-depth">
            {i === 0 ? (field ? "ft" : "m") : i * (field ? 5 : 2)}
          </text>
        </g>
      ))}
    </>
  );
}

interface PartProps {
  readonly fit: JobFit;
  readonly scale: Scale;
}

interface LubricatorProps extends PartProps {
  /** m */
  readonly extended: number;
  readonly writer: Writer;
}

/** Where no bore is on record the lubricator is drawn at this width. */
const PLAIN = 60;

const widthOf = ({ stackBore }: JobFit, scale: Scale) =>
  stackBore === undefined ? PLAIN : stackBore * scale.across;

/** Packing above, joints of the sections; under the string what hangs on it, and the margin. */
function Lubricator({ fit, extended, scale, writer }: LubricatorProps) {
  const { sections, valve, margin, lubricator } = fit;
  const usable = sections.reduce((sum, length) => sum + length, 0);
  const crown = TOP + usable * scale.along;
  const half = widthOf(fit, scale) / 2;
  const x = AT.lubricator;
  const valveTop = TOP + extended * scale.along;
  const valveFoot = valveTop + valve * scale.along;
  const foot = valveFoot + margin * scale.along;
  const joints = sections.map(
    (_, i) =>
      crown - sections.slice(0, i + 1).reduce((sum, length) => sum + length, 0) * scale.along,
  );
  return (
    <g>
      <path
        d={`M${x - half} ${TOP}V${crown}M${x + half} ${TOP}V${crown}`}
        className="picture-wall"
      />
      <path
        d={`M${x - half - 6} ${TOP - 8}h${2 * half + 12}v8h${-2 * half - 12}z`}
        className="drawn-solid"
      />
      {joints.slice(0, -1).map((y) => (
        <path
          key={y}
          d={`M${x - half - 5} ${y}h10M${x + half - 5} ${y}h10`}
          className="picture-wall"
        />
      ))}
      {valve > 0 && (
        <>
          <rect
            x={x - 10}
            y={valveTop}
            width="20"
            height={valveFoot - valveTop}
            rx="5"
            className="picture-valve"
          />
          <text x={x + half + 12} y={(valveTop + valveFoot) / 2 + 6} className="picture-word">
            valve
          </text>
        </>
      )}
      <path
        d={`M${x - half} ${valveFoot}H${x + half}M${x - half} ${foot}H${x + half}M${x} ${valveFoot}V${foot}`}
        className="picture-margin"
      />
      <text x={x + half + 12} y={(valveFoot + foot) / 2 + 6} className="picture-word">
        margin
      </text>
      <text
        x={x}
        y={Math.max(crown, foot) + 32}
        className={`picture-head${lubricator.state === "does not fit" ? " wrong" : ""}`}
      >
        {lubricator.state !== "not known" && fitInShort(fit, "lubricator", writer)}
      </text>
    </g>
  );
}

interface TubingProps extends PartProps {
  /** y of the lower end of the string */
  readonly bottom: number;
}

const wallFoot = (bottom: number) => Math.min(bottom + 60, HEIGHT - FOOT);

/** The closed valve, over everything: a string that is too long is seen to stand in it. */
function CrownValve({ fit, scale }: PartProps) {
  const usable = fit.sections.reduce((sum, length) => sum + length, 0);
  if (usable === 0) return null;
  const half = widthOf(fit, scale) / 2 + 16;
  const bar = `M${AT.lubricator - half} ${TOP + usable * scale.along}h${2 * half}`;
  return (
    <>
      <path d={bar} className="picture-gap" />
      <path d={bar} className="picture-limit" />
    </>
  );
}

/** Two ink lines at the tubing's drift, and what the bore leaves. */
function Tubing({ fit, bottom, scale, writer }: TubingProps & { readonly writer: Writer }) {
  const half = ((fit.drift ?? 0) * scale.across) / 2;
  const x = AT.tubing;
  const foot = wallFoot(bottom);
  return (
    <g>
      {fit.drift !== undefined && (
        <>
          <path d={`M${x - half} 46V${foot}M${x + half} 46V${foot}`} className="picture-wall" />
          <text x={x} y="42" className="picture-word middle">
            drift {writer.write("diameter", fit.drift)}
          </text>
        </>
      )}
      {fit.bore.state !== "not known" && (
        <text
          x={x}
          y={foot + 32}
          className={`picture-head${fit.bore.state === "does not fit" ? " wrong" : ""}`}
        >
          {fitInShort(fit, "bore", writer)}
        </text>
      )}
    </g>
  );
}

/** The narrowest bore as two hard bars under the string, and dashed up along it. */
function Narrowest({ fit, bottom, scale }: TubingProps) {
  if (fit.bore.state === "not known") return null;
  const half = (fit.bore.available * scale.across) / 2;
  const wall = Math.max(((fit.drift ?? 0) * scale.across) / 2, half) + 10;
  const x = AT.tubing;
  const foot = wallFoot(bottom);
  const y = (bottom + foot) / 2;
  return (
    <>
      <path d={`M${x - half} ${TOP}V${y}M${x + half} ${TOP}V${y}`} className="picture-narrowest" />
      <path
        d={`M${x - wall} ${y}H${x - half}M${x + half} ${y}H${x + wall}`}
        className="picture-limit"
      />
    </>
  );
}

interface NumbersProps {
  readonly placed: readonly PlacedTool[];
  readonly tooLarge: (tool: ToolString["tools"][number]) => boolean;
}

/** The place of each tool between the two strings, as in the list. */
function Numbers({ placed, tooLarge }: NumbersProps) {
  const middles = placed.map(({ y, height }) => y + height / 2);
  const ys = spread(middles, 24, TOP, HEIGHT - FOOT);
  return (
    <>
      {placed.map(({ tool, width }, index) => {
        const middle = middles[index] ?? 0;
        const y = ys[index] ?? middle;
        return (
          <g key={tool.id}>
            <path
              d={`M${AT.lubricator + width / 2 + 3} ${middle}L${AT.numbers - 18} ${y}M${AT.numbers + 18} ${y}L${AT.tubing - width / 2 - 3} ${middle}`}
              className="picture-tick"
            />
            <text
              x={AT.numbers}
              y={y + 7}
              className={`picture-number${tooLarge(tool) ? " wrong" : ""}`}
            >
              {index + 1}
              {tooLarge(tool) && " !"}
            </text>
          </g>
        );
      })}
    </>
  );
}

function describe(
  string: ToolString,
  inLubricator: JobFit | undefined,
  inBore: JobFit | undefined,
  writer: Writer,
): string {
  const names = string.tools.map(({ name }, index) => `${index + 1} ${name}`).join("; ");
  const lubricator = inLubricator && fitInShort(inLubricator, "lubricator", writer);
  const bore = inBore && fitInShort(inBore, "bore", writer);
  return `${string.name}, top down: ${names}. Lubricator: ${lubricator ?? "no job"}. Bore: ${bore ?? "no job"}.`;
}
