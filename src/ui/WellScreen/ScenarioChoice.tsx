import { useId, useState } from "react";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { displayUnit, type Writer } from "../../jobs/display.ts";
import type { Quantity } from "../../jobs/quantity.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { Scenario } from "../../jobs/results/context.ts";
import { QuantityField, type TypedQuantity } from "../QuantityField.tsx";

interface ScenarioChoiceProps {
  readonly well: Well;
  /** the jobs of this well, and the one whose pocket is looked at */
  readonly jobs: readonly Job[];
  readonly job: string | undefined;
  readonly onJob: (id: string) => void;
  /** serial of the valve that the job puts in */
  readonly replacement: string | undefined;
  readonly writer: Writer;
  readonly scenario: Scenario;
  readonly onChange: (scenario: Scenario) => void;
}

/** Which well on lift is looked at: as planned or as last found, with which valve, at which surface pressures. */
export function ScenarioChoice(props: ScenarioChoiceProps) {
  const { well, jobs, job, onJob, replacement, writer, scenario, onChange } = props;
  const typed = (key: "injectionAtSurface" | "wellhead", quantity?: Quantity<"pressure">) => {
    const { [key]: _, ...rest } = scenario;
    onChange(quantity ? { ...rest, [key]: quantity } : rest);
  };
  return (
    <div className="scenario">
      <Choice
        legend="The well on lift"
        choices={[
          ["as planned", "As planned"],
          [
            "as found",
            well.lastFound ? `As found ${well.lastFound.day}` : "As found: nothing on record",
          ],
        ]}
        chosen={scenario.lift}
        barred={well.lastFound ? [] : ["as found"]}
        onChoose={(lift) => onChange({ ...scenario, lift })}
      />
      {jobs.length > 1 && job !== undefined && (
        <Choice
          legend="The job looked at"
          choices={jobs.map((each) => [each.id, `Job of ${each.day}`] as const)}
          chosen={job}
          barred={[]}
          onChoose={onJob}
        />
      )}
      {replacement !== undefined && (
        <Choice
          legend="In the pocket at work"
          choices={[
            ["as installed", "The valve there now"],
            ["with the replacement", replacement],
          ]}
          chosen={scenario.pocket}
          barred={[]}
          onChoose={(pocket) => onChange({ ...scenario, pocket })}
        />
      )}
      <AskedPressure
        label="Injection at surface, if another"
        writer={writer}
        onChange={(quantity) => typed("injectionAtSurface", quantity)}
      />
      <AskedPressure
        label="Wellhead, if another"
        writer={writer}
        onChange={(quantity) => typed("wellhead", quantity)}
      />
    </div>
  );
}

interface ChoiceProps<T extends string> {
  readonly legend: string;
  readonly choices: readonly (readonly [T, string])[];
  readonly chosen: T;
  readonly barred: readonly T[];
  readonly onChoose: (choice: T) => void;
}

function Choice<T extends string>({ legend, choices, chosen, barred, onChoose }: ChoiceProps<T>) {
  const name = useId();
  return (
    <fieldset className="scenario-choice">
      <legend>{legend}</legend>
      {choices.map(([value, label]) => (
        <label key={value}>
          <input
            type="radio"
            className="round-mark"
            name={name}
            checked={value === chosen}
            disabled={barred.includes(value)}
            onChange={() => onChoose(value)}
          />
          {label}
        </label>
      ))}
    </fieldset>
  );
}

interface AskedPressureProps {
  readonly label: string;
  readonly writer: Writer;
  readonly onChange: (quantity: Quantity<"pressure"> | undefined) => void;
}

/**
 * A surface pressure to ask about. Nothing of it is kept: the well's record stays as it is, and what is not
 * understood asks for nothing.
 */
function AskedPressure({ label, writer, onChange }: AskedPressureProps) {
  const unit = displayUnit(writer.system, "pressure");
  const [typed, setTyped] = useState<TypedQuantity>({ text: "", unit });
  const read =
    typed.text.trim() === ""
      ? undefined
      : understandQuantity(label, "pressure", typed, writer.atmosphere);
  return (
    <QuantityField
      className="scenario-pressure"
      label={label}
      unit={unit}
      typed={typed}
      problem={read && !read.ok ? `${read.why} The record's pressure stands.` : undefined}
      onChange={(next) => {
        setTyped(next);
        const asked = understandQuantity(label, "pressure", next, writer.atmosphere);
        onChange(asked.ok ? asked.quantity : undefined);
      }}
    />
  );
}
