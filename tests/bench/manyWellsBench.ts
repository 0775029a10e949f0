import type { Page } from "playwright-core";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { keptOffline, Site, sign, TabletBrowser } from "../browser/harness.ts";
import { type Quantiles, quantilesOf } from "./quantiles.ts";

const WELLS = 5000;
const MANDRELS = 8;
const TIMES = 5;
const [well] = library.wells;
const [valve] = library.valves;

/** Puts thousands of wells into the page's own database, as an import would have left them there. */
async function fill(page: Page): Promise<void> {
  await page.evaluate(
    async ([pattern, valvePattern, wells, mandrels]) => {
      const [{ name = "" } = {}] = await indexedDB.databases();
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open(name);
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
      for (let from = 0; from < wells; from += 500) {
        const transaction = database.transaction(["wells", "valves"], "readwrite");
        for (let w = from; w < Math.min(wells, from + 500); w += 1) {
          const made = Array.from({ length: mandrels }, (_, m) => {
            const number = w * mandrels + m;
            const serial = `EM-${100000 + ((number * 7919) % 900000)}`;
            transaction
              .objectStore("valves")
              .put({ ...valvePattern, id: `many-valve-${number}`, serial });
            return {
              ...pattern.mandrels[0],
              id: `many-mandrel-${w}-${m}`,
              number: m + 1,
              valve: `many-valve-${number}`,
              pocketState: "holds a valve",
            };
          });
          const record = { ...pattern, id: `many-well-${w}`, name: `EM-${1000 + w}` };
          transaction.objectStore("wells").put({ ...record, mandrels: made });
        }
        await new Promise((resolve, reject) => {
          transaction.oncomplete = resolve;
          transaction.onerror = () => reject(transaction.error);
        });
      }
      database.close();
    },
    [well as NonNullable<typeof well>, valve, WELLS, MANDRELS] as const,
  );
}

/** Milliseconds from an address within the app until something is on the screen and painted. */
const until = (page: Page, path: string, selector: string) =>
  page.evaluate(
    ([to, wanted]) =>
      new Promise<number>((resolve) => {
        const begun = performance.now();
        history.pushState(null, "", to);
        const look = () => {
          if (document.querySelector(wanted)) {
            requestAnimationFrame(() => resolve(performance.now() - begun));
          } else requestAnimationFrame(look);
        };
        look();
      }),
    [path, selector] as const,
  );

/** What a planner's browser needs with five thousand wells in it, in the production build. */
export async function benchManyWells(dist: string): Promise<Quantiles[]> {
  const site = new Site();
  const tablet = new TabletBrowser();
  try {
    await site.start(dist);
    const page = await tablet.open(site.address);
    page.setDefaultTimeout(120_000);
    await keptOffline(page);
    await page.locator(".job-card").first().waitFor();
    await sign(page, "E. Rowan", "planner");
    await fill(page);
    await page.goto(site.address);
    await page.locator(".job-card").first().waitFor();
    const screens = [
      ["the board", "/", ".job-card"],
      ["a brief", `/jobs/${jobs.ready.id}`, ".brief"],
      ["a well", "/wells/em-07", ".well-screen"],
      ["a valve's editor", "/edit/valves/valve-em-0313", ".editor"],
    ] as const;
    const found: Quantiles[] = [];
    for (const [what, path, selector] of screens) {
      const took: number[] = [];
      for (let time = 0; time < TIMES; time += 1) {
        await until(page, "/storage", ".storage");
        took.push(await until(page, path, selector));
      }
      found.push(quantilesOf(`${what}, ${WELLS} wells here`, took));
    }
    return [...found, ...(await benchSearch(page))];
  } finally {
    await tablet.dispose();
    await site.stop();
  }
}

/** From the first opening until all is read, and from a key until what it finds is painted. */
async function benchSearch(page: Page): Promise<Quantiles[]> {
  const { origin } = new URL(page.url());
  await page.goto(`${origin}/storage`);
  await page.locator(".storage").waitFor();
  const first = await until(page, "/library", ".library-row");
  const begun = Date.now();
  await page.getByText(/^\d+.\d+ found\.$/).waitFor();
  const whole = first + Date.now() - begun;
  const keys = await page.evaluate(async () => {
    const field = document.querySelector<HTMLInputElement>("#library-query");
    const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set;
    const painted = () =>
      new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve, 0)));
    const took: number[] = [];
    for (const words of ["em-1042 injection", "em 107919", "ring latch 4999", "919"]) {
      for (let keys = 1; keys <= words.length; keys += 1) {
        const start = performance.now();
        set?.call(field, words.slice(0, keys));
        field?.dispatchEvent(new Event("input", { bubbles: true }));
        do await painted();
        while (document.querySelector(".library-results")?.getAttribute("aria-busy") === "true");
        took.push(performance.now() - start);
      }
    }
    return took;
  });
  return [
    quantilesOf("the library, until its first records stand there", [first]),
    quantilesOf("the library, until all of it is read", [whole]),
    quantilesOf("a key in its search, until what it finds is painted", keys),
  ];
}
