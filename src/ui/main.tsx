import { createRoot } from "react-dom/client";
import { ErrorBoundary } from "react-error-boundary";
import "./look/fonts.css";
import "./look/tokens.css";
import "./look/base.css";
import { openDexieStore } from "../jobs/store/dexieStore.ts";
import { withSpareDrafts } from "../jobs/store/spareDrafts.ts";
import type { Store } from "../jobs/store/store.ts";
import { witnessed } from "../jobs/store/witness.ts";
import { App } from "./App/App.tsx";
import { Fault } from "./App/Fault.tsx";
import { StoreBlocked } from "./App/StoreBlocked.tsx";
import { StoreRefused } from "./App/StoreRefused.tsx";
import { askToKeepStored, keepOffline } from "./offline/updates.ts";
import { backupKeeper } from "./Storage/backupKeeper.ts";
import { markerKeeper, readHeld, remember } from "./Storage/marker.ts";

const root = createRoot(document.getElementById("app") as HTMLElement);
void keepOffline();
void askToKeepStored();
openDexieStore("latchline", { onBlocked: () => root.render(<StoreBlocked />) })
  .then(begin)
  .catch((error: unknown) => root.render(<StoreRefused error={error} />));

async function begin(kept: Store) {
  const backups = backupKeeper(kept);
  const store = witnessed(
    withSpareDrafts(kept, () => sessionStorage),
    [markerKeeper(kept), backups],
  );
  // A tablet that slept may have lost its handle without a word.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void store.probe();
  });
  const held = await readHeld();
  const lost = held && held.jobs.length > 0 && (await store.isEmpty()) ? held : undefined;
  root.render(
    <ErrorBoundary FallbackComponent={Fault}>
      <App store={store} lost={lost} />
    </ErrorBoundary>,
  );
  if (lost) return;
  void remember(kept);
  backups.wake();
}
