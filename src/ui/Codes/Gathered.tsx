import { inShort } from "../../jobs/codes/numbers.ts";

interface GatheredProps {
  readonly count: number;
  readonly missing: readonly number[];
}

const RADIUS = 42;
const ROUND = 2 * Math.PI * RADIUS;

/** How many codes are there as a ring that closes, and which as a field of numbers. */
export function Gathered({ count, missing }: GatheredProps) {
  const have = count - missing.length;
  const lacking = new Set(missing);
  return (
    <div className="gathered">
      <svg
        className="gathered-ring"
        viewBox="0 0 100 100"
        role="progressbar"
        aria-label="Codes read"
        aria-valuemin={0}
        aria-valuemax={count}
        aria-valuenow={have}
      >
        <circle className="gathered-way" cx="50" cy="50" r={RADIUS} />
        <circle
          className="gathered-part"
          cx="50"
          cy="50"
          r={RADIUS}
          strokeDasharray={`${(ROUND * have) / count} ${ROUND}`}
        />
        <text x="50" y="52" className="gathered-have">
          {have}
        </text>
        <text x="50" y="70" className="gathered-count">
          of {count}
        </text>
      </svg>
      <ol className="gathered-grid" aria-hidden="true">
        {Array.from({ length: count }, (_, index) => index + 1).map((number) => (
          <li key={number} className={lacking.has(number) ? undefined : "gathered-here"}>
            {number}
          </li>
        ))}
      </ol>
      {missing.length > 0 && have >= count / 2 && (
        <p className="gathered-missing">
          Missing: <strong>{inShort(missing)}</strong>. They come round again; or type these numbers
          on the other tablet, which then shows only them.
        </p>
      )}
    </div>
  );
}
