import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { goodRun } from "../jobs/demo.ts";
import { runThrough } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { judge, sizes } from "./judge.ts";

const site = new Site();
const tablet = new TabletBrowser();
let page: Page;

const skins = ["paper", "sun", "night"];

const screens = [
  { name: "board", path: "/", ready: ".job-card" },
  { name: "brief, ready", path: "/jobs/job-em-07-3", ready: ".result-row" },
  { name: "brief, not ready", path: "/jobs/job-em-12-3", ready: ".brief-points" },
  { name: "well", path: "/wells/em-07", ready: ".on-lift-mandrel" },
  { name: "set sheet", path: "/jobs/job-em-07-3/set-sheet", ready: ".set-line" },
  { name: "run sheet of a job", path: "/jobs/job-em-07-3/sheet", ready: ".sheet-line" },
  { name: "line and string", path: "/jobs/job-em-07-3/line", ready: ".depth-picture" },
  { name: "record of a well", path: "/edit/wells/em-07", ready: ".editor-section" },
  { name: "record of a string", path: "/edit/strings/string-pull", ready: ".editor-section" },
  { name: "string builder", path: "/strings/string-pull", ready: ".tool-row" },
  { name: "fishing sketch", path: "/jobs/job-em-07-3/sketch", ready: ".sketch-string" },
  { name: "run sheet, step", path: "/jobs/job-em-07-3/run", ready: ".step-record" },
  { name: "review", path: "/jobs/job-em-03-3/review", ready: ".review-phase" },
  { name: "nowhere", path: "/wells/none", ready: ".page" },
];

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("button", { name: "Start the run" }).click();
  await runThrough(page, undefined, "level-first", goodRun, { "as-found": 60, "let-in": 40 });
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

async function wear(skin: string) {
  await page.evaluate((wanted) => {
    const key = "latchline.settings";
    const before = JSON.parse(localStorage.getItem(key) ?? "{}");
    localStorage.setItem(key, JSON.stringify({ ...before, skin: wanted }));
  }, skin);
}

describe.each(sizes)("at $width x $height", ({ name: size, width, height }) => {
  it.each(screens)(
    "$name has no serious fault that axe finds, and nothing sticks out",
    async ({ name, path, ready }) => {
      await page.setViewportSize({ width, height });
      for (const skin of size === "tablet" ? skins : skins.slice(0, 1)) {
        await wear(skin);
        await page.goto(site.address + path);
        await page.locator(ready).first().waitFor();
        await judge(page, `${size}-${skin}-${name}`);
      }
    },
  );

  it("a number's working and the number keys, too", async () => {
    await page.setViewportSize({ width, height });
    await page.goto(`${site.address}/jobs/job-em-07-3`);
    await page.getByRole("button", { name: /Casing pressure that levels/ }).click();
    await page.locator(".working-formula").waitFor();
    await judge(page, `${size}-working`);
    await page.goto(`${site.address}/jobs/job-em-07-3/run`);
    await page.locator("#entry-level-first-casing").click();
    await page.locator(".keypad").waitFor();
    await judge(page, `${size}-keys`);
  });
});

it("a locked hold point with an exception asked for, on every size", async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(`${site.address}/jobs/job-em-07-3/run`);
  await runThrough(page, "level-first", "level-hold", {
    ...goodRun,
    "level-last": {
      fields: {
        "level-last-casing": { text: "910" },
        "level-last-wellhead": { text: "319" },
      },
    },
  });
  await page
    .getByText(/Annulus is \d+ psi above tubing at mandrel 3\. Bring casing to between/)
    .waitFor();
  expect(await page.getByRole("button", { name: "Release hold point" }).count()).toBe(0);
  await page
    .getByRole("button", { name: /^Exception/ })
    .first()
    .click();
  for (const { name, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    await judge(page, `${name}-hold`);
  }
});

it("the units change on every screen, and nothing entered changes with them", async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("button", { name: /^Units/ }).click();
  await page
    .locator(".result-row", { hasText: "Test pressure of the stack" })
    .getByText("barg")
    .waitFor();
  await page.goto(`${site.address}/jobs/job-em-07-3/run`);
  await page.getByRole("button", { name: /Gauge run/ }).click();
  await page.getByRole("button", { name: "Correct the counter on a known point" }).click();
  await page.locator(".recorded-entry", { hasText: "Tagged at" }).getByText("6343 ft").waitFor();
  await page.getByRole("button", { name: /^Units/ }).click();
});
