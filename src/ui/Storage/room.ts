/** What the browser says of the room it gives this app, in bytes. */
export interface Room {
  readonly used: number;
  readonly quota: number;
}

/** Below this a day's photographs may not fit any more. */
const LITTLE = 200e6;

/** Time to make room. */
export function isNearlyFull({ used, quota }: Room): boolean {
  return quota > 0 && (used > 0.8 * quota || quota - used < LITTLE);
}

/** Bytes for a person. */
export function inWords(bytes: number): string {
  if (bytes >= 1e9) return `${(bytes / 1e9).toFixed(1)} GB`;
  if (bytes >= 1e6) return `${(bytes / 1e6).toFixed(0)} MB`;
  return `${(bytes / 1e3).toFixed(0)} kB`;
}

/** Asks the browser; undefined where it does not say. */
export async function askForRoom(): Promise<Room | undefined> {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    return usage === undefined || quota === undefined ? undefined : { used: usage, quota };
  } catch {
    return undefined;
  }
}
