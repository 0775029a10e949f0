import { StoreFailed } from "../../jobs/store/store.ts";
import { acceptNewVersion, useAppState } from "../offline/updates.ts";

/** Nothing is entered into a tablet that keeps nothing. */
export function StoreRefused({ error }: { readonly error: unknown }) {
  if (error instanceof StoreFailed && error.because === "newer version") return <TooOld />;
  return (
    <main className="page">
      <h1>This browser keeps nothing</h1>
      <p>
        Latchline needs the browser's storage and was refused it ({String(error)}). A private window
        or a full disk does that. Open Latchline in a normal window, or make room, then reload.
      </p>
      <Reload />
    </main>
  );
}

/** An older build met a store that a newer one has changed. */
function TooOld() {
  const { waiting } = useAppState();
  return (
    <main className="page">
      <h1>This is an older Latchline than this tablet's store</h1>
      <p role="alert">
        A newer Latchline has changed the store, and this older one does not touch it: nothing is
        lost, and nothing was changed. Close every other window of Latchline, then reload; the newer
        one comes up by itself. If it does not, connect to the network once and reload.
      </p>
      {waiting ? (
        <button type="button" className="button next" onClick={acceptNewVersion}>
          Use the newer version now
        </button>
      ) : (
        <Reload />
      )}
    </main>
  );
}

function Reload() {
  return (
    <button type="button" className="button next" onClick={() => location.reload()}>
      Reload
    </button>
  );
}
