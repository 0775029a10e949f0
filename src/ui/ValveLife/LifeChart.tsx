import { AxisBottom, AxisLeft } from "@visx/axis";
import { scaleLinear } from "@visx/scale";
import type { SurvivalCurve } from "../../calc/survival.ts";
import { DAYS_OF_A_YEAR } from "../../jobs/valveLife/words.ts";
import { useWidth } from "../DepthPlot/useWidth.ts";

export interface LifeCurve {
  readonly name: string;
  readonly curve: SurvivalCurve;
  /** with the limits that hold the true share 95 times in 100 */
  readonly band?: boolean;
}

const HEIGHT = 300;
const LEFT = 68;
const TOP = 14;
const FOOT = 48;

/** Steps that are told apart by their strokes first, since ink is one. */
const dashes = ["", "10 6", "2 6", "16 5 3 5", "6 3"];

/** Share still in service against years since it was set. */
export function LifeChart({ curves }: { readonly curves: readonly LifeCurve[] }) {
  const [frame, width] = useWidth();
  const years = Math.max(...curves.map(({ curve }) => curve.watchedTo), 1) / DAYS_OF_A_YEAR;
  return (
    <figure className="life-chart" ref={frame}>
      {curves.length > 1 && (
        <ul className="life-key">
          {curves.map(({ name }, index) => (
            <li key={name}>
              <svg width="44" height="12" aria-hidden="true">
                <path
                  d="M0 6H44"
                  className="life-line"
                  strokeDasharray={dashes[index % dashes.length]}
                />
              </svg>
              {name}
            </li>
          ))}
        </ul>
      )}
      {width !== undefined && curves.length > 0 && (
        <Picture curves={curves} years={years} width={width} />
      )}
    </figure>
  );
}

interface PictureProps {
  readonly curves: readonly LifeCurve[];
  readonly years: number;
  readonly width: number;
}

function Picture({ curves, years, width }: PictureProps) {
  const x = scaleLinear<number>({ domain: [0, years], range: [LEFT, width - 12] });
  const y = scaleLinear<number>({ domain: [0, 1], range: [HEIGHT - FOOT, TOP] });
  const says = curves.map(
    ({ name, curve }) => `${name}: ${curve.failures} of ${curve.count} failed`,
  );
  return (
    <svg
      width={width}
      height={HEIGHT}
      role="img"
      aria-label={`Share still in service against years since it was set. ${says.join(". ")}.`}
    >
      {[0.25, 0.5, 0.75].map((share) => (
        <path key={share} d={`M${LEFT} ${y(share)}H${width - 12}`} className="life-grid" />
      ))}
      {curves.map(
        ({ name, curve, band }) =>
          band && <path key={name} d={bandPath(curve, x, y)} className="life-band" />,
      )}
      {curves.map(({ name, curve }, index) => (
        <path
          key={name}
          d={stepPath(curve, x, y)}
          className="life-line"
          strokeDasharray={dashes[index % dashes.length]}
        />
      ))}
      <AxisLeft
        scale={y}
        left={LEFT}
        tickValues={[0, 0.25, 0.5, 0.75, 1]}
        tickFormat={(value) => `${100 * Number(value)} %`}
        axisClassName="life-axis"
        tickComponent={({ x: end, y: at, formattedValue }) => (
          <text x={end - 4} y={at + 5} textAnchor="end">
            {formattedValue}
          </text>
        )}
      />
      <AxisBottom
        scale={x}
        top={HEIGHT - FOOT}
        tickValues={x.ticks(Math.max(2, Math.floor(width / 110)))}
        tickFormat={(value) => String(value)}
        axisClassName="life-axis"
        tickComponent={({ x: at, y: end, formattedValue }) => (
          <text x={at} y={end + 6} textAnchor="middle">
            {formattedValue}
          </text>
        )}
      />
      <text x={width - 12} y={HEIGHT - 4} textAnchor="end">
        years since it was set
      </text>
    </svg>
  );
}

type Scale = (value: number) => number;

const inYears = (days: number) => days / DAYS_OF_A_YEAR;

function stepPath({ steps, watchedTo }: SurvivalCurve, x: Scale, y: Scale): string {
  const falls = steps.map(({ time, survival }) => `H${x(inYears(time))}V${y(survival)}`);
  return `M${x(0)} ${y(1)}${falls.join("")}H${x(inYears(watchedTo))}`;
}

/** Where the limits are not known the band ends. */
function bandPath({ steps, watchedTo }: SurvivalCurve, x: Scale, y: Scale): string {
  const known = steps.flatMap(({ time, low, high }) =>
    low === undefined || high === undefined ? [] : [{ at: x(inYears(time)), low, high }],
  );
  const [first] = known;
  if (!first) return "";
  const end = x(inYears(known.length < steps.length ? (steps.at(-1)?.time ?? 0) : watchedTo));
  const upper = known.map(({ at, high }) => `H${at}V${y(high)}`).join("");
  const lower = known
    .toReversed()
    .map(({ at, low }) => `V${y(low)}H${at}`)
    .join("");
  return `M${first.at} ${y(1)}${upper}H${end}${lower}Z`;
}
