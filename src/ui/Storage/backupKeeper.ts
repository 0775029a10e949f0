import type { Store } from "../../jobs/store/store.ts";
import type { Witness } from "../../jobs/store/witness.ts";

/** Has the backup file follow what is written. What writes it loads when there is something to write. */
export function backupKeeper(store: Store): Witness & { readonly wake: () => void } {
  const wake = () => {
    if (!("showSaveFilePicker" in window)) return;
    import("./backupFile.ts").then(
      ({ backUpSoon }) => backUpSoon(store),
      // Not loaded, as on a first visit without network: the next entry tries again.
      () => {},
    );
  };
  return { appended: wake, changed: wake, removed: wake, wake };
}
