import type { MarkShape, PlotLine } from "./plot.ts";

interface MarkProps {
  readonly shape: MarkShape;
  readonly x?: number;
  readonly y?: number;
  readonly emphasis?: boolean | undefined;
}

/** Hollow ring, filled dot, hard bar, triangle; larger and in ember when it is the one to look at. */
export function Mark({ shape, x = 0, y = 0, emphasis = false }: MarkProps) {
  return (
    <g
      transform={`translate(${x} ${y})${emphasis ? " scale(1.35)" : ""}`}
      className={`depth-mark${emphasis ? " emphasis" : ""}`}
    >
      {shape === "ring" && <circle r="7.5" className="depth-ring" />}
      {shape === "dot" && <circle r="7" className="depth-dot" />}
      {shape === "bar" && <path d="M0 -13V13" className="depth-bar" />}
      {shape === "triangle" && <path d="M0 -10L10 8H-10z" className="depth-dot" />}
    </g>
  );
}

/** A mark as it stands in the picture, for the words beside it. */
export function MarkSample({ shape, emphasis }: Pick<MarkProps, "shape" | "emphasis">) {
  return (
    <svg viewBox="-18 -18 36 36" className="depth-mark-sample" aria-hidden="true">
      <Mark shape={shape} emphasis={emphasis} />
    </svg>
  );
}

/** A line as it is drawn in the picture, for the words beside it. */
export function LineSample({ line }: { readonly line: PlotLine }) {
  return (
    <svg viewBox="0 0 48 20" className="depth-line-sample" aria-hidden="true">
      <path d="M3 10H45" className={lineClass(line)} />
      {line.ink === "measured" && <circle cx="24" cy="10" r="5" className="depth-station" />}
    </svg>
  );
}

export function lineClass({ ink, dashed = false, dotted = false }: PlotLine): string {
  return `depth-line ${ink}${dashed ? " dashed" : ""}${dotted ? " dotted" : ""}`;
}

/** What tells a line from the others where two are drawn alike: a letter at its lower end and in the readout. */
export function letterOf(index: number): string {
  return String.fromCharCode(65 + index);
}
