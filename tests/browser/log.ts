import type { Page } from "playwright-core";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder } from "../../src/jobs/log/order.ts";

/** The events of a job as they lie in the browser's database, read past the app, in log order. */
export async function eventsIn(page: Page, job: string): Promise<JobEvent[]> {
  const json = await page.evaluate(
    (wanted) =>
      new Promise<string>((resolve, reject) => {
        const opening = indexedDB.open("latchline");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const reading = db
            .transaction("events")
            .objectStore("events")
            .index("job")
            .getAll(wanted);
          reading.onerror = () => reject(reading.error);
          reading.onsuccess = () => {
            db.close();
            resolve(JSON.stringify(reading.result));
          };
        };
      }),
    job,
  );
  return inOrder(JSON.parse(json) as JobEvent[]);
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
