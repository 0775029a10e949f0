import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { keptOffline, Site, TabletBrowser } from "./harness.ts";
import { judge } from "./judge.ts";

const site = new Site();
const tablet = new TabletBrowser();
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address, { width: 1280, height: 800 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

it("an engineer sees what the numbers say first, what lies outside on top, and opens its working", async () => {
  const record = `${site.address}/jobs/job-em-03-3/review`;
  await page.goto(record);
  const verdict = page.locator(".verdict");
  await verdict.getByText("Where gas enters: consistent").waitFor();
  await verdict.getByText("By these pressures gas passes at mandrel 4").waitFor();
  // Every section of the record stands behind it.
  const headings = await page.locator("main h2").allTextContents();
  expect(headings.indexOf("Verdict of the numbers")).toBe(1);

  const plan = page.getByRole("region", { name: "Plan against actual" });
  await plan.getByText("over the limit by 35 lbf").waitFor();
  await plan.getByText("1 of 22 readings over its limit.").waitFor();
  await plan
    .getByRole("button", { name: /1055 lbf.*its working/ })
    .first()
    .click();
  await page.locator(".working-formula").waitFor();
  await page.getByRole("button", { name: "Close" }).click();

  const set = page.getByRole("region", { name: "The valve that was set" });
  await set.getByText("109 psi more would open it").waitFor();
  await page.getByText("Weights on the depth chart").click();
  await page.locator(".depth-picture").waitFor();

  // An address leads to one reading in its phase, however it is folded.
  const inside = plan.locator("tr", { hasText: "Line pull picking up there" });
  const anchor = await inside.getAttribute("id");
  await page.goto("about:blank");
  await page.goto(`${record}#${anchor}`);
  await inside.waitFor();
  await inside.getByText("inside").waitFor();
});

it("nothing sticks out on a phone with the readings and valves unfolded", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`${site.address}/jobs/job-em-03-3/review`);
  for (const opens of ["Every valve at these pressures", "Gauge run, 11"]) {
    await page.locator("summary", { hasText: opens }).first().click();
  }
  // Of the phases, which are alike, one is unfolded.
  await judge(page, "phone-plan-actual", [
    ".verdict",
    "[aria-labelledby=set-valve-title]",
    "[aria-labelledby=plan-actual-title] details[open]",
  ]);
});
