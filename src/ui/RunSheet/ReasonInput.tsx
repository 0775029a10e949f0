interface ReasonInputProps {
  readonly label: string;
  readonly reason: string;
  /** the usual ones, to be tapped in place of typing with gloves */
  readonly usual?: readonly string[];
  readonly onChange: (reason: string) => void;
}

/** A reason in words, typed or tapped. */
export function ReasonInput({ label, reason, usual = [], onChange }: ReasonInputProps) {
  return (
    <>
      <label>
        {label}
        <input
          className="entry-text"
          value={reason}
          onChange={(event) => onChange(event.target.value)}
        />
      </label>
      {reason === "" && usual.length > 0 && (
        <div className="entry-offers">
          {usual.map((each) => (
            <button
              key={each}
              type="button"
              className="button entry-offer"
              onClick={() => onChange(each)}
            >
              {each}
            </button>
          ))}
        </div>
      )}
    </>
  );
}
