import type { FallbackProps } from "react-error-boundary";

/** A fault of the app: what was recorded is in the store, and the way back is short. */
export function Fault({ error }: Pick<FallbackProps, "error">) {
  return (
    <main className="page">
      <h1>A fault of the app</h1>
      <p role="alert">
        This screen could not be shown ({String(error)}). What was recorded is kept, and so is what
        was half typed. If it comes again, work on paper and report these words.
      </p>
      <div className="row">
        <button type="button" className="button next" onClick={() => location.reload()}>
          Reload
        </button>
        <a href="/" className="button">
          To the board
        </a>
      </div>
    </main>
  );
}
