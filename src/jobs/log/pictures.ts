import type { EventBody } from "./event.ts";

/** The pictures that events name, each by the SHA-256 of its bytes. */
export function picturesOf(events: readonly { readonly body: EventBody }[]): ReadonlySet<string> {
  const named = new Set<string>();
  for (const { body } of events) {
    const { picture } = body as { readonly picture?: unknown };
    if (typeof picture === "string") named.add(picture);
  }
  return named;
}
