import { afterAll, beforeAll, expect, it } from "vitest";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import type { HoldPoint } from "../../src/jobs/sheet/sheet.ts";
import { holdPointsOf } from "../../src/jobs/sheet/walk.ts";
import { signAndRelease, stepOf } from "./crew.ts";
import { drawSignature, keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn, otherTablet, runSheet } from "./jobPack.ts";

const site = new Site();
const tablet = new TabletBrowser();
const pushOut = holdPointsOf(changeOut).find(({ id }) => id === "push-out-hold") as HoldPoint;

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

it("stands by, hands over to the next crew with a drawn signature, and goes on in the other's name", async () => {
  const page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  await bringIn(page, site.address, otherTablet("zero"));
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}${runSheet}`);
  await page.locator(".step-title", { hasText: stepOf("zero").title }).waitFor();

  await page.locator("#entry-zero-at").fill("Tool's end at the rotary table");
  await page.getByRole("button", { name: "Crew and time" }).first().click();
  await page.getByRole("button", { name: "Weather" }).click();
  await page.getByRole("button", { name: "Start standby" }).click();
  await page.getByText("The crew stands by since").waitFor();

  // What was released for this step is looked at again, and the sheet waits with the crew.
  await page.getByText(/The crew stood by from \d\d:\d\d, before the work it guards/).waitFor();
  await pressAndHold(page, "Release hold point");
  await page.getByText("End the standby first.").waitFor();
  await page.getByRole("button", { name: /The crew stands by since/ }).click();
  await page.getByRole("button", { name: "End the standby" }).click();
  await page.getByText("standby ended.").waitFor();

  await page.getByRole("button", { name: "Crew and time" }).first().click();
  await page.getByLabel("Who takes the run over").fill("S. Ivel");
  await page
    .getByLabel("Where things stand: string, pressures, what is open")
    .fill("Gauge string in the lubricator, crown valve open, counter not set.");
  await drawSignature(page);
  await page.getByText("Drawn in one stroke.").waitFor();
  await pressAndHold(page, "S. Ivel takes the run over");
  await page.getByText("S. Ivel has the run.").waitFor();

  // The next one releases it anew; what was typed before is still there, and goes into the log in the next one's name.
  await signAndRelease(page, pushOut);
  expect(await page.locator("#entry-zero-at").inputValue()).toBe("Tool's end at the rotary table");
  await page.locator("#entry-zero-seen").fill("P. Hallow");
  await page.locator(".step-record").click();
  await page.locator(".run-said", { hasText: stepOf("zero").title }).waitFor();
  await page.getByRole("button", { name: stepOf("zero").title }).click();
  await page.getByText(/Done, \d+ \w+ \d\d:\d\d by S\. Ivel/).waitFor();
});
