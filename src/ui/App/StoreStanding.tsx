import { useStanding, useStore } from "../storeContext.ts";

/** A store that does not stand as it should, what that means for what is on the screen, and the way out. */
export function StoreStanding() {
  const store = useStore();
  const { is, why } = useStanding();
  const reload = (
    <button type="button" className="button" onClick={() => location.reload()}>
      Reload this window
    </button>
  );
  switch (is) {
    case "open":
      return null;
    case "not answering":
      return (
        <div className="problem row" role="alert">
          <span>
            This tablet's storage does not answer ({why}). What is on this screen was read before;
            nothing new is kept until it answers.
          </span>
          <button type="button" className="button" onClick={() => void store.probe()}>
            Try again
          </button>
        </div>
      );
    case "newer version":
      return (
        <div className="problem row" role="alert">
          <span>
            A newer Latchline has changed this tablet's store, so this window has stopped writing.
            What is typed here is kept and comes back: this window has to be reloaded.
          </span>
          {reload}
        </div>
      );
    case "emptied":
      return (
        <div className="problem row" role="alert">
          <span>
            This tablet's store was emptied while this window was open, so this window has stopped
            writing. What it still shows may be kept nowhere else: note on paper what matters, then
            reload and bring in the backup.
          </span>
          {reload}
        </div>
      );
  }
}
