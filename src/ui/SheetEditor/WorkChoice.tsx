import type { SheetWanted } from "../../jobs/records/job.ts";
import type { Mandrel } from "../../jobs/records/well.ts";
import { type Work, works } from "../../jobs/sheet/changeOut/options.ts";

interface WorkChoiceProps {
  readonly wanted: SheetWanted;
  /** of the mandrel at work; undefined when none is chosen */
  readonly sleeve: Mandrel["orientingSleeve"] | undefined;
  readonly onChange: (to: Partial<SheetWanted>) => void;
}

export const workNames: Readonly<Record<Work, string>> = {
  "change out": "Change out: one valve for another",
  "pull and dummy off": "Pull the valve, blank the pocket with a dummy",
  "set into an empty pocket": "Set into an empty pocket",
};

const sleeves: Readonly<Record<Mandrel["orientingSleeve"], string>> = {
  yes: "By its record the mandrel turns the tool: the words are for an orienting kickover tool.",
  no: "By its record the mandrel does not turn the tool: the words are for work by depth and feel.",
  "not known": "Whether the mandrel turns the tool is not known. Ask, and mend the well's record.",
};

/** What the job does, and whether it sets a catcher. The kind of mandrel is on record and not asked. */
export function WorkChoice({ wanted, sleeve, onChange }: WorkChoiceProps) {
  return (
    <fieldset className="card sheet-work">
      <legend>What the job does</legend>
      {works.map((work) => (
        <label key={work}>
          <input
            type="radio"
            name="work"
            value={work}
            checked={wanted.work === work}
            onChange={() => onChange({ work })}
          />
          <span>{workNames[work]}</span>
        </label>
      ))}
      <label>
        <input
          type="checkbox"
          name="catcher"
          checked={wanted.catcher}
          onChange={(event) => onChange({ catcher: event.target.checked })}
        />
        <span>With a catcher below the lowest pocket, set first and taken out last</span>
      </label>
      <p className="small soft">{sleeve ? sleeves[sleeve] : "No mandrel is chosen yet."}</p>
    </fieldset>
  );
}
