import type { JobEvent } from "./event.ts";
import { lastOfEach } from "./heads.ts";
import { eventHash } from "./seal.ts";
import { seenOf } from "./seen.ts";

/** The first place where a log does not hold. */
export interface BrokenLink {
  /** undefined where no device can be named */
  readonly device: string | undefined;
  readonly sequence: number;
  readonly what:
    | "changed"
    | "missing before"
    | "not continuing"
    | "twice"
    | "out of order"
    | "missing from another device"
    | "seen and gone"
    | "signed and gone";
}

/**
 * Checks every device's chain in a job's log, and what the chains say of each other.
 *
 * A device's chain shows a changed, missing or doubled event of its own. Since a device gives each event a tick
 * one larger than any it has seen, the ticks of a whole log run from 1 without a hole: a hole is another device's
 * event that was taken out. An event that had seen more of another device than is there shows it cut off. A review that names an event which is not there shows a log cut off behind it.
 *
 * @returns the first broken link of each chain, then what is missing between them; empty when the log is whole.
 *          Events cut off at the very end, behind everything that refers to them, cannot show; the closing hash does that.
 */
export function brokenLinks(events: readonly JobEvent[]): BrokenLink[] {
  const chains = new Map<string, JobEvent[]>();
  for (const event of events) {
    const chain = chains.get(event.device);
    if (chain) chain.push(event);
    else chains.set(event.device, [event]);
  }
  const own = [...chains.values()].flatMap((chain) => {
    const broken = firstBroken(chain.sort((a, b) => a.sequence - b.sequence));
    return broken ? [broken] : [];
  });
  return own.length > 0 ? own : betweenDevices(events);
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
    if (before && event.tick <= before.tick) return { device, sequence, what: "out of order" };
    before = event;
  }
  return undefined;
}

function betweenDevices(events: readonly JobEvent[]): BrokenLink[] {
  const found: BrokenLink[] = [];
  const ticks = [...new Set(events.map((event) => event.tick))].sort((a, b) => a - b);
  const hole = ticks.findIndex((tick, index) => tick !== index + 1);
  if (hole !== -1) {
    found.push({ device: undefined, sequence: hole + 1, what: "missing from another device" });
  }
  const known = new Set(events.map((event) => event.hash));
  const last = lastOfEach(events);
  for (const event of events) {
    const cutOff = seenOf(event).find(([other, upTo]) => (last.get(other)?.sequence ?? 0) < upTo);
    if (!cutOff || hole !== -1) continue;
    const [device, sequence] = cutOff;
    found.push({ device, sequence, what: "seen and gone" });
    break;
  }
  for (const { body, device, sequence } of events) {
    if (body.type !== "review") continue;
    if (Object.values(body.heads).some((hash) => !known.has(hash))) {
      found.push({ device, sequence, what: "signed and gone" });
    }
  }
  return found;
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
    case "out of order":
      return `event ${sequence} says that it came before the one it continues`;
    case "missing from another device":
      return `an event at place ${sequence} of the log, which later ones had seen, is missing`;
    case "seen and gone":
      return `event ${sequence} of another device, which a later one had seen, is missing`;
    case "signed and gone":
      return `the review in event ${sequence} names an event that is not there any more`;
  }
}
