import { useId } from "react";
import { focus, pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import "./PocketChoice.css";

interface PocketChoiceProps {
  readonly programme: Programme;
  /** mandrel, by its id */
  readonly chosen: string;
  readonly onChoose: (pocket: string) => void;
}

/** Whose pocket the figures below are of; nothing to choose where a job works on one. */
export function PocketChoice({ programme, chosen, onChoose }: PocketChoiceProps) {
  const name = useId();
  const pockets = pocketsOf(programme.job);
  if (pockets.length < 2) return null;
  return (
    <fieldset className="pocket-choice">
      <legend className="hidden-label">The pocket that the figures are of</legend>
      {pockets.map((pocket) => (
        <label key={pocket}>
          <input
            type="radio"
            name={name}
            checked={pocket === chosen}
            onChange={() => onChoose(pocket)}
          />
          Mandrel {targetMandrel(focus(programme, pocket))?.number ?? "?"}
        </label>
      ))}
    </fieldset>
  );
}
