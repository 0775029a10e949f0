import type { HoldStatus } from "../../jobs/state/holdState.ts";
import "./Ring.css";

/** State by shape first: barred slot, open ring, filled ring, notched ring, broken ring. */
export type RingShape = HoldStatus | "missing" | "ask" | "fails";

const words: Readonly<Record<RingShape, string>> = {
  locked: "locked",
  ready: "ready",
  released: "released",
  "released under exception": "released under exception",
  voided: "voided",
  missing: "something missing",
  ask: "something to ask",
  fails: "something fails",
};

interface RingProps {
  readonly shape: RingShape;
  readonly initials?: string | undefined;
  readonly size?: number;
  /** when the state stands in words beside it */
  readonly silent?: boolean;
}

export function Ring({ shape, initials, size = 32, silent = false }: RingProps) {
  return (
    <svg
      viewBox="0 0 40 40"
      width={size}
      height={size}
      className={`ring ring-${slug(shape)}`}
      role="img"
      aria-hidden={silent}
    >
      <title>{words[shape]}</title>
      <Shape shape={shape} />
      {initials && (shape === "released" || shape === "released under exception") && (
        <text x="20" y="25" className="ring-initials">
          {initials}
        </text>
      )}
    </svg>
  );
}

const slug = (shape: RingShape) => shape.replaceAll(" ", "-");

function Shape({ shape }: { readonly shape: RingShape }) {
  switch (shape) {
    case "locked":
      return (
        <>
          <rect x="6" y="12" width="28" height="16" rx="8" className="ring-line" />
          <path d="M20 5v30" className="ring-bar" />
        </>
      );
    case "ready":
      return <circle cx="20" cy="20" r="14" className="ring-line" />;
    case "released":
      return <circle cx="20" cy="20" r="16" className="ring-fill" />;
    case "released under exception":
      return <path d="M20 4A16 16 0 1 0 36 20H26L20 14z" className="ring-fill" />;
    case "voided":
      return (
        <path
          d="M14 7.5A14 14 0 0 1 33 25M26 32.5A14 14 0 0 1 7 15M10 30l20-20"
          className="ring-line"
        />
      );
    case "fails":
      return (
        <>
          <circle cx="20" cy="20" r="14" className="ring-line" />
          <path d="M12 12l16 16M28 12L12 28" className="ring-bar" />
        </>
      );
    case "missing":
      return <circle cx="20" cy="20" r="14" className="ring-line ring-dashed" />;
    case "ask":
      return (
        <>
          <circle cx="20" cy="20" r="14" className="ring-line" />
          <circle cx="20" cy="20" r="4" className="ring-fill" />
        </>
      );
  }
}

/** Two letters of a name, for the filled ring. */
export function initialsOf(name: string): string {
  const parts = name.split(/[\s.]+/).filter(Boolean);
  return `${parts[0]?.[0] ?? ""}${parts.length > 1 ? (parts.at(-1)?.[0] ?? "") : ""}`.toUpperCase();
}
