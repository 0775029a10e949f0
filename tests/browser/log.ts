import type { Page } from "playwright-core";
import { expect } from "vitest";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";

/** Everything of one table of the browser's database, read past the app. */
async function rowsIn<T>(page: Page, table: "events" | "halfTyped"): Promise<T[]> {
  const json = await page.evaluate(
    (wanted) =>
      new Promise<string>((resolve, reject) => {
        const opening = indexedDB.open("latchline");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const reading = db.transaction(wanted).objectStore(wanted).getAll();
          reading.onerror = () => reject(reading.error);
          reading.onsuccess = () => {
            db.close();
            resolve(JSON.stringify(reading.result));
          };
        };
      }),
    table,
  );
  return JSON.parse(json);
}

/** The events of a job as they lie in the browser's database, in log order. */
export async function eventsIn(page: Page, job: string): Promise<JobEvent[]> {
  const events = await rowsIn<JobEvent>(page, "events");
  return inOrder(events.filter((event) => event.job === job));
}

/** Waits until what is half typed lies in the browser's database: from then on it outlasts a dead battery. */
export async function typedIsKept(page: Page, text: string): Promise<void> {
  await expect
    .poll(async () => {
      const kept = await rowsIn<{ readonly fields: Record<string, { text: string }> }>(
        page,
        "halfTyped",
      );
      return kept.flatMap(({ fields }) => Object.values(fields).map((typed) => typed.text));
    })
    .toContain(text);
}

/** The casing pressures that were recorded as found, as they were typed. */
export function casingsIn(events: readonly JobEvent[]): number[] {
  return events
    .flatMap(({ body }) => (body.type === "readings taken" ? body.entries : []))
    .flatMap(({ field, value }) =>
      field === "as-found-casing" && value.kind === "quantity" ? [value.value] : [],
    );
}

/** Moves the clock of one event, past the app and past its hash, as somebody with the browser's own tools would. */
export function alterByHand(page: Page, hash: string): Promise<void> {
  return page.evaluate(
    (wanted) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open("latchline");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const altering = opening.result.transaction("events", "readwrite");
          const events = altering.objectStore("events");
          events.get(wanted).onsuccess = ({ target }) => {
            const event = (target as IDBRequest<JobEvent>).result;
            events.put({ ...event, at: "2026-01-01T00:00:00.000Z" });
          };
          altering.onabort = () => reject(altering.error);
          altering.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    hash,
  );
}
