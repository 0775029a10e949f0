import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn, otherTablet, runSheet } from "./jobPack.ts";
import { judge, sizes } from "./judge.ts";

const site = new Site();
const tablet = new TabletBrowser();
let page: Page;

/** What a crew meets beside the steps, in the order of an afternoon that goes wrong. */
beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await bringIn(page, site.address, otherTablet("jar-out"));
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}${runSheet}`);
  await page.locator(".step-record").waitFor();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

async function inEverySize(name: string): Promise<void> {
  for (const { name: size, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    await judge(page, `${size}-${name}`);
  }
}

it("what may go wrong, the likeliest here first", async () => {
  await page.getByRole("button", { name: "Something is wrong" }).first().click();
  await page.locator(".contingency").first().waitFor();
  expect(await page.locator(".contingency").first().textContent()).toContain("Valve will not come");
  await inEverySize("something-is-wrong");
});

it("one that is open, and what was done about it", async () => {
  await page.getByRole("button", { name: "Valve will not come", exact: true }).click();
  await page.getByRole("button", { name: "This happens: the sheet waits" }).click();
  await page.getByText("The sheet waits since").waitFor();
  await page.getByText("Level again, let it soak", { exact: true }).click();
  await inEverySize("contingency");
  await page.getByLabel("What came of it").fill("Levelled and left to soak for an hour.");
  await page.locator(".contingency-choice", { hasText: "Read both gauges again" }).click();
  await pressAndHold(page, "Go on at");
  await page.locator(".step-record").waitFor();
});

it("crew and time, and a handover", async () => {
  await page.getByRole("button", { name: "Crew and time" }).first().click();
  await page.getByRole("heading", { name: "Crew and time" }).waitFor();
  await inEverySize("crew-and-time");
});
