import { useAppState } from "../offline/updates.ts";

/** Another window let a newer version in; half-typed entries outlast the reload. */
export function Replaced() {
  if (!useAppState().replaced) return null;
  return (
    <div className="notice row" role="status">
      <span>
        Another window let a newer version of Latchline in. This one goes on with the old.
      </span>
      <button type="button" className="button" onClick={() => location.reload()}>
        Reload
      </button>
    </div>
  );
}
