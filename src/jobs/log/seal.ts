import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";
import type { Actor } from "../roles.ts";
import type { EventBody, JobEvent } from "./event.ts";

/** SHA-256, in hexadecimal, of a value's canonical JSON (RFC 8785). */
export function hashOf(value: unknown): string {
  const json = canonicalize(value);
  if (json === undefined) throw new TypeError("nothing to hash");
  return bytesToHex(digest(utf8ToBytes(json)));
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
export interface Head {
  readonly sequence: number;
  /** largest tick of any device's event of the job */
  readonly tick: number;
  readonly hash: string | null;
}

export const emptyHead: Head = { sequence: 0, tick: 0, hash: null };

/** The head of one device in the events of one job. */
export function headOf(events: readonly JobEvent[], device: string): Head {
  let head = emptyHead;
  let tick = 0;
  for (const event of events) {
    tick = Math.max(tick, event.tick);
    if (event.device === device && event.sequence > head.sequence) head = event;
  }
  return { sequence: head.sequence, hash: head.hash, tick };
}

/** Gives drafts their places behind a head, in order, and their hashes. */
export function seal(drafts: readonly EventDraft[], device: string, head: Head): JobEvent[] {
  let { sequence, tick, hash } = head;
  return drafts.map((draft) => {
    sequence += 1;
    tick += 1;
    const event = { format: 1 as const, ...draft, device, sequence, tick, previous: hash };
    hash = hashOf(event);
    return { ...event, hash } as JobEvent;
  });
}
