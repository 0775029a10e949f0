import { useSyncExternalStore } from "react";

/** How the backup that writes itself stands. */
export type BackupState =
  | { readonly is: "none" }
  | { readonly is: "written"; readonly name: string; readonly at: string }
  | { readonly is: "writing"; readonly name: string }
  /** The browser wants to be asked anew before the page may write. */
  | { readonly is: "lapsed"; readonly name: string }
  | { readonly is: "failed"; readonly name: string; readonly why: string };

let state: BackupState = { is: "none" };
const listeners = new Set<() => void>();

export function changeBackup(next: BackupState): void {
  state = next;
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function useBackup(): BackupState {
  return useSyncExternalStore(subscribe, () => state);
}
