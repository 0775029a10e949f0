import { type ComponentType, useState } from "react";
import type { PackOf } from "../../jobs/pack/prepared.ts";
import type { HandOverProps } from "./HandOverDialog.tsx";

/** One file with everything another tablet needs for this job, its log and pictures included. */
export function SavePack({ job, next }: { readonly job: string; readonly next?: boolean }) {
  return <HandOverButton of={{ job }} label="Save a pack" next={next} />;
}

/** The same for all the jobs of a day, with the day's own record. */
export function SaveDay({ day }: { readonly day: string }) {
  return <HandOverButton of={{ day }} label="Save the day's pack" />;
}

interface HandOverButtonProps {
  readonly of: PackOf;
  readonly label: string;
  /** it is what comes next */
  readonly next?: boolean | undefined;
}

function HandOverButton({ of, label, next }: HandOverButtonProps) {
  const [Dialog, setDialog] = useState<ComponentType<HandOverProps>>();
  const [problem, setProblem] = useState("");
  // What makes packs is not on a run sheet's path: it comes when it is wanted.
  const open = () =>
    import("./HandOverDialog.tsx").then(
      (loaded) => {
        setProblem("");
        setDialog(() => loaded.HandOverDialog);
      },
      (error: Error) => setProblem(`The pack could not be made: ${error.message}.`),
    );
  return (
    <>
      <button type="button" className={next ? "button next" : "button"} onClick={() => void open()}>
        {label}
      </button>
      {problem && (
        <span className="problem" role="alert">
          {problem}
        </span>
      )}
      {Dialog && <Dialog of={of} onClose={() => setDialog(undefined)} />}
    </>
  );
}
