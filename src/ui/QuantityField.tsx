import { useId } from "react";
import { unitLabel } from "../jobs/display.ts";

/** A number while it is typed, with the unit it was begun in. */
export interface TypedQuantity {
  readonly text: string;
  readonly unit: string;
}

interface QuantityFieldProps {
  readonly label: string;
  readonly typed: TypedQuantity;
  /** the unit of the tablet; it holds as long as nothing is typed, so that no number changes its unit */
  readonly unit: string;
  readonly problem?: string | undefined;
  readonly className: string;
  readonly onChange: (typed: TypedQuantity) => void;
}

/** A number with its unit in the label, and what is wrong with it below. */
export function QuantityField(props: QuantityFieldProps) {
  const { label, typed, unit, problem, className, onChange } = props;
  const id = useId();
  const shown = typed.text === "" ? unit : typed.unit;
  return (
    <div className={className}>
      <label htmlFor={id}>
        {label}, {unitLabel(shown)}
      </label>
      <input
        id={id}
        inputMode="decimal"
        autoComplete="off"
        value={typed.text}
        aria-invalid={problem !== undefined}
        aria-describedby={problem ? `${id}-problem` : undefined}
        onChange={(event) => onChange({ text: event.target.value, unit: shown })}
      />
      {problem && (
        <p id={`${id}-problem`} className="problem small">
          {problem}
        </p>
      )}
    </div>
  );
}
