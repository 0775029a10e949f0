import { useEffect, useRef } from "react";
import type { ItemState, Progress } from "../../jobs/state/progress.ts";
import { initialsOf, Ring } from "../Ring/Ring.tsx";
import "./Spine.css";

interface SpineProps {
  readonly progress: Progress;
  readonly viewed: string | undefined;
  readonly onView: (id: string) => void;
}

/** The sheet from top to bottom: a tick for each step, a knot for each hold point, where we are in ember. */
export function Spine({ progress, viewed, onView }: SpineProps) {
  const here = useRef<HTMLButtonElement>(null);
  const { current, items } = progress;
  const phases = [...new Set(items.map((item) => item.phase))];
  const open = items.find((item) => item.id === viewed)?.phase ?? current?.phase;
  // biome-ignore lint/correctness/useExhaustiveDependencies: scrolls when another item is looked at
  useEffect(() => {
    here.current?.scrollIntoView({ block: "nearest" });
  }, [viewed]);
  return (
    <nav className="spine" aria-label="Run sheet">
      <ol>
        {phases.map((phase) => {
          const own = items.filter((item) => item.phase === phase);
          const done = own.filter((item) => item.complete).length;
          return (
            <li key={phase.id} className="spine-phase">
              {phase === open ? (
                <>
                  <p className="spine-title">{phase.title}</p>
                  <ol>
                    {own.map((item) => (
                      <li key={item.id}>
                        <button
                          type="button"
                          ref={item.id === viewed ? here : null}
                          className={`spine-item${item.id === viewed ? " viewed" : ""}${item === current ? " current" : ""}`}
                          aria-current={item === current ? "step" : undefined}
                          onClick={() => onView(item.id)}
                        >
                          <Mark item={item} isCurrent={item === current} />
                          <span>
                            {item.type === "hold" ? item.hold.hold.title : item.step.title}
                          </span>
                        </button>
                      </li>
                    ))}
                  </ol>
                </>
              ) : (
                <button
                  type="button"
                  className="spine-title spine-closed"
                  onClick={() => onView(own.find((item) => !item.complete)?.id ?? own[0]?.id ?? "")}
                >
                  <span>{phase.title}</span>
                  <span className="spine-count">
                    {done === own.length ? "done" : `${done} of ${own.length}`}
                  </span>
                </button>
              )}
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

function Mark({ item, isCurrent }: { readonly item: ItemState; readonly isCurrent: boolean }) {
  if (item.type === "hold") {
    const { release, status } = item.hold;
    return (
      <Ring shape={status} initials={release && initialsOf(release.event.actor.name)} size={28} />
    );
  }
  return (
    <svg viewBox="0 0 28 28" width="28" height="28" className="spine-mark" role="img">
      <title>{item.status === "open" ? (isCurrent ? "next" : "open") : item.status}</title>
      {item.status === "done" && <path d="M6 15l5 6L22 8" className="ring-line" />}
      {item.status === "left out" && <path d="M6 14h16" className="ring-line" />}
      {item.status === "open" && (
        <circle
          cx="14"
          cy="14"
          r={isCurrent ? 8 : 4}
          className={isCurrent ? "ring-fill" : "spine-dot"}
        />
      )}
    </svg>
  );
}
