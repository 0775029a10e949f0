import { focus, pocketsOf } from "../../jobs/pockets.ts";
import { targetMandrel } from "../../jobs/programme.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import { OneOf } from "../OneOf/OneOf.tsx";

interface PocketChoiceProps {
  readonly programme: Programme;
  /** mandrel, by its id */
  readonly chosen: string;
  readonly onChoose: (pocket: string) => void;
}

/** Whose pocket the figures below are of; nothing to choose where a job works on one. */
export function PocketChoice({ programme, chosen, onChoose }: PocketChoiceProps) {
  const pockets = pocketsOf(programme.job);
  if (pockets.length < 2) return null;
  return (
    <OneOf
      legend="The pocket that the figures are of"
      options={pockets.map((pocket) => ({
        value: pocket,
        says: `Mandrel ${targetMandrel(focus(programme, pocket))?.number ?? "?"}`,
      }))}
      chosen={chosen}
      onChoose={onChoose}
    />
  );
}
