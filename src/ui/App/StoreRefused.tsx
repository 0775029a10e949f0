/** Nothing is entered into a tablet that keeps nothing. */
export function StoreRefused({ error }: { readonly error: unknown }) {
  return (
    <main className="page">
      <h1>This browser keeps nothing</h1>
      <p>
        Latchline needs the browser's storage and was refused it ({String(error)}). A private window
        or a full disk does that. Open Latchline in a normal window, or make room, then reload.
      </p>
      <button type="button" className="button next" onClick={() => location.reload()}>
        Reload
      </button>
    </main>
  );
}
