import { type FormEvent, useId, useState } from "react";
import { cannotLock, lock, passphraseProblem } from "../../jobs/pack/locked.ts";
import { PassphraseField } from "./PassphraseField.tsx";

interface LockFieldsProps {
  /** of the pack, as it is without a lock */
  readonly text: string;
  readonly locking: boolean;
  readonly locked: boolean;
  readonly onLocking: (wants: boolean) => void;
  readonly onLocked: (text: string) => void;
}

/** Whether the file is locked, and the passphrase, typed twice: it is in these two fields and nowhere else. */
export function LockFields({ text, locking, locked, onLocking, onLocked }: LockFieldsProps) {
  const id = useId();
  const [first, setFirst] = useState("");
  const [again, setAgain] = useState("");
  const [shown, setShown] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const without = cannotLock(crypto);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    event.stopPropagation();
    const fault = passphraseProblem(first, again);
    setProblem(fault ?? "");
    if (fault) return;
    setBusy(true);
    try {
      onLocked(await lock(text, first, crypto));
      setFirst("");
      setAgain("");
      setShown(false);
    } catch (error) {
      setProblem(`The pack could not be locked: ${(error as Error).message}.`);
    }
    setBusy(false);
  };

  return (
    <div className="pack-lock">
      <label className="pack-check" htmlFor={`${id}-lock`}>
        <input
          id={`${id}-lock`}
          type="checkbox"
          checked={locking}
          disabled={without !== undefined || busy}
          onChange={(event) => onLocking(event.target.checked)}
        />
        Lock it with a passphrase
      </label>
      {without && <p className="small">{without}</p>}
      {!without && !locking && (
        <p className="small soft">Not locked: whoever has the file can read it.</p>
      )}
      {locked && (
        <p role="status">
          Locked. Whoever opens it has to type the passphrase: tell it apart from the file.
        </p>
      )}
      {locking && !locked && (
        <form className="pack-lock" onSubmit={(event) => void submit(event)}>
          <PassphraseField label="Passphrase" value={first} shown={shown} onChange={setFirst} />
          <PassphraseField
            label="Passphrase once more"
            value={again}
            shown={shown}
            onChange={setAgain}
          />
          <label className="pack-check" htmlFor={`${id}-show`}>
            <input
              id={`${id}-show`}
              type="checkbox"
              checked={shown}
              onChange={(event) => setShown(event.target.checked)}
            />
            Show what is typed
          </label>
          <p className="caution">
            <span aria-hidden="true">!</span>
            <span>
              Latchline keeps the passphrase nowhere. Lost, it cannot be recovered, and nobody can
              open the file any more.
            </span>
          </p>
          {problem && (
            <p className="problem" role="alert">
              {problem}
            </p>
          )}
          <div className="row">
            <button type="submit" className="button next" disabled={busy}>
              {busy ? "Locking…" : "Lock the pack"}
            </button>
          </div>
        </form>
      )}
    </div>
  );
}
