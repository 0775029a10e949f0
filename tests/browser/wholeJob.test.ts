import { afterAll, beforeAll, expect, it } from "vitest";
import { goodRun } from "../jobs/demo.ts";
import { close, heading, record, runThrough, stepOf, typeStep } from "./crew.ts";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { typedIsKept } from "./log.ts";

const site = new Site();
const tablet = new TabletBrowser();

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

it("runs one change-out from the board to approval with the server gone, the browser killed on the way", async () => {
  let page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();

  // The supervisor opens today's job, offline from here on.
  await page.reload();
  await sign(page, "R. Tamsin", "wireline supervisor");
  const card = page.locator(".job-card", { hasText: "EM-07" });
  await card.getByText("Programme issued").waitFor();
  await card.getByRole("link", { name: "Read the brief" }).click();
  await page.getByRole("button", { name: "Start the run" }).click();
  // Gauges were read over the last hour and are typed now; then the keys of the tablet are used.
  await runThrough(page, undefined, "locate", goodRun, {
    "as-found": 60,
    "let-in": 40,
    "level-first": 20,
  });
  await typeStep(page, stepOf("locate"), {
    "tagged-above": { text: "3242" },
    "tagged-below": { text: "5294" },
  });
  await page.locator("#entry-pocket-depth").click();
  const keys = page.locator(".keypad");
  for (const key of ["4", "3", "8", "9"])
    await keys.getByRole("button", { name: key, exact: true }).click();
  await keys.getByRole("button", { name: "delete last" }).click();
  await keys.getByRole("button", { name: "3", exact: true }).click();
  expect(await page.locator("#entry-pocket-depth").inputValue()).toBe("4383");
  await keys.getByRole("button", { name: "Next" }).click();
  await keys.getByRole("button", { name: "4", exact: true }).click();
  await keys.getByRole("button", { name: "6", exact: true }).click();
  // Nothing is recorded of this step yet.
  await typedIsKept(page, "46");
  await tablet.kill();

  page = await tablet.open(`${site.address}/jobs/job-em-07-3/run`);
  await page.locator(".step-title").waitFor();
  expect(await heading(page)).toBe(stepOf("locate").title);
  await page.locator("#entry-pocket-depth").waitFor();
  await expect.poll(() => page.locator("#entry-pocket-depth").inputValue()).toBe("4383");
  expect(await page.locator("#entry-key-pull").inputValue()).toBe("46");
  expect(await page.locator("#entry-tagged-above").inputValue()).toBe("3242");
  await page.locator("#entry-key-pull").fill("465");
  // Who holds the tablet may have to be said anew after a dead battery.
  await sign(page, "R. Tamsin", "wireline supervisor");
  await record(page, stepOf("locate"));
  await tablet.kill();

  // Acknowledged is kept: the step is done, with what was typed.
  page = await tablet.open(`${site.address}/jobs/job-em-07-3/run`);
  await page.locator(".step-title", { hasText: stepOf("latch-on").title }).waitFor();
  await page.getByRole("button", { name: stepOf("locate").title }).click();
  await page
    .locator(".recorded-entry", { hasText: "Depth resting on the latch" })
    .getByText("4383 ft")
    .waitFor();
  await page.getByRole("button", { name: /Back to where the run stands/ }).click();
  await sign(page, "R. Tamsin", "wireline supervisor");

  await runThrough(page, "latch-on", "proof-start", goodRun);
  await runThrough(page, "proof-start", undefined, goodRun, { "proof-start": 20 });
  await close(page, "All as planned.");

  // The engineer reads the record and approves it.
  await page.goto(site.address);
  await sign(page, "L. Ashgrove", "production engineer");
  await page
    .locator(".job-card", { hasText: "EM-07" })
    .getByRole("link", { name: "Review" })
    .click();
  await page.getByText("in an unbroken chain").waitFor();
  // To let the watches pass, gauges were dated back: that somebody stood by it, and nothing else, is on the list.
  const kinds = page.locator(".review-kind");
  await kinds.first().waitFor();
  expect(new Set(await kinds.allTextContents())).toEqual(new Set(["stood by"]));
  await page.getByRole("button", { name: "Send back with this remark" }).click();
  await page.getByText("Say what is missing or wrong").waitFor();
  await page.getByRole("textbox", { name: "Remark" }).fill("Good work.");
  await pressAndHold(page, "Approve the record");
  await page.getByText("Approved. ", { exact: false }).first().waitFor();
  await page.goto(site.address);
  await page.locator(".job-card", { hasText: "EM-07" }).getByText("Approved").waitFor();

  const elsewhere = tablet.requests.filter(
    (url) => !url.startsWith(site.address) && !/^(blob|data|about|chrome)/.test(url),
  );
  expect(elsewhere).toEqual([]);
});
