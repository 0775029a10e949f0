import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { record, runToAsFound, stepOf, typeAgain, view } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { casingsIn, eventsIn } from "./log.ts";
import { buildNextWithNewerStore } from "./nextBuild.ts";

const site = new Site();
// Both windows are in use: neither is slowed down as one that lies behind.
const tablet = new TabletBrowser([
  "--disable-renderer-backgrounding",
  "--disable-backgrounding-occluded-windows",
  "--disable-background-timer-throttling",
]);
const next = mkdtempSync(join(tmpdir(), "latchline-newer-"));
const JOB = "job-em-07-3";
const step = stepOf("as-found");
let here: Page;
let there: Page;

beforeAll(async () => {
  buildNextWithNewerStore(next);
  await site.start();
  here = await tablet.open(site.address);
  here.context().setDefaultTimeout(15_000);
  await keptOffline(here);
  await here.locator(".job-card").first().waitFor();
  await sign(here, "R. Tamsin", "wireline supervisor");
  await here.goto(`${site.address}/jobs/${JOB}`);
  await runToAsFound(here);
  there = await anotherWindow();
  await there.goto(`${site.address}/jobs/${JOB}/run`);
  await there.locator(".step-title").waitFor();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
  rmSync(next, { recursive: true });
});

async function anotherWindow(): Promise<Page> {
  const page = await here.context().newPage();
  await page.setViewportSize({ width: 1280, height: 800 });
  return page;
}
const typed = (page: Page) => page.locator("#entry-as-found-casing").inputValue();
/** Reloads a window and opens the step again, where what is half typed comes back. */
async function reopen(page: Page): Promise<void> {
  await page.reload();
  await page.locator(".step-title").waitFor();
  await view(page, step.title);
  await page.getByRole("button", { name: "Read and record again" }).click();
}

it("shows in each of two windows what the other records, as it is recorded", async () => {
  for (const [from, to, casing] of [
    [here, there, "1001"],
    [there, here, "1002"],
  ] as const) {
    await view(to, step.title);
    await typeAgain(from, casing);
    await record(from, step);
    await to.locator(".recorded-value", { hasText: `${casing} psig` }).waitFor();
  }
});

it("keeps what each of two windows has half typed, whatever the other records, and through a reload", async () => {
  await typeAgain(here, "1003");
  await typeAgain(there, "1004");
  await record(here, step);
  expect(await typed(there)).toBe("1004");
  await reopen(there);
  await expect.poll(() => typed(there)).toBe("1004");

  // The other way round: the later typing is the other's, and this window's own is what comes back to it.
  await typeAgain(here, "1005");
  await there.locator("#entry-as-found-casing").fill("1006");
  await there.waitForTimeout(200);
  await reopen(here);
  await expect.poll(() => typed(here)).toBe("1005");
  await record(here, step);
  expect(await typed(there)).toBe("1006");
  await record(there, step);
  expect(casingsIn(await eventsIn(here, JOB)).slice(-3)).toEqual([1003, 1005, 1006]);
});

it("writes one chain, with every entry once, when both windows record at the same moment", async () => {
  const before = await eventsIn(here, JOB);
  const wanted: number[] = [];
  for (let round = 0; round < 3; round += 1) {
    const pair = [1007 + round, 1007.5 + round] as const;
    wanted.push(...pair);
    await typeAgain(here, `${pair[0]}`);
    await typeAgain(there, `${pair[1]}`);
    const press = (page: Page) =>
      page.locator(".step-record").evaluate((button) => {
        (button as HTMLButtonElement).click();
      });
    await Promise.all([press(here), press(there)]);
    for (const page of [here, there]) {
      await page.locator(".run-said", { hasText: `: ${step.title}.` }).waitFor();
    }
  }
  const events = await eventsIn(here, JOB);
  expect(events.length - before.length).toBe(wanted.length);
  expect(casingsIn(events).slice(-wanted.length).sort()).toEqual(wanted);
  // Of one device: the programme is the planner's, and nothing else is another's.
  expect(new Set(events.slice(1).map(({ device }) => device)).size).toBe(1);
  expect(brokenLinks(events)).toEqual([]);
});

it("stops an old window when a newer Latchline changes the store, says reload, and loses nothing of it", async () => {
  await there.close();
  await typeAgain(here, "1012.1");
  const before = await eventsIn(here, JOB);
  await site.stop();
  await site.start(next);
  // The newer one comes past the worker that keeps the old one, as with a forced reload.
  const newer = await anotherWindow();
  const session = await here.context().newCDPSession(newer);
  await session.send("Network.enable");
  await session.send("Network.setBypassServiceWorker", { bypass: true });
  await newer.goto(`${site.address}/jobs/${JOB}/run`);
  await newer.locator(".step-title").waitFor();
  expect(await newer.title()).toBe("Latchline, next");

  await here.getByText("A newer Latchline has changed this tablet's store").waitFor();
  expect(await typed(here)).toBe("1012.1");
  await here.locator("#entry-as-found-casing").fill("1012.2");
  await here.locator(".step-record").click();
  await here.getByText("Not saved: a newer Latchline has changed this tablet's store").waitFor();
  expect(await typed(here)).toBe("1012.2");
  expect(await eventsIn(newer, JOB)).toEqual(before);

  // The newer one goes on meanwhile; the old one, loaded again, does not touch the store and offers the newer.
  await typeAgain(newer, "1012.3");
  await record(newer, step);
  await here.getByRole("button", { name: "Reload this window" }).click();
  await here.getByText("This is an older Latchline than this tablet's store").waitFor();
  await here.getByRole("button", { name: "Use the newer version now" }).click();
  await here.waitForFunction(() => document.title === "Latchline, next");
  await here.locator(".step-title").waitFor();
  await view(here, step.title);
  await here.getByRole("button", { name: "Read and record again" }).click();
  await expect.poll(() => typed(here)).toBe("1012.2");
  await record(here, step);
  const events = await eventsIn(here, JOB);
  expect(casingsIn(events).slice(-2)).toEqual([1012.3, 1012.2]);
  expect(events.slice(0, before.length)).toEqual(before);
  expect(brokenLinks(events)).toEqual([]);
  await newer.close();
});
