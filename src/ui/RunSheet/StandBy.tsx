import { useEffect, useRef } from "react";
import type { Doubt } from "../../jobs/commands/decision.ts";
import { ReasonInput } from "./ReasonInput.tsx";

/** Under which the reason for being over a limit is half typed, beside what it is about. */
export const OVER_LIMIT = "over the limit";

interface StandByProps {
  readonly doubts: readonly Doubt[];
  readonly saving: boolean;
  readonly reason: string;
  readonly onReason: (reason: string) => void;
  readonly onStandBy: (reason: string) => void;
}

/** Something unlikely or over a limit: looked at again, it is recorded as typed, with a reason where one is asked. */
export function StandBy({ doubts, saving, reason, onReason, onStandBy }: StandByProps) {
  const section = useRef<HTMLElement>(null);
  useEffect(() => {
    section.current?.scrollIntoView({ block: "center" });
  }, []);
  return (
    <section className="stand-by" role="alert" ref={section}>
      {doubts.map((doubt) => (
        <p key={doubt.says} className="problem">
          {doubt.says}
        </p>
      ))}
      {doubts.some((doubt) => doubt.needsReason) && (
        <ReasonInput
          label={doubts.find(({ asks }) => asks)?.asks ?? "Over the limit: why?"}
          reason={reason}
          onChange={onReason}
        />
      )}
      <button
        type="button"
        className="button step-again"
        disabled={saving}
        onClick={() => onStandBy(reason)}
      >
        It is right, record it as typed
      </button>
      <p>It is wrong: correct it above.</p>
    </section>
  );
}
