import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";
import type { Actor } from "../roles.ts";
import type { EventBody, JobEvent } from "./event.ts";
import { lastOfEach } from "./heads.ts";

/** SHA-256, in hexadecimal, of a value's canonical JSON (RFC 8785). */
export function hashOf(value: unknown): string {
  const json = canonicalize(value);
  if (json === undefined) throw new TypeError("nothing to hash");
  return bytesToHex(digest(utf8ToBytes(json)));
}

/**
 * The id of one of the events that an entry makes: the same for the same entry and place, so that an entry
 * tried twice is written once.
 *
 * @param entry made when the entry was made, a UUID
 * @param index of the event among those the entry makes
 */
export function draftId(entry: string, index: number): string {
  if (index === 0) return entry;
  const hash = hashOf({ entry, index });
  // A UUID of version 8 (RFC 9562): its digits are the maker's own.
  const parts = [
    hash.slice(0, 8),
    hash.slice(8, 12),
    `8${hash.slice(13, 16)}`,
    `a${hash.slice(17, 20)}`,
    hash.slice(20, 32),
  ];
  return parts.join("-");
}

/** What an event hash covers: everything but itself. */
export function eventHash(event: JobEvent): string {
  const { hash: _, ...rest } = event;
  return hashOf(rest);
}

/** An event before it has its place in the chain. */
export interface EventDraft {
  readonly id: string;
  readonly job: string;
  readonly at: string;
  readonly actor: Actor;
  readonly body: EventBody;
}

/** Where a chain stands: what the next event of a device continues. */
interface Head {
  readonly sequence: number;
  /** largest tick of any device's event of the job */
  readonly tick: number;
  readonly hash: string | null;
  /** last sequence of every other device of the job */
  readonly seen: Readonly<Record<string, number>>;
}

/** The head of one device in the events of one job. */
export function headOf(events: readonly JobEvent[], device: string): Head {
  const last = lastOfEach(events);
  const own = last.get(device);
  const seen = Object.fromEntries(
    [...last].flatMap(([other, event]) => (other === device ? [] : [[other, event.sequence]])),
  );
  const tick = events.reduce((largest, event) => Math.max(largest, event.tick), 0);
  return { sequence: own?.sequence ?? 0, hash: own?.hash ?? null, tick, seen };
}

/** Gives drafts their places behind a head, in order, and their hashes. */
export function seal(drafts: readonly EventDraft[], device: string, head: Head): JobEvent[] {
  let { sequence, tick, hash } = head;
  const { seen } = head;
  return drafts.map((draft) => {
    sequence += 1;
    tick += 1;
    const event = { format: 2 as const, ...draft, device, sequence, tick, seen, previous: hash };
    hash = hashOf(event);
    return { ...event, hash } as JobEvent;
  });
}
