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
  /** between which somebody may choose; the label names the unit where there is no choice */
  readonly units?: readonly string[];
  readonly problem?: string | undefined;
  readonly className: string;
  readonly onChange: (typed: TypedQuantity) => void;
}

/** A number with its unit in the label, and what is wrong with it below. */
export function QuantityField(props: QuantityFieldProps) {
  const { label, typed, unit, units, problem, className, onChange } = props;
  const id = useId();
  const shown = typed.text === "" && !units ? unit : typed.unit;
  const input = (
    <input
      id={id}
      inputMode="decimal"
      autoComplete="off"
      value={typed.text}
      aria-invalid={problem !== undefined}
      aria-describedby={problem ? `${id}-problem` : undefined}
      onChange={(event) => onChange({ text: event.target.value, unit: shown })}
    />
  );
  return (
    <div className={className}>
      <label htmlFor={id}>
        {label}
        {units ? "" : `, ${unitLabel(shown)}`}
      </label>
      {units ? (
        <div className="quantity-with-unit">
          {input}
          <select
            aria-label={`Unit of ${label}`}
            value={shown}
            onChange={(event) => onChange({ text: typed.text, unit: event.target.value })}
          >
            {units.map((each) => (
              <option key={each} value={each}>
                {unitLabel(each)}
              </option>
            ))}
          </select>
        </div>
      ) : (
        input
      )}
      {problem && (
        <p id={`${id}-problem`} className="problem small">
          {problem}
        </p>
      )}
    </div>
  );
}
