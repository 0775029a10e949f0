import { useMemo } from "react";
import type { Grain } from "../../jobs/codes/cut.ts";
import { darkPath, modulesOf } from "../../jobs/codes/drawnCode.ts";

interface CodeProps {
  readonly frame: string;
  readonly grain: Grain;
  readonly label: string;
}

/** One code, black on white whatever the skin: a camera has no other. */
export function Code({ frame, grain, label }: CodeProps) {
  const { side, path } = useMemo(() => {
    const modules = modulesOf(frame, grain);
    return { side: modules.length, path: darkPath(modules) };
  }, [frame, grain]);
  return (
    <svg className="code" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={label}>
      <rect className="code-light" width={side} height={side} />
      <path className="code-dark" d={path} />
    </svg>
  );
}
