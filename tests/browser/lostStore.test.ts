import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { hashOf } from "../../src/jobs/log/seal.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { record, runToAsFound, stepOf, typeAgain, view } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { alterByHand, casingsIn, eventsIn } from "./log.ts";

const site = new Site();
const tablet = new TabletBrowser();
const files = mkdtempSync(join(tmpdir(), "latchline-backups-"));
const JOB = "job-em-07-3";
const step = stepOf("as-found");
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}/jobs/${JOB}`);
  await runToAsFound(page);
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
  rmSync(files, { recursive: true });
});

const toRunSheet = async (at: Page) => {
  await at.goto(`${site.address}/jobs/${JOB}/run`);
  await at.locator(".step-title").waitFor();
};

async function saveBackup(name: string): Promise<string> {
  await page.goto(`${site.address}/storage`);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save a backup now" }).click(),
  ]);
  const file = join(files, name);
  await download.saveAs(file);
  return file;
}

/** Opens a browser that holds nothing, brings a backup in there and looks. */
async function inEmptyBrowser(file: string, look: (there: Page) => Promise<void>): Promise<void> {
  const other = new TabletBrowser();
  try {
    const there = await other.open(site.address);
    await there.getByRole("button", { name: "Remove the demonstration" }).click();
    await there.getByText("No jobs on this tablet").waitFor();
    expect(await eventsIn(there, JOB)).toEqual([]);
    await there.goto(`${site.address}/storage`);
    await there.locator("input[type=file]").setInputFiles(file);
    await there.getByText("is brought in").waitFor();
    await look(there);
  } finally {
    await other.dispose();
  }
}

it("writes a backup that an empty browser reads back to the same log, hash for hash", async () => {
  const file = await saveBackup("whole.json");
  const log = await eventsIn(page, JOB);
  expect(log.length).toBeGreaterThan(10);
  await inEmptyBrowser(file, async (there) => {
    const found = await eventsIn(there, JOB);
    expect(headsOf(found)).toEqual(headsOf(log));
    expect(hashOf(found)).toBe(hashOf(log));
    expect(brokenLinks(found)).toEqual([]);
  });
});

it("stops when its database is deleted under it, makes no new one in silence, and is whole again from backups", async () => {
  const early = await saveBackup("early.json");
  await toRunSheet(page);
  await typeAgain(page, "1001");
  await record(page, step);
  const late = await saveBackup("late.json");
  await toRunSheet(page);
  await typeAgain(page, "1002");
  const log = await eventsIn(page, JOB);

  await page.evaluate(
    () =>
      new Promise((resolve) => {
        indexedDB.deleteDatabase("latchline").onsuccess = resolve;
      }),
  );
  await page.getByText("This tablet's store was emptied while this window was open").waitFor();
  await page.locator(".step-record").click();
  await page.getByText("Not saved: this tablet's store was emptied").waitFor();
  expect(await page.locator("#entry-as-found-casing").inputValue()).toBe("1002");
  const names = await page.evaluate(async () =>
    (await indexedDB.databases()).map(({ name }) => name),
  );
  expect(names).not.toContain("latchline");

  await page.getByRole("button", { name: "Reload this window" }).click();
  await page.getByText("This tablet's store is empty, and it was not before").waitFor();
  const gone = page.locator(".storage-compared li", { hasText: "EM-07" }).first();
  expect(await gone.textContent()).toContain(`a log of ${log.length}`);
  for (const hash of Object.values(headsOf(log))) {
    expect(await gone.textContent()).toContain(hash.slice(0, 12));
  }
  await page.locator("input[type=file]").setInputFiles(early);
  const compared = page.locator(".storage-compared li", { hasText: "EM-07" });
  await compared.filter({ hasText: `the last 1 of ${log.length} events are missing` }).waitFor();
  await page.locator("input[type=file]").setInputFiles(late);
  await compared.filter({ hasText: "the same as before" }).waitFor();
  expect(await eventsIn(page, JOB)).toEqual(log);

  // What was half typed is back, too, and the log goes on behind what it was.
  await page.getByRole("button", { name: "Go to the board" }).click();
  await toRunSheet(page);
  await view(page, step.title);
  await page.getByRole("button", { name: "Read and record again" }).click();
  await expect.poll(() => page.locator("#entry-as-found-casing").inputValue()).toBe("1002");
  await record(page, step);
  const after = await eventsIn(page, JOB);
  expect(after.slice(0, log.length)).toEqual(log);
  expect(casingsIn(after).at(-1)).toBe(1002);
  expect(brokenLinks(after)).toEqual([]);
});

it("says on the run sheet where a log was altered past the app, goes on, and keeps all of it in a backup", async () => {
  const log = await eventsIn(page, JOB);
  const device = log.at(2)?.device;
  const own = log.filter((event) => event.device === device);
  const [first, second] = [own[4], own[7]];
  if (!first || !second) throw new Error("the log is too short");
  await alterByHand(page, second.hash);
  await alterByHand(page, first.hash);
  const altered = await eventsIn(page, JOB);
  expect(altered).not.toEqual(log);

  await toRunSheet(page);
  const says = `event ${first.sequence} was changed after it was written`;
  await page.locator(".run-middle [role=alert]", { hasText: says }).waitFor();
  await typeAgain(page, "1003");
  await record(page, step);
  const after = await eventsIn(page, JOB);
  expect(after.slice(0, altered.length)).toEqual(altered);
  expect(casingsIn(after).at(-1)).toBe(1003);

  const file = await saveBackup("broken.json");
  expect(readFileSync(file, "utf8")).toContain(first.hash);
  await inEmptyBrowser(file, async (there) => {
    await there.locator("[role=alert]", { hasText: says }).waitFor();
    expect(await eventsIn(there, JOB)).toEqual(after);
    await toRunSheet(there);
    await there.locator(".run-middle [role=alert]", { hasText: says }).waitFor();
    // As a pack from elsewhere it is refused, with the way out.
    await there.goto(site.address);
    await there.getByRole("button", { name: "Import a pack" }).click();
    await there.getByLabel("Pack file").setInputFiles(file);
    await there
      .locator("dialog .problem", { hasText: says })
      .filter({ hasText: "bring it in under Storage" })
      .waitFor();
  });
});
