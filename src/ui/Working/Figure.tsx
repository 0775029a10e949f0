import type { Writer } from "../../jobs/display.ts";
import { unitLabel } from "../../jobs/display.ts";
import type { Dimension } from "../../jobs/quantity.ts";

interface FigureProps {
  readonly dimension: Dimension;
  readonly si: number;
  readonly writer: Writer;
  /** calculated figures are steel blue, measured ones ink */
  readonly calculated?: boolean;
}

/** A number with its unit beside it, always. */
export function Figure({ dimension, si, writer, calculated = false }: FigureProps) {
  const { number, unit } = writer.parts(dimension, si);
  return (
    <span className={`figure${calculated ? " calculated" : ""}`}>
      {number}
      {unit && <span className="figure-unit"> {unitLabel(unit)}</span>}
    </span>
  );
}
