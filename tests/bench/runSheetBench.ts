import { writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { makePack } from "../../src/jobs/pack/pack.ts";
import { keptOffline, Site, sign, TabletBrowser } from "../browser/harness.ts";
import { importChosen, runSheet } from "../browser/jobPack.ts";
import { longLog } from "./longLog.ts";
import { type Quantiles, quantilesOf } from "./quantiles.ts";

const TIMES = 15;

/**
 * Milliseconds, in the page, until something is on the screen, or gone from it, and painted.
 *
 * @param press a button to press first; without one, the browser's way forward
 */
function until(page: Page, is: "there" | "gone", selector: string, press?: string) {
  return page.evaluate(
    ([state, wanted, button]) =>
      new Promise<number>((resolve) => {
        const begun = performance.now();
        if (button === undefined) history.forward();
        else document.querySelector<HTMLElement>(button)?.click();
        const look = () => {
          const found = document.querySelector(wanted) !== null;
          // What is in the page now is painted before the next frame but one.
          if (found === (state === "there")) {
            requestAnimationFrame(() => resolve(performance.now() - begun));
          } else requestAnimationFrame(look);
        };
        look();
      }),
    [is, selector, press] as const,
  );
}

/**
 * The run sheet of a job with 2,000 events and forty photographs, in the production build and the browser's own
 * database: opening it with the app up, and a note from the press of the button until it is kept and said so.
 *
 * @param dist folder of the production build
 */
export async function benchRunSheet(dist: string): Promise<Quantiles[]> {
  const { tablet: ran, pictures } = longLog();
  const events = [...ran.events];
  const content = { records: { ...library, jobs: [jobs.ready] } as never, events, pictures };
  const file = join(tmpdir(), `latchline-long-${ran.device}.json`);
  writeFileSync(file, JSON.stringify(makePack(content, ran.clock)));
  const site = new Site();
  const tablet = new TabletBrowser();
  try {
    await site.start(dist);
    const page = await tablet.open(site.address);
    page.setDefaultTimeout(120_000);
    await keptOffline(page);
    await page.getByRole("button", { name: "Import a pack" }).click();
    await page.getByLabel("Pack file").setInputFiles(file);
    await importChosen(page);
    await page.getByText("is imported.").waitFor();
    await page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
    await sign(page, "R. Tamsin", "wireline supervisor");
    // By the app's own links, so that it is up all the while.
    await page.evaluate((to) => {
      history.pushState(null, "", to);
    }, runSheet);
    await page.locator(".step-title").waitFor();
    const opened: number[] = [];
    for (let time = 0; time < TIMES; time += 1) {
      await page.goBack();
      await page.locator(".job-card").first().waitFor();
      opened.push(await until(page, "there", ".step-title"));
    }
    const kept: number[] = [];
    await page.locator(".spine-item").first().click();
    for (let time = 0; time < TIMES; time += 1) {
      await page.getByRole("button", { name: "Add a note" }).click();
      await page.getByLabel("Note", { exact: true }).fill(`wind is up, ${time}`);
      kept.push(await until(page, "gone", ".note-box", ".note-box .button"));
    }
    return [
      quantilesOf("open the run sheet, app up, 2,000 events, 40 photographs", opened),
      quantilesOf("a note, from the press until it is kept and said", kept),
    ];
  } finally {
    await tablet.dispose();
    await site.stop();
  }
}
