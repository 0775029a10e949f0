import { useState } from "react";
import { opened } from "../../jobs/diagnosis/changeInvestigation.ts";
import { piecesInWords } from "../../jobs/diagnosis/inWords.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useSettings } from "../settings.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";

interface EndsProps {
  readonly investigation: Investigation;
  readonly well: Well;
}

/** A new look at the well, and the end of one that was opened in error. */
export function Ends({ investigation, well }: EndsProps) {
  const store = useStore();
  const { actor } = useSettings();
  // One id, so that two quick taps begin one investigation.
  const [fresh] = useState(() => crypto.randomUUID());
  const [problem, setProblem] = useState("");
  const tried = async (work: () => Promise<unknown>) => {
    try {
      await work();
      setProblem("");
    } catch (error) {
      setProblem(notSaved(error));
    }
  };
  const begin = () => {
    if (!actor) {
      setProblem("Say first who holds this tablet: the name goes on the investigation.");
      return;
    }
    const at = new Date().toISOString();
    void tried(() => store.put("investigations", opened(fresh, well.id, "", actor, at)));
  };
  return (
    <details className="fault-ends">
      <summary>Look anew, or take this investigation away</summary>
      <p>
        A new investigation begins without evidence. This one is kept, with what was agreed, below
        it.
      </p>
      <button type="button" className="button" onClick={begin}>
        Begin a new investigation
      </button>
      {investigation.agreed?.job === undefined && (
        <HoldButton
          label="Take this investigation away"
          consequence={`With it: ${piecesInWords(investigation.evidence.length)}. Nothing else changes.`}
          aside
          onHeld={() => void tried(() => store.remove({ investigations: [investigation.id] }))}
        />
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </details>
  );
}
