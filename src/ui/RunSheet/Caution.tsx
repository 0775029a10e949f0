import type { ReactNode } from "react";

/** The usual caution, with a shape of its own. */
export function Caution({ children }: { readonly children: ReactNode }) {
  return (
    <p className="caution step-caution">
      <svg viewBox="0 0 40 36" width="40" height="36" aria-hidden="true">
        <path d="M20 3L38 33H2z" className="ring-line" />
        <path d="M20 13v10M20 26v4" className="ring-bar" />
      </svg>
      <span>
        <span className="hidden-label">Caution: </span>
        {children}
      </span>
    </p>
  );
}
