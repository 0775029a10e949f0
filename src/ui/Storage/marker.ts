import { type Held, heldOf, joined, withAppended, without } from "../../jobs/store/held.ts";
import type { Store } from "../../jobs/store/store.ts";
import type { Witness } from "../../jobs/store/witness.ts";

/**
 * What this tablet held, remembered outside its database and in two places: a browser that loses the one does not
 * always lose the other.
 */

const KEY = "latchline.held";
const CACHE = "latchline-held";
const ADDRESS = "/held.json";

export async function readHeld(): Promise<Held | undefined> {
  const near = readNear();
  if (near) return near;
  try {
    const response = await (await caches.open(CACHE)).match(ADDRESS);
    return response && understood(await response.text());
  } catch {
    // Not a secure context, or forbidden: there is no second place.
    return undefined;
  }
}

function readNear(): Held | undefined {
  try {
    return understood(localStorage.getItem(KEY));
  } catch {
    return undefined;
  }
}

function understood(text: string | null): Held | undefined {
  if (text === null) return undefined;
  try {
    const held = JSON.parse(text) as Held;
    return Array.isArray(held.jobs) ? held : undefined;
  } catch {
    return undefined;
  }
}

export function writeHeld(held: Held): void {
  const text = JSON.stringify(held);
  try {
    localStorage.setItem(KEY, text);
  } catch {
    // Full or forbidden: the other place is tried all the same.
  }
  void writeFar(text);
}

async function writeFar(text: string): Promise<void> {
  try {
    await (await caches.open(CACHE)).put(ADDRESS, new Response(text));
  } catch {
    // As above; a marker that cannot be written loses no job.
  }
}

const now = () => new Date().toISOString();

/** Forgets what is gone: what is here now is all there is to remember. */
export async function rememberOnly(store: Store): Promise<void> {
  writeHeld(heldOf(await store.recordsFor({ jobs: "all" }), await store.allEvents(), now()));
}

/** Writes the marker anew from what is in the store; what is gone without having been removed stays in it. */
export async function remember(store: Store): Promise<void> {
  try {
    const held = heldOf(await store.recordsFor({ jobs: "all" }), await store.allEvents(), now());
    writeHeld(joined(held, await readHeld()));
  } catch {
    // A store that does not answer is said elsewhere; the marker stays as it was.
  }
}

/** Keeps the marker in step with what is written. */
export function markerKeeper(store: Store): Witness {
  return {
    appended: (events) => {
      const held = readNear();
      const next = held && withAppended(held, events, now());
      if (next) writeHeld(next);
      else void remember(store);
    },
    changed: () => void remember(store),
    removed: (jobs) => {
      const held = readNear();
      if (held) writeHeld(without(held, jobs));
    },
  };
}
