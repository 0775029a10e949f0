import { type FormEvent, useState } from "react";
import { cannotLock, type LockedPack, openLocked } from "../../jobs/pack/locked.ts";
import type { Pack } from "../../jobs/pack/pack.ts";
import { PassphraseField } from "./PassphraseField.tsx";

interface OpenLockedProps {
  readonly file: string;
  readonly locked: LockedPack;
  readonly onOpened: (pack: Pack) => Promise<void>;
}

/** Asks for the passphrase of a locked pack; what was typed stays until it opens. */
export function OpenLocked({ file, locked, onOpened }: OpenLockedProps) {
  const [typed, setTyped] = useState("");
  const [shown, setShown] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState(cannotLock(crypto) ?? "");

  const open = async (event: FormEvent) => {
    event.preventDefault();
    setBusy(true);
    setProblem("");
    try {
      const read = await openLocked(locked, typed, crypto);
      if (read.ok) await onOpened(read.pack);
      else setProblem(read.why);
    } catch (error) {
      setProblem(`It could not be opened: ${(error as Error).message}.`);
    }
    setBusy(false);
  };

  return (
    <form className="pack-lock" onSubmit={(event) => void open(event)}>
      <p className="pack-wrap">{file} is locked with a passphrase. Whoever made it knows it.</p>
      <PassphraseField label="Passphrase" value={typed} shown={shown} onChange={setTyped} />
      <label className="pack-check">
        <input
          type="checkbox"
          checked={shown}
          onChange={(event) => setShown(event.target.checked)}
        />
        Show what is typed
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="row">
        <button
          type="submit"
          className="button next"
          disabled={busy || typed === "" || cannotLock(crypto) !== undefined}
        >
          {busy ? "Opening…" : "Open the pack"}
        </button>
      </div>
    </form>
  );
}
