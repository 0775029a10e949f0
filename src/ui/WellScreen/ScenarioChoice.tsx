import { useId, useState } from "react";
import { understandQuantity } from "../../jobs/commands/entry.ts";
import { displayUnit, type Writer } from "../../jobs/display.ts";
import type { Quantity } from "../../jobs/quantity.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { Scenario } from "../../jobs/results/context.ts";
import { unitLabel } from "../Working/unitLabel.ts";

interface ScenarioChoiceProps {
  readonly well: Well;
  /** serial of the valve that a job puts in */
  readonly replacement: string | undefined;
  readonly writer: Writer;
  readonly scenario: Scenario;
  readonly onChange: (scenario: Scenario) => void;
}

/** Which well on lift is looked at: as planned or as last found, with which valve, at which surface pressures. */
export function ScenarioChoice(props: ScenarioChoiceProps) {
  const { well, replacement, writer, scenario, onChange } = props;
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

/** A surface pressure to ask about. Nothing of it is kept: the well's record stays as it is. */
function AskedPressure({ label, writer, onChange }: AskedPressureProps) {
  const id = useId();
  const [text, setText] = useState("");
  const [problem, setProblem] = useState("");
  const unit = displayUnit(writer.system, "pressure");
  const change = (next: string) => {
    setText(next);
    if (next.trim() === "") {
      setProblem("");
      onChange(undefined);
      return;
    }
    const read = understandQuantity(label, "pressure", { text: next, unit }, writer.atmosphere);
    setProblem(read.ok ? "" : read.why);
    if (read.ok) onChange(read.quantity);
  };
  return (
    <div className="scenario-pressure">
      <label htmlFor={id}>
        {label}, {unitLabel(unit)}
      </label>
      <input
        id={id}
        inputMode="decimal"
        autoComplete="off"
        value={text}
        aria-invalid={problem !== ""}
        aria-describedby={problem ? `${id}-problem` : undefined}
        onChange={(event) => change(event.target.value)}
      />
      {problem && (
        <p id={`${id}-problem`} className="problem small">
          {problem}
        </p>
      )}
    </div>
  );
}
