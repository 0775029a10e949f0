import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { buildNext } from "./nextBuild.ts";

const site = new Site();
const tablet = new TabletBrowser();
const next = mkdtempSync(join(tmpdir(), "latchline-next-"));
let page: Page;

beforeAll(async () => {
  buildNext(next);
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
  rmSync(next, { recursive: true });
});

const offer = () => page.getByRole("button", { name: "Use it now" });

async function checkForUpdate() {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    // Installed and waiting, or nothing new: both end here.
    const { installing } = registration;
    if (installing)
      await new Promise((resolve) => installing.addEventListener("statechange", resolve));
  });
}

it("waits, is not offered in the middle of a run, and takes over when it is accepted", async () => {
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("button", { name: "Start the run" }).click();
  await page.locator(".step-record").waitFor();

  await site.stop();
  await site.start(next);
  await checkForUpdate();
  await page.reload();
  await page.locator(".step-record").waitFor();
  expect(await page.title()).toBe("Latchline");
  expect(await offer().count()).toBe(0);
  await page.goto(site.address);
  await page.locator(".job-card").first().waitFor();
  await page.waitForTimeout(500);
  expect(await offer().count()).toBe(0);

  // Without a run under way on this tablet it is offered, and nothing happens until it is accepted.
  await page.getByRole("button", { name: "Remove the demonstration" }).click();
  await offer().waitFor();
  expect(await page.title()).toBe("Latchline");
  // Another window is told, and goes on until somebody there reloads it.
  const other = await page.context().newPage();
  await other.goto(site.address);
  await other.locator(".board").waitFor();
  await offer().click();
  await page.waitForFunction(() => document.title === "Latchline, next");
  await other.getByText("Another window let a newer version of Latchline in").waitFor();
  expect(await other.title()).toBe("Latchline");
  await other.getByRole("button", { name: "Reload" }).click();
  await other.waitForFunction(() => document.title === "Latchline, next");
  await other.close();
});

it("is not taken when one of its files does not come: the old one stays whole", async () => {
  const broken = mkdtempSync(join(tmpdir(), "latchline-broken-"));
  try {
    cpSync(next, broken, { recursive: true });
    const worker = readFileSync(join(broken, "sw.js"), "utf8");
    const lacking = worker.replace(/"url":"assets\/[^"]+"/, '"url":"assets/not-there.js"');
    expect(lacking).not.toBe(worker);
    writeFileSync(join(broken, "sw.js"), lacking);
    await site.stop();
    await site.start(broken);
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      await registration.update().catch(() => {});
    });
    await page.waitForTimeout(1500);
    expect(
      await page.evaluate(async () => (await navigator.serviceWorker.ready).waiting),
    ).toBeNull();
    await site.stop();
    await page.reload();
    await page.getByText("No jobs on this tablet").waitFor();
  } finally {
    rmSync(broken, { recursive: true });
  }
});
