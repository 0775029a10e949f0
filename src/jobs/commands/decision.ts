import type { EventBody } from "../log/event.ts";

/** What a command comes to: events to write, or why not. */
export type Decision =
  | { readonly ok: true; readonly bodies: readonly EventBody[] }
  | { readonly ok: false; readonly why: string; readonly field?: string };

export const accept = (...bodies: EventBody[]): Decision => ({ ok: true, bodies });

export const refuse = (why: string, field?: string): Decision => ({
  ok: false,
  why,
  ...(field !== undefined && { field }),
});
