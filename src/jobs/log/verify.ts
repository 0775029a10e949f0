import type { JobEvent } from "./event.ts";
import { eventHash } from "./seal.ts";

/** The first place where a device's chain does not hold. */
export interface BrokenLink {
  readonly device: string;
  readonly sequence: number;
  readonly what: "changed" | "missing before" | "not continuing" | "twice";
}

/**
 * Checks every device's chain in a job's log.
 *
 * @returns the first broken link of each device that has one; empty when the log is whole. A chain cut
 *          off at its end cannot show by itself: the closing hash in the approval and in the report does that.
 */
export function brokenLinks(events: readonly JobEvent[]): BrokenLink[] {
  const devices = new Map<string, JobEvent[]>();
  for (const event of events) {
    devices.set(event.device, [...(devices.get(event.device) ?? []), event]);
  }
  return [...devices.values()].flatMap((chain) => {
    const broken = firstBroken(chain.sort((a, b) => a.sequence - b.sequence));
    return broken ? [broken] : [];
  });
}

function firstBroken(chain: readonly JobEvent[]): BrokenLink | undefined {
  let before: JobEvent | undefined;
  for (const event of chain) {
    const { device, sequence } = event;
    const expected = (before?.sequence ?? 0) + 1;
    if (sequence < expected) return { device, sequence, what: "twice" };
    if (sequence > expected) return { device, sequence, what: "missing before" };
    if (event.previous !== (before?.hash ?? null)) {
      return { device, sequence, what: "not continuing" };
    }
    if (eventHash(event) !== event.hash) return { device, sequence, what: "changed" };
    before = event;
  }
  return undefined;
}

/** A broken link in words. */
export function describeBroken({ sequence, what }: BrokenLink): string {
  switch (what) {
    case "changed":
      return `event ${sequence} was changed after it was written`;
    case "missing before":
      return `an event before number ${sequence} is missing`;
    case "not continuing":
      return `event ${sequence} does not continue the one before it`;
    case "twice":
      return `number ${sequence} was given to two different events`;
  }
}
