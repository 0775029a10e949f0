import { differences } from "../../jobs/sheet/differences.ts";
import { workInWords } from "../../jobs/workInWords.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import type { PlannedJob } from "../usePlannedJob.ts";
import type { SheetInHand } from "./useSheetDraft.ts";

const PLACE = "sheet-overtaken";

/** Brings the choice on the screen, also where it was scrolled away. */
export function toOvertaken(): void {
  const place = document.getElementById(PLACE);
  place?.scrollIntoView({ block: "center" });
  place?.querySelector("button")?.focus({ preventScroll: true });
}

interface OvertakenProps {
  readonly live: PlannedJob;
  readonly draft: SheetInHand;
  readonly onTaken: () => void;
  readonly onPutBack: () => void;
}

/** Somebody saved the job under changes that are not saved: whose sheet it is to be is for a person to say. */
export function Overtaken({ live, draft, onTaken, onPutBack }: OvertakenProps) {
  const take = () => {
    draft.takeOntoSaved();
    onTaken();
  };
  return (
    <section className="card sheet-overtaken" id={PLACE} aria-labelledby={`${PLACE}-title`}>
      <h2 id={`${PLACE}-title`}>Saved by somebody else meanwhile</h2>
      {draft.overtaken === "the job" ? (
        <>
          <p role="alert">
            Somebody saved this job since you began, with the run sheet as it was. Your changes are
            kept and fit onto it; they are not saved yet.
          </p>
          <button type="button" className="button" onClick={take}>
            Put my changes onto it
          </button>
        </>
      ) : (
        <>
          <p role="alert">
            Somebody saved another run sheet for this job since you began. Yours is kept and not
            saved. Theirs:
          </p>
          <ul>
            {inWords(live).map((says) => (
              <li key={says}>{says}</li>
            ))}
          </ul>
          <HoldButton
            label="Mine in place of theirs"
            consequence="Once you save, what they changed of the run sheet is gone."
            aside
            onHeld={take}
          />
        </>
      )}
      <HoldButton
        label="Put back as saved"
        consequence="Your changes are gone; theirs stand."
        aside
        onHeld={onPutBack}
      />
    </section>
  );
}

/** The run sheet as it is saved. */
function inWords({ draft, record }: PlannedJob): string[] {
  const changed = differences(record, draft.well);
  return [
    ...workInWords(draft).map((work) => `${work}.`),
    ...(changed.length > 0 ? changed : ["No step left out, moved or added."]),
  ];
}
