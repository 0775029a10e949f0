import { useId } from "react";
import "./OneOf.css";

interface OneOfProps<T extends string> {
  /** what is chosen, for those who do not see it */
  readonly legend: string;
  readonly options: readonly { readonly value: T; readonly says: string }[];
  readonly chosen: string;
  readonly onChoose: (value: T) => void;
}

/** One of a few, each a target for a glove. */
export function OneOf<T extends string>({ legend, options, chosen, onChoose }: OneOfProps<T>) {
  const name = useId();
  return (
    <fieldset className="one-of">
      <legend className="hidden-label">{legend}</legend>
      {options.map(({ value, says }) => (
        <label key={value}>
          <input
            type="radio"
            className="round-mark"
            name={name}
            checked={value === chosen}
            onChange={() => onChoose(value)}
          />
          {says}
        </label>
      ))}
    </fieldset>
  );
}
