import { alongHoleM } from "../../calc/units.ts";
import type { Writer } from "../../jobs/display.ts";
import { toSI } from "../../jobs/quantity.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import type { Mandrel, Well } from "../../jobs/records/well.ts";
import type { Results } from "../../jobs/results/results.ts";
import type { MandrelState } from "../../jobs/results/wholeWell.ts";
import { spread } from "./spread.ts";
import "./WellDrawing.css";

interface WellDrawingProps {
  readonly well: Well;
  readonly valves: readonly Valve[];
  readonly results: Results;
  readonly writer: Writer;
  /** the mandrel at work, by its id */
  readonly target?: string | undefined;
  /** where the tool string should be, true vertical, m */
  readonly toolAt?: number | undefined;
  /** what each pocket does to gas on lift */
  readonly states?: readonly MandrelState[];
  /** without names and loupe, for the side of a run sheet */
  readonly slim?: boolean;
  /** a pocket is tapped; whoever draws it offers the same in a list */
  readonly onPick?: (mandrel: string) => void;
}

const TOP = 44;
const FOOT = 28;

/** A depth with its place on the paper. */
interface Placed {
  readonly mandrel: Mandrel;
  readonly y: number;
  readonly valve: Valve | undefined;
}

/** The well, vertical, to scale in true vertical depth: tubing as two lines, pockets at its side. */
export function WellDrawing(props: WellDrawingProps) {
  const {
    well,
    valves,
    results,
    writer,
    target,
    toolAt,
    states = [],
    slim = false,
    onPick,
  } = props;
  const { path } = results.context;
  const height = slim ? 420 : 620;
  const width = slim ? 128 : 460;
  const vertical = (alongHole: number): number =>
    path.ok ? path.value.at(alongHoleM(alongHole)).vertical : alongHole;
  const deepest = Math.max(
    ...well.tubing.map((joint) => vertical(toSI("length", joint.to))),
    ...well.mandrels.map((mandrel) => vertical(toSI("length", mandrel.depthAlongHole)) * 1.04),
  );
  const y = (depth: number) => TOP + (depth / deepest) * (height - TOP - FOOT);
  const placed: Placed[] = well.mandrels.map((mandrel) => ({
    mandrel,
    y: y(vertical(toSI("length", mandrel.depthAlongHole))),
    valve: valves.find((valve) => valve.id === mandrel.valve),
  }));
  const level = results.value("fluid-level-tvd");
  const annulus = results.context.annulusLiquid;
  const x = slim ? 36 : 92;
  const foot = height - FOOT;
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      className={`well-drawing${slim ? " slim" : ""}`}
      role="img"
      aria-label={describe(well, placed, writer, target)}
    >
      <defs>
        <pattern id="liquid" width="8" height="8" patternUnits="userSpaceOnUse">
          <path d="M0 6h5" className="drawing-hatch" />
        </pattern>
      </defs>
      {!slim && <DepthScale y={y} deepest={deepest} writer={writer} />}
      <path d={`M${x - 32} 12V${foot}M${x + 62} 12V${foot}`} className="drawing-casing" />
      {annulus.ok && annulus.value && annulus.value.top < deepest && (
        <>
          <rect
            x={x - 31}
            y={y(annulus.value.top)}
            width={30}
            height={foot - y(annulus.value.top)}
            fill="url(#liquid)"
          />
          <rect
            x={x + 31}
            y={y(annulus.value.top)}
            width={30}
            height={foot - y(annulus.value.top)}
            fill="url(#liquid)"
          />
        </>
      )}
      {level !== undefined && (
        <rect
          x={x}
          y={y(level)}
          width={30}
          height={Math.max(0, foot - y(level))}
          fill="url(#liquid)"
        />
      )}
      {level !== undefined && <path d={`M${x - 4} ${y(level)}h38`} className="drawing-level" />}
      <path d={`M${x} 12V${foot}M${x + 30} 12V${foot}`} className="drawing-tubing" />
      <path d={`M${x - 40} 12h110`} className="drawing-tubing" />
      {well.restrictions.map((restriction) => (
        <path
          key={restriction.name}
          d={`M${x + 1} ${y(vertical(toSI("length", restriction.depthAlongHole)))}h7m14 0h7`}
          className="drawing-restriction"
        />
      ))}
      {placed.map((each) => (
        <Pocket key={each.mandrel.id} of={each} x={x + 30} atWork={each.mandrel.id === target} />
      ))}
      {placed.map((each) => {
        const state = states.find(({ mandrel }) => mandrel.id === each.mandrel.id);
        if (!state?.mayPass) return null;
        // Gas enters here; an outline where it does so only if the valve was open before.
        return (
          <path
            key={each.mandrel.id}
            d={`M${x + 27} ${each.y - 8}v16l-14 -8z`}
            className={`drawing-entry${state.gate === "as it was" ? " perhaps" : ""}`}
          />
        );
      })}
      {toolAt !== undefined && <Tool x={x + 15} y={Math.max(y(toolAt), 30)} />}
      {slim ? (
        placed.map((each) => (
          <text key={each.mandrel.id} x={x + 72} y={each.y + 6} className="drawing-number">
            {each.mandrel.number}
          </text>
        ))
      ) : (
        <Labels placed={placed} writer={writer} target={target} x={x + 72} bottom={foot} />
      )}
      {!slim && <Loupe placed={placed} target={target} />}
      {onPick &&
        placed.map(({ mandrel, y: at }) => (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list beside it is the way by keyboard
          <rect
            key={mandrel.id}
            x="40"
            y={at - 23}
            width="240"
            height="46"
            className="drawing-pick"
            onClick={() => onPick(mandrel.id)}
          />
        ))}
    </svg>
  );
}

function describe(
  well: Well,
  placed: readonly Placed[],
  writer: Writer,
  target: string | undefined,
): string {
  const pockets = placed.map(({ mandrel, valve }) => {
    const depth = writer.write("length", toSI("length", mandrel.depthAlongHole));
    const atWork = mandrel.id === target ? ", at work" : "";
    return `mandrel ${mandrel.number} at ${depth} along hole: ${valve?.serial ?? mandrel.pocketState}${atWork}`;
  });
  return `${well.name}, to scale in true vertical depth. ${pockets.join("; ")}.`;
}

function DepthScale({
  y,
  deepest,
  writer,
}: {
  y: (depth: number) => number;
  deepest: number;
  writer: Writer;
}) {
  const step = writer.system === "field" ? 304.8 : 500;
  const ticks = Array.from({ length: Math.floor(deepest / step) + 1 }, (_, i) => i * step);
  return (
    <>
      {ticks.map((depth) => (
        <g key={depth}>
          <path d={`M48 ${y(depth)}h8`} className="drawing-tick" />
          <text x="44" y={y(depth) + 5} className="drawing-depth">
            {Math.round(writer.system === "field" ? depth / 0.3048 : depth)}
          </text>
        </g>
      ))}
      <text x="4" y={y(deepest) + 22} className="drawing-unit">
        {writer.system === "field" ? "ft" : "m"} true vertical
      </text>
    </>
  );
}

/** A pocket at the side of the tubing and the valve in it. */
function Pocket({
  of,
  x,
  atWork,
}: {
  readonly of: Placed;
  readonly x: number;
  readonly atWork: boolean;
}) {
  const { y, mandrel, valve } = of;
  return (
    <g className={atWork ? "drawing-at-work" : ""}>
      <path d={`M${x} ${y - 17}l16 5v24l-16 5`} className="drawing-pocket" />
      {mandrel.pocketState !== "empty" && <ValveMark x={x + 3} y={y - 9} kind={valve?.kind} />}
    </g>
  );
}

/** The same marks in every picture: dome on top, orifice with a hole, dummy solid, unknown dashed. */
function ValveMark({
  x,
  y,
  kind,
}: {
  readonly x: number;
  readonly y: number;
  readonly kind: Valve["kind"] | undefined;
}) {
  if (kind === undefined)
    return <rect x={x} y={y} width="9" height="18" className="drawing-valve unknown" />;
  return (
    <g>
      <rect
        x={x}
        y={y}
        width="9"
        height="18"
        rx={kind === "dummy" || kind === "orifice" ? 0 : 4}
        className={`drawing-valve ${kind}`}
      />
      {kind === "orifice" && <circle cx={x + 4.5} cy={y + 9} r="2.4" className="drawing-hole" />}
    </g>
  );
}

function Tool({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <g>
      <path d={`M${x} 0V${y - 22}`} className="drawing-line" />
      <rect x={x - 5} y={y - 22} width="10" height="26" className="drawing-tool" />
    </g>
  );
}

interface LabelsProps {
  readonly placed: readonly Placed[];
  readonly writer: Writer;
  readonly target: string | undefined;
  readonly x: number;
  readonly bottom: number;
}

function Labels({ placed, writer, target, x, bottom }: LabelsProps) {
  const ys = spread(
    placed.map((each) => each.y),
    46,
    30,
    bottom,
  );
  return (
    <>
      {placed.map(({ mandrel, valve, y }, index) => {
        const at = ys[index] ?? y;
        return (
          <g key={mandrel.id} className={mandrel.id === target ? "drawing-at-work" : ""}>
            <path d={`M${x - 22} ${y}L${x - 4} ${at}`} className="drawing-tick" />
            <text x={x} y={at + 1} className="drawing-name">
              {mandrel.number}
              <tspan className="drawing-serial" dx="10">
                {valve?.serial ?? (mandrel.pocketState === "empty" ? "empty" : "not known")}
              </tspan>
            </text>
            <text x={x} y={at + 19} className="drawing-where">
              {writer.write("length", toSI("length", mandrel.depthAlongHole))}
            </text>
          </g>
        );
      })}
    </>
  );
}

/** The pocket at work, enlarged: latch, two packings with the ports between, nose. */
function Loupe({
  placed,
  target,
}: {
  readonly placed: readonly Placed[];
  readonly target: string | undefined;
}) {
  const of = placed.find((each) => each.mandrel.id === target);
  if (!of) return null;
  const cx = 372;
  const cy = Math.min(Math.max(of.y, 120), 500);
  const holds = of.mandrel.pocketState !== "empty";
  return (
    <g className="drawing-loupe">
      <path d={`M258 ${of.y}L${cx - 77} ${cy}`} className="drawing-leader" />
      <circle cx={cx} cy={cy} r="78" className="drawing-loupe-rim" />
      <g transform={`translate(${cx} ${cy})`}>
        <path d="M-34 -68V68" className="drawing-tubing" />
        <path
          d="M-4 -70V-48L-12 -40V50L-4 60M34 -66V-40M34 -18V18M34 40V66"
          className="drawing-tubing"
        />
        <path d="M34 -40h10m-10 22h10M34 18h10m-10 22h10" className="drawing-restriction" />
        {holds && (
          <>
            <path d="M2 -58h16v10h-16z" className="drawing-latch" />
            <rect x="0" y="-48" width="20" height="94" rx="5" className="drawing-valve-large" />
            <path d="M-3 -36h26M-3 -30h26M-3 30h26M-3 36h26" className="drawing-packing" />
            <circle cx="10" cy="-8" r="3" className="drawing-hole-large" />
            <circle cx="10" cy="6" r="3" className="drawing-hole-large" />
            <path d="M4 46l6 12l6 -12z" className="drawing-latch" />
          </>
        )}
      </g>
    </g>
  );
}
