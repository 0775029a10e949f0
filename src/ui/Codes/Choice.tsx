interface ChoiceProps {
  readonly name: string;
  readonly label: string;
  readonly isChosen: boolean;
  readonly onChoose: () => void;
}

/** One of a few, each large enough for a thumb. */
export function Choice({ name, label, isChosen, onChoose }: ChoiceProps) {
  return (
    <label className="codes-option">
      <input type="radio" name={name} checked={isChosen} onChange={onChoose} />
      <span>{label}</span>
    </label>
  );
}
