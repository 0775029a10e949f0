import "./Keypad.css";

interface KeypadProps {
  readonly label: string;
  readonly text: string;
  /** whole numbers without a sign */
  readonly isCount: boolean;
  readonly onText: (text: string) => void;
  readonly nextLabel: string;
  readonly onNext: () => void;
  readonly onClose: () => void;
}

const digits = ["7", "8", "9", "4", "5", "6", "1", "2", "3"] as const;

/** Our own number keys, large enough for gloves, so that the system's keyboard does not hide the step. */
export function Keypad(props: KeypadProps) {
  const { label, text, isCount, onText, nextLabel, onNext, onClose } = props;
  const keys = isCount ? [...digits, "0"] : [...digits, "±", "0", "."];
  const press = (key: string) => {
    if (key === "±") onText(text.startsWith("-") ? text.slice(1) : `-${text}`);
    else if (key === ".") onText(text.includes(".") ? text : `${text || "0"}.`);
    else onText(text + key);
  };
  return (
    <section
      className="keypad"
      aria-label={`Number keys for ${label}`}
      // Keeps the focus, and with it the caret, in the field.
      onPointerDown={(event) => event.preventDefault()}
    >
      <header className="keypad-head">
        <span className="keypad-label">{label}</span>
        <button type="button" className="key small-key" onClick={onClose}>
          Close keys
        </button>
      </header>
      <div className={`keys${isCount ? " counting" : ""}`}>
        {keys.map((key) => (
          <button
            key={key}
            type="button"
            className="key"
            aria-label={key === "±" ? "change sign" : key === "." ? "point" : key}
            onClick={() => press(key)}
          >
            {key}
          </button>
        ))}
      </div>
      <div className="keypad-foot">
        <button
          type="button"
          className="key"
          aria-label="delete last"
          onClick={() => onText(text.slice(0, -1))}
        >
          ⌫
        </button>
        <button type="button" className="key next-key" onClick={onNext}>
          {nextLabel}
        </button>
      </div>
    </section>
  );
}
