interface PassphraseFieldProps {
  readonly label: string;
  readonly value: string;
  readonly shown: boolean;
  readonly onChange: (value: string) => void;
}

/** A passphrase as it is typed: no browser is asked to keep, complete or mend it. */
export function PassphraseField({ label, value, shown, onChange }: PassphraseFieldProps) {
  return (
    <label>
      {label}
      <input
        type={shown ? "text" : "password"}
        autoComplete="off"
        autoCapitalize="none"
        autoCorrect="off"
        spellCheck={false}
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
  );
}
