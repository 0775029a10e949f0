import { createRoot } from "react-dom/client";
import { ErrorBoundary } from "react-error-boundary";
import "./look/fonts.css";
import "./look/tokens.css";
import "./look/base.css";
import { openDexieStore } from "../jobs/store/dexieStore.ts";
import { App } from "./App/App.tsx";
import { Fault } from "./App/Fault.tsx";
import { StoreRefused } from "./App/StoreRefused.tsx";
import { askToKeepStored, keepOffline } from "./offline/updates.ts";

const root = createRoot(document.getElementById("app") as HTMLElement);
void keepOffline();
void askToKeepStored();
openDexieStore().then(
  (store) =>
    root.render(
      <ErrorBoundary FallbackComponent={Fault}>
        <App store={store} />
      </ErrorBoundary>,
    ),
  (error: unknown) => root.render(<StoreRefused error={error} />),
);
