import { createRoot } from "react-dom/client";
import "./look/fonts.css";
import "./look/tokens.css";
import "./look/base.css";
import { openDexieStore } from "../jobs/store/dexieStore.ts";
import { App } from "./App/App.tsx";
import { StoreRefused } from "./App/StoreRefused.tsx";
import { keepOffline } from "./offline/updates.ts";

const root = createRoot(document.getElementById("app") as HTMLElement);
void keepOffline();
openDexieStore().then(
  (store) => root.render(<App store={store} />),
  (error: unknown) => root.render(<StoreRefused error={error} />),
);
