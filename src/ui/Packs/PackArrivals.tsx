import { lazy, Suspense, useEffect, useState } from "react";
import { mustBeInstalledFirst } from "../offline/installFirst.ts";
import { arrive, arriveInstead, leave, takeLaunched, useArrivals } from "./arrivals.ts";
import { takeShared } from "./sharedPack.ts";
import "./Packs.css";

const PackDialog = lazy(() => import("./PackDialog.tsx"));

interface PackArrivalsProps {
  /** a person wants to choose a file */
  readonly importing: boolean;
  readonly onImporting: (importing: boolean) => void;
}

/** Every way in for a pack, chosen, dropped, opened or shared; all of them end in the one dialog. */
export function PackArrivals(props: PackArrivalsProps) {
  // A tab that may not take a job takes no pack either.
  return mustBeInstalledFirst() ? null : <Arrivals {...props} />;
}

function Arrivals({ importing, onImporting }: PackArrivalsProps) {
  const [given] = useArrivals();
  const [problem, setProblem] = useState("");
  const hovering = useDrop();
  useEffect(() => {
    takeLaunched(setProblem);
    takeShared().then(arrive, (error: Error) =>
      setProblem(`The pack that was shared could not be read: ${error.message}. Import it here.`),
    );
    const shared = new URLSearchParams(location.search).get("shared");
    if (shared) history.replaceState(history.state, "", location.pathname);
    if (shared === "failed") {
      setProblem(
        "What was shared could not be kept on this tablet. Make room, then share it again, or import the file here.",
      );
    }
    if (shared === "nothing")
      setProblem("No file came with what was shared. Share the pack itself.");
  }, []);
  const close = () => {
    onImporting(false);
    if (given) leave();
  };
  return (
    <>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {hovering && <p className="pack-drop">Let the pack go here: you see what is in it first.</p>}
      {(importing || given) && (
        <Suspense>
          <PackDialog given={given} onClose={close} />
        </Suspense>
      )}
    </>
  );
}

/** Takes files that are dropped anywhere in the window. @returns whether some hover over it */
function useDrop(): boolean {
  const [hovering, setHovering] = useState(false);
  useEffect(() => {
    const hover = (event: DragEvent) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      setHovering(true);
    };
    const gone = (event: DragEvent) => {
      if (event.relatedTarget === null) setHovering(false);
    };
    const drop = (event: DragEvent) => {
      setHovering(false);
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      arriveInstead(files);
    };
    window.addEventListener("dragover", hover);
    window.addEventListener("dragleave", gone);
    window.addEventListener("drop", drop);
    return () => {
      window.removeEventListener("dragover", hover);
      window.removeEventListener("dragleave", gone);
      window.removeEventListener("drop", drop);
    };
  }, []);
  return hovering;
}
