import type { ReactNode } from "react";
import "./Scale.css";

interface ScaleProps {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  /** hard bars */
  readonly limits: readonly number[];
  /** hollow ring */
  readonly expected?: number | undefined;
  /** filled dot */
  readonly measured?: number | undefined;
  /** the figures in words, under the scale */
  readonly children: ReactNode;
}

/** Expected, measured and limit in one picture: hollow ring, filled dot, hard bar; an arrowhead when it is off. */
export function Scale({ label, from, to, limits, expected, measured, children }: ScaleProps) {
  const x = (value: number) =>
    12 + (Math.min(Math.max(value, from), to) - from) * (276 / (to - from));
  const off = measured !== undefined && (measured < from || measured > to);
  return (
    <div className="scale">
      <h3>{label}</h3>
      <svg viewBox="0 0 300 44" aria-hidden="true" className="scale-picture">
        <path d="M12 22H288" className="scale-line" />
        {from < 0 && to > 0 && <path d={`M${x(0)} 14V30`} className="scale-zero" />}
        {limits.map((limit) => (
          <path key={limit} d={`M${x(limit)} 4V40`} className="scale-limit" />
        ))}
        {expected !== undefined && (
          <circle cx={x(expected)} cy="22" r="9" className="scale-expected" />
        )}
        {measured !== undefined && !off && (
          <circle cx={x(measured)} cy="22" r="8" className="scale-measured" />
        )}
        {measured !== undefined && off && (
          <path
            d={measured > to ? "M276 10L296 22L276 34z" : "M24 10L4 22L24 34z"}
            className="scale-measured"
          />
        )}
      </svg>
      {off && <p className="scale-off">Off the scale</p>}
      <div className="scale-words">{children}</div>
    </div>
  );
}
