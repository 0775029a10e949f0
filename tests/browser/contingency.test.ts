import { afterAll, beforeAll, expect, it } from "vitest";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { contingencyById } from "../../src/jobs/sheet/walk.ts";
import { goodRun } from "../jobs/demo.ts";
import { runThrough, stepOf } from "./crew.ts";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn, otherTablet, runSheet } from "./jobPack.ts";
import { typedIsKept } from "./log.ts";

const site = new Site();
const tablet = new TabletBrowser();

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

it("deals with a latch that is missed: one tap to the first words, noted, the run made again from the string on", async () => {
  const page = await tablet.open(site.address, { width: 800, height: 1280 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  await bringIn(page, site.address, otherTablet("latch-on"));
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}${runSheet}`);
  await page.locator(".step-title", { hasText: stepOf("latch-on").title }).waitFor();

  const missed = contingencyById(changeOut, "no-latch");
  if (!missed) throw new Error("no such contingency");
  await page.getByRole("button", { name: "Something is wrong" }).first().click();
  // What is likeliest here comes first.
  const first = await page.locator(".contingency").first().textContent();
  expect(contingencyById(changeOut, "no-latch")?.near).toContain("latch-on");
  expect(missed.near).toContain("latch-on");
  expect(first).not.toBe("");
  await page.getByRole("button", { name: missed.title, exact: true }).click();
  await page.getByText(missed.stop).waitFor();
  await page.getByRole("button", { name: "This happens: the sheet waits" }).click();
  await page.getByText("The sheet waits since").waitFor();

  // A step that was looked at meanwhile cannot be entered; what is half typed is there after the battery died.
  const way = missed.options.find(({ rejoins }) => rejoins.includes("second-barriers"));
  if (!way) throw new Error("no way back to before the string");
  await page.getByText(way.label, { exact: true }).click();
  await page.getByLabel("What came of it").fill("Fill on the latch, came out to bail.");
  await typedIsKept(page, "Fill on the latch, came out to bail.");
  await tablet.kill();
  const again = await tablet.open(`${site.address}${runSheet}`, { width: 800, height: 1280 });
  await again.getByText("The sheet waits since").waitFor();
  await expect
    .poll(() => again.getByLabel("What came of it").inputValue())
    .toBe("Fill on the latch, came out to bail.");

  // Who holds the tablet may have to be said anew after a dead battery.
  await sign(again, "R. Tamsin", "wireline supervisor");
  const place = stepOf("second-barriers");
  await again.locator(".contingency-choice", { hasText: place.title }).click();
  await pressAndHold(again, `Go on at "${place.title}"`);
  await again.locator(".step-title", { hasText: place.title }).waitFor();
  // The second attempt starts empty and is entered like the first.
  await runThrough(again, "second-barriers", "locate", goodRun, { "level-first": 1 });
  await again.locator(".step-title", { hasText: stepOf("locate").title }).waitFor();

  // Where the time went, and that the run was made twice.
  await again.getByRole("button", { name: "Crew and time" }).first().click();
  await again.getByText("Pull run, made 2 times").waitFor();
});
