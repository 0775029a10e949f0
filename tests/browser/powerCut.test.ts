import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { runToAsFound, stepOf } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { casingsIn, eventsIn } from "./log.ts";

const site = new Site();
const tablet = new TabletBrowser();
const JOB = "job-em-07-3";
const runSheet = () => `${site.address}/jobs/${JOB}/run`;
const step = stepOf("as-found");
/** How often the power is cut: a few times with every test, many times where somebody asks for it. */
const CUTS = Number(process.env.LATCHLINE_CUTS ?? 5);
/** At most so long after the first reading of a stretch, ms. */
const LONGEST = 1200;

beforeAll(async () => {
  await site.start();
  const page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await takeTheTablet(page);
  await page.goto(`${site.address}/jobs/${JOB}`);
  await runToAsFound(page);
  await tablet.kill();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** Who holds the tablet is asked again when the power went before the browser had written it down: it is no entry. */
async function takeTheTablet(page: Page): Promise<void> {
  const asked = await page.locator(".who", { hasText: "Who holds the tablet?" }).isVisible();
  if (asked) await sign(page, "R. Tamsin", "wireline supervisor");
}

/**
 * Has the page record one reading after the other through its screen, as fast as it goes, and hears of each as soon
 * as the screen calls it saved.
 */
async function recordOnAndOn(page: Page, from: number, onSaved: (casing: number) => void) {
  await page.exposeFunction("heardSaved", onSaved);
  await page.evaluate(
    ({ first, title }) => {
      type Heard = typeof window & { heardSaved(casing: number): void };
      const until = <T>(find: () => T | null | undefined | false) =>
        new Promise<T>((resolve) => {
          const look = () => {
            const found = find();
            if (found) resolve(found);
            else setTimeout(look, 2);
          };
          look();
        });
      const button = (name: string) =>
        [...document.querySelectorAll("button")].find((each) => each.textContent?.includes(name));
      const type = (field: HTMLInputElement, text: string) => {
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set?.call(
          field,
          text,
        );
        field.dispatchEvent(new Event("input", { bubbles: true }));
      };
      const field = (id: string) => document.querySelector<HTMLInputElement>(`#entry-${id}`);
      const isSaved = () =>
        document.querySelector(".run-said")?.textContent?.includes(`: ${title}.`) ?? false;
      const one = async (casing: number) => {
        (await until(() => button(title))).click();
        (await until(() => button("Read and record again"))).click();
        type(await until(() => field("as-found-casing")), casing.toFixed(3));
        type(await until(() => field("as-found-wellhead")), "318");
        document.querySelector<HTMLButtonElement>(".step-record")?.click();
        await until(isSaved);
        (window as Heard).heardSaved(casing);
      };
      void (async () => {
        for (let count = first; ; count += 1) await one(1000 + count / 1000);
      })();
    },
    { first: from, title: step.title },
  );
}

it(
  `has every reading that the screen called saved, in a chain that holds, after the power was cut ${CUTS} times`,
  async () => {
    const saved: number[] = [];
    for (let cut = 1; cut <= CUTS; cut += 1) {
      const page = await tablet.open(runSheet());
      await page.locator(".step-title").waitFor();
      await takeTheTablet(page);
      const before = saved.length;
      const heard = new Promise<void>((resolve) => {
        void recordOnAndOn(page, saved.length + 100 * cut, (casing) => {
          saved.push(casing);
          resolve();
        });
      });
      await heard;
      const after = Math.random() * LONGEST;
      await new Promise((resolve) => setTimeout(resolve, after));
      await tablet.kill();
      expect(saved.length).toBeGreaterThan(before);

      const again = await tablet.open(runSheet());
      await again.locator(".step-title").waitFor();
      const events = await eventsIn(again, JOB);
      const casings = casingsIn(events);
      const where = `cut ${cut}, ${Math.round(after)} ms after the first of its readings`;
      expect(
        saved.filter((casing) => !casings.includes(casing)),
        `called saved and not there: ${where}`,
      ).toEqual([]);
      expect(new Set(casings).size, `a reading is there twice: ${where}`).toBe(casings.length);
      expect(brokenLinks(events), where).toEqual([]);
      expect(await again.locator("[role=alert]").count(), where).toBe(0);
      await tablet.kill();
    }
    expect(saved.length).toBeGreaterThan(CUTS);
  },
  60_000 + CUTS * 20_000,
);
