import type { Page } from "playwright-core";
import type { JobEvent } from "../../src/jobs/log/event.ts";

/** The events of a job as they lie in the browser's database, read past the app. */
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
  return JSON.parse(json) as JobEvent[];
}
