import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, expect, it } from "vitest";
import { jobs } from "../../demo-data/emberMesa.ts";
import { Tablet } from "../jobs/demo.ts";
import { answers, own, stocked, twoPocketProgramme, twoPockets } from "../jobs/twoPockets.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn } from "./jobPack.ts";
import { seriousFaults } from "./seriousFaults.ts";

const site = new Site();
let tablet = new TabletBrowser();
const pictures = process.env.LATCHLINE_PICTURES;
const upright = { width: 800, height: 1280 };
const sizes = [
  { name: "tablet", width: 1280, height: 800 },
  { name: "upright", ...upright },
  { name: "phone", width: 390, height: 844 },
];

afterAll(() => site.stop());
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser();
});

async function judge(page: Page, name: string) {
  for (const { name: size, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    expect(await seriousFaults(page), `${size} ${name}`).toEqual([]);
    const overflow = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overflow, `${size} ${name} scrolls sideways`).toBeLessThanOrEqual(0);
    if (pictures) {
      mkdirSync(pictures, { recursive: true });
      await page.screenshot({ path: `${pictures}/pockets-${name}-${size}.png` });
      await page.screenshot({
        path: `${pictures}/whole-pockets-${name}-${size}.png`,
        fullPage: true,
      });
    }
  }
  await page.setViewportSize(upright);
}

it("plans a further pocket, and brief, readiness and set sheet speak of both", async () => {
  await site.start();
  const page = await tablet.open(site.address, upright);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  await sign(page, "E. Rowan", "planner");
  await page.goto(`${site.address}/jobs/${jobs.ready.id}/sheet`);
  const further = page.getByRole("region", { name: "Further pockets in this rig-up" });
  await further.getByRole("button", { name: "Add a pocket" }).click();
  const pocket = further.locator(".further-pocket");
  await pocket.getByLabel("Mandrel", { exact: true }).selectOption("em-07-mandrel-4");
  await pocket.getByLabel("What goes in", { exact: true }).fill("em 2042");
  await pocket.getByRole("button", { name: /^EM-2042/ }).click();
  const opening = pocket.getByLabel(/^Opening wanted at the mandrel/);
  await opening.fill("10x");
  await pocket.getByText(/is not a number.* It is not taken yet\./).waitFor();
  await opening.fill("1085");
  await pocket.getByLabel(/^Tubing pressure then/).fill("520");
  await page.locator(".sheet-line-title", { hasText: "Jar the valve out, mandrel 4" }).waitFor();
  await judge(page, "in the editor");
  await page.getByRole("button", { name: "Save the run sheet" }).click();
  await page.getByText("Saved.").waitFor();

  await tablet.kill();
  const again = await tablet.open(`${site.address}/jobs/${jobs.ready.id}`, upright);
  // Issued is what was issued; what would be issued next is told apart.
  await again.getByText(/^Mandrel 4: Card of valve EM-2042 is/).waitFor();
  await again.goto(`${site.address}/jobs/${jobs.ready.id}/set-sheet`);
  await again.getByText(/^EM-2041 for mandrel 3 of EM-07/).waitFor();
  await again.getByText(/^EM-2042 for mandrel 4 of EM-07/).waitFor();
  await judge(again, "set sheet");
});

it("works the second pocket by the second mandrel's figures", async () => {
  await site.start();
  const page = await tablet.open(site.address, upright);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  const other = new Tablet(crypto.randomUUID(), jobs.ready.id);
  other.start(twoPocketProgramme()).runTo(`level-first${own}`, answers);
  const records = { ...stocked, jobs: [twoPockets()] };
  await bringIn(page, site.address, other, records);
  await site.stop();
  await sign(page, "R. Tamsin", "wireline supervisor");

  await page.goto(`${site.address}/jobs/${jobs.ready.id}`);
  await page
    .getByText(/^Change out EM-0713 for EM-2041 in mandrel 3; then: Change out EM-0714/)
    .waitFor();
  const level = page.locator(".result-row", { hasText: "Casing pressure that levels" });
  const first = await level.textContent();
  await page.getByRole("radio", { name: "Mandrel 4" }).check();
  await expect.poll(() => level.textContent()).not.toBe(first);
  await judge(page, "brief");

  await page.goto(`${site.address}/jobs/${jobs.ready.id}/run`);
  await page
    .locator(".step-title", { hasText: "Equalise annulus and tubing at the mandrel, mandrel 4" })
    .waitFor();
  await page.locator(".top-title", { hasText: "EM-07, mandrel 4" }).waitFor();
  await judge(page, "run sheet");
  // As far off as mandrel 3 wants it: said while it is typed, for mandrel 4.
  const entry = (field: string) => page.locator(`#entry-${field}${own}`);
  await entry("level-first-level").fill("2910");
  await entry("level-first-casing").fill("748");
  await entry("level-first-wellhead").fill("318");
  await page
    .getByText(/Annulus is \d+ psi below tubing at mandrel 4\./)
    .first()
    .waitFor();
  await page.goto(`${site.address}/jobs/${jobs.ready.id}/review`);
  await page.locator(".review-head", { hasText: "then: Change out EM-0714 for EM-2050" }).waitFor();
  await judge(page, "record");
});
