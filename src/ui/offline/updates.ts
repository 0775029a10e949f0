import { useSyncExternalStore } from "react";
import { Workbox } from "workbox-window";

/** How this tablet stands with the app itself. */
export interface AppState {
  /** the whole app is kept on this tablet and works without network */
  readonly kept: boolean;
  /** a newer version is here, whole, and waits to be wanted */
  readonly waiting: boolean;
  /** another window let a newer version take over: this one still runs the old one */
  readonly replaced: boolean;
  /** the browser would not promise to keep what is stored here when storage runs full */
  readonly mayBeCleared: boolean;
  /** offline use is not to be had here, and why */
  readonly problem: string | undefined;
}

let state: AppState = {
  kept: false,
  waiting: false,
  replaced: false,
  mayBeCleared: false,
  problem: undefined,
};
const listeners = new Set<() => void>();
let workbox: Workbox | undefined;
let accepted = false;

function change(part: Partial<AppState>) {
  state = { ...state, ...part };
  for (const listener of listeners) listener();
}

/** Puts the service worker in place. It never takes over on its own. */
export async function keepOffline(): Promise<void> {
  if (!("serviceWorker" in navigator)) {
    change({
      problem:
        "This browser cannot keep the app for offline use here. Open it at localhost or over https, in a window that is not private.",
    });
    return;
  }
  if (import.meta.env.DEV) return;
  workbox = new Workbox("/sw.js");
  workbox.addEventListener("waiting", () => change({ waiting: true }));
  workbox.addEventListener("activated", () => change({ kept: true }));
  // The first worker takes the page that installed it; any other comes in place of one.
  const hadWorker = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (hadWorker && !accepted) change({ replaced: true });
  });
  try {
    await workbox.register();
    await navigator.serviceWorker.ready;
    change({ kept: true });
  } catch (error) {
    change({ problem: `The app could not be kept for offline use: ${(error as Error).message}` });
  }
}

/** Asks the browser to keep what is stored here even when the tablet's storage runs full. */
export async function askToKeepStored(): Promise<void> {
  const { storage } = navigator;
  if (!storage?.persist) return;
  const promised = (await storage.persisted()) || (await storage.persist());
  change({ mayBeCleared: !promised });
}

/** Lets the waiting version take over and loads the page anew, once. */
export function acceptNewVersion(): void {
  accepted = true;
  let reloaded = false;
  const reload = () => {
    if (reloaded) return;
    reloaded = true;
    location.reload();
  };
  workbox?.addEventListener("controlling", reload);
  workbox?.messageSkipWaiting();
  // Safari on iOS does not always tell that the new worker has taken over.
  setTimeout(reload, 4000);
}

function subscribe(listener: () => void) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function useAppState(): AppState {
  return useSyncExternalStore(subscribe, () => state);
}
