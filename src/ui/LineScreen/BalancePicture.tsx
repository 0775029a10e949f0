import { unitLabel, type Writer } from "../../jobs/display.ts";
import type { Worked } from "../../jobs/results/lineChart.ts";
import type { Balance } from "../../jobs/results/pushOutBalances.ts";
import { plotAxis } from "../DepthPlot/axes.ts";
import { useWidth } from "../DepthPlot/useWidth.ts";

/** What a shape of the picture stands for. */
export type Part =
  | "push-out"
  | "packing"
  | "drag"
  | "string"
  | "line"
  | "wanted"
  | "expected"
  | "measured";

interface BalancePictureProps {
  readonly places: readonly { readonly name: string; readonly of: Worked<Balance> }[];
  readonly writer: Writer;
}

const HEIGHT = 400;
/** where every column hangs from: the packing */
const TOP = 76;
const FOOT = 16;
const LEFT = 58;
/** Drawn this wide until the page has said how wide it is. */
const WIDTH_BEFORE_LAYOUT = 480;

/**
 * Forces to one scale, hung from the packing: what pushes up beside what pulls down. The weight has to reach below
 * the hard bar, which is what the policy asks for.
 */
export function BalancePicture({ places, writer }: BalancePictureProps) {
  const [stage, measured] = useWidth();
  const width = measured || WIDTH_BEFORE_LAYOUT;
  const known = places.flatMap(({ of }) => (of.state === "known" ? [of] : []));
  const forces = known.flatMap((b) => [
    b.pushOut + b.packing + b.drag,
    b.string + b.line,
    b.wanted ?? 0,
    b.measured ?? 0,
  ]);
  const least = Math.min(0, ...known.map((b) => b.pushOut));
  const y = plotAxis({
    dimension: "force",
    writer,
    ends: [least, Math.max(1, ...forces) * 1.06],
    range: [TOP, HEIGHT - FOOT],
    ticks: 5,
  });
  const share = (width - LEFT) / places.length;
  return (
    <div className="balance-stage" ref={stage}>
      {known.length > 0 && (
        <svg
          viewBox={`0 0 ${width} ${HEIGHT}`}
          width={width}
          height={HEIGHT}
          className="balance-picture"
          role="img"
          aria-label={described(places, writer)}
        >
          <defs>
            <pattern id="balance-hatch" width="8" height="8" patternUnits="userSpaceOnUse">
              <path d="M-2 10L10 -2M-2 2L2 -2M6 10L10 6" className="balance-hatch" />
            </pattern>
            <pattern id="balance-stripes" width="7" height="7" patternUnits="userSpaceOnUse">
              <path d="M3.5 0V7" className="balance-hatch" />
            </pattern>
          </defs>
          <text x="0" y="18" className="balance-strong">
            {unitLabel(y.unit)}
          </text>
          {y.ticks.map((tick) => (
            <g key={tick}>
              <path d={`M${LEFT} ${y.scale(tick)}H${width}`} className="balance-tick" />
              <text x={LEFT - 8} y={y.scale(tick) + 6} className="balance-end">
                {y.format(tick)}
              </text>
            </g>
          ))}
          <path d={`M${LEFT} ${y.at(0)}H${width}`} className="balance-packing" />
          {places.map(({ name, of }, index) => (
            <g key={name} transform={`translate(${LEFT + share * (index + 0.5)} 0)`}>
              <text y="18" className="balance-strong balance-middle">
                {name}
              </text>
              {of.state === "known" ? (
                <Columns of={of} at={y.at} reach={share * 0.44} />
              ) : (
                <text y={TOP + 60} className="balance-middle">
                  not known
                </text>
              )}
            </g>
          ))}
        </svg>
      )}
    </div>
  );
}

interface ColumnsProps {
  readonly of: Balance;
  readonly at: (force: number) => number;
  /** half the width that the hard bar takes */
  readonly reach: number;
}

function Columns({ of, at, reach }: ColumnsProps) {
  const offset = Math.min(reach * 0.5, 52);
  const ups: [Part, number][] = [
    ["push-out", of.pushOut],
    ["packing", of.packing],
    ["drag", of.drag],
  ];
  const downs: [Part, number][] = [
    ["string", of.string],
    ["line", of.line],
  ];
  return (
    <>
      <text x={-offset} y="46" className="balance-middle">
        up
      </text>
      <path d={`M${-offset} ${TOP - 22}l13 17h-26z`} className="balance-head" />
      <text x={offset} y="46" className="balance-middle">
        down
      </text>
      <path d={`M${offset} ${TOP - 5}l13 -17h-26z`} className="balance-head" />
      <Stack x={-offset} parts={ups} at={at} />
      <Stack x={offset} parts={downs} at={at} />
      {of.wanted !== undefined && (
        <path d={`M${-reach} ${at(of.wanted)}H${reach}`} className="balance-wanted" />
      )}
      <circle cx={offset} cy={at(of.string + of.line)} r="11" className="balance-expected" />
      {of.measured !== undefined && (
        <circle cx={offset} cy={at(of.measured)} r="9" className="balance-measured" />
      )}
    </>
  );
}

const fillOf = (part: Part): string | undefined => {
  if (part === "drag") return "url(#balance-hatch)";
  return part === "push-out" ? "url(#balance-stripes)" : undefined;
};

/** The line is thin beside the string that hangs on it. */
const halfWidth = (part: Part) => (part === "line" ? 7 : 19);

interface StackProps {
  readonly x: number;
  readonly parts: readonly (readonly [Part, number])[];
  readonly at: (force: number) => number;
}

/** Forces of one direction, one under the other. */
function Stack({ x, parts, at }: StackProps) {
  let from = 0;
  return parts.map(([part, force]) => {
    const [one, other] = [at(from), at(from + force)];
    from += force;
    if (force === 0) return null;
    return (
      <rect
        key={part}
        x={x - halfWidth(part)}
        y={Math.min(one, other)}
        width={2 * halfWidth(part)}
        height={Math.abs(other - one)}
        fill={fillOf(part)}
        className={`balance-part ${part}`}
      />
    );
  });
}

/** A shape as it stands in the picture, for the words beside it. */
export function Sample({ part }: { readonly part: Part }) {
  return (
    <svg viewBox="-16 -12 32 24" className="balance-sample" aria-hidden="true">
      {part === "wanted" ? (
        <path d="M-15 0H15" className="balance-wanted" />
      ) : part === "expected" ? (
        <circle r="9" className="balance-expected" />
      ) : part === "measured" ? (
        <circle r="8" className="balance-measured" />
      ) : (
        <Swatch part={part} />
      )}
    </svg>
  );
}

function Swatch({ part }: { readonly part: Part }) {
  const half = part === "line" ? 4 : 9;
  return (
    <rect
      x="-14"
      y={-half}
      width="28"
      height={2 * half}
      fill={fillOf(part)}
      className={`balance-part ${part}`}
    />
  );
}

function described(places: BalancePictureProps["places"], writer: Writer): string {
  const force = (si: number) => writer.write("force", si);
  const each = places.map(({ name, of }) => {
    if (of.state !== "known") return `${name}: not known.`;
    const wanted = of.wanted === undefined ? "" : ` The policy asks for ${force(of.wanted)} down.`;
    const read = of.measured === undefined ? "" : ` By the readings ${force(of.measured)} down.`;
    return `${name}: ${force(of.pushOut + of.packing + of.drag)} up, ${force(of.string + of.line)} down.${wanted}${read}`;
  });
  return ["Weight against push-out.", ...each].join(" ");
}
