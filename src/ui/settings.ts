import { useSyncExternalStore } from "react";
import type { UnitSystem } from "../jobs/display.ts";
import type { Actor } from "../jobs/roles.ts";

/** What a person chooses for this tablet: how it looks, in which units it speaks, and who holds it. */
export interface Settings {
  readonly skin: "paper" | "sun" | "night";
  readonly units: UnitSystem;
  readonly size: "hand" | "mounted";
  readonly actor: Actor | undefined;
  /** The demonstration was offered once; taken away, it stays away. */
  readonly demonstrated: boolean;
  /** Something was kept on this tablet at some time: an empty store is then worth a word. */
  readonly hadJobs: boolean;
}

const KEY = "latchline.settings";
const defaults: Settings = {
  skin: "paper",
  units: "field",
  size: "hand",
  actor: undefined,
  demonstrated: false,
  hadJobs: false,
};

let current = read();
const listeners = new Set<() => void>();

function read(): Settings {
  try {
    return { ...defaults, ...JSON.parse(localStorage.getItem(KEY) ?? "{}") };
  } catch {
    // Unreadable or forbidden storage: the choices are made again, nothing of a job is lost.
    return defaults;
  }
}

export function settings(): Settings {
  return current;
}

export function changeSettings(change: Partial<Settings>): void {
  current = { ...current, ...change };
  try {
    localStorage.setItem(KEY, JSON.stringify(current));
  } catch {
    // Forbidden storage: the choice holds until the page is closed.
  }
  for (const listener of listeners) listener();
}

window.addEventListener("storage", (event) => {
  if (event.key !== KEY) return;
  current = read();
  for (const listener of listeners) listener();
});

function subscribe(listener: () => void) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function useSettings(): Settings {
  return useSyncExternalStore(subscribe, settings);
}
