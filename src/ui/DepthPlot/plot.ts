/** What a depth plot is made of. Depths are m, all counted one way; values are SI of the plot's dimension. */
export interface PlotPoint {
  readonly depth: number;
  readonly si: number;
}

/** How the depths of a plot are counted. */
export type DepthCount = "true vertical" | "along hole";

export interface PlotLine {
  /** no two lines of a plot are called the same */
  readonly name: string;
  readonly ink: "calculated" | "measured" | "limit";
  readonly dashed?: boolean;
  /** a third line beside a whole and a dashed one */
  readonly dotted?: boolean;
  /** from one end to the other; a value that jumps has two points at one depth */
  readonly points: readonly PlotPoint[];
}

/** Expected, measured, limit, and one shape for what is none of them. */
export type MarkShape = "ring" | "dot" | "bar" | "triangle";

export interface PlotMark extends PlotPoint {
  readonly name: string;
  readonly shape: MarkShape;
  readonly emphasis?: boolean;
  /** from and to, SI: a thin whisker through the mark */
  readonly band?: readonly [number, number];
}

export interface PlotLevel {
  readonly depth: number;
  /** at the edge of the picture: a mandrel's number */
  readonly label: string;
  /** where there is room for words; "Mandrel" and the label when it is not given */
  readonly name?: string;
}
