import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { lock } from "../../src/jobs/pack/locked.ts";
import { makePack, packText } from "../../src/jobs/pack/pack.ts";
import { emptyLibrary, type Library } from "../../src/jobs/store/library.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { downloadPack } from "./jobPack.ts";
import { judge, sizes } from "./judge.ts";
import { eventsIn } from "./log.ts";

/** The office hands the day to a crew without network, and takes back what comes; nothing is written unseen. */

const site = new Site();
const office = new TabletBrowser();
const crew = new TabletBrowser();
const files = mkdtempSync(join(tmpdir(), "latchline-packs-"));
const PASSPHRASE = "rope socket, two stems";
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await office.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
});
afterAll(async () => {
  await office.dispose();
  await crew.dispose();
  await site.stop();
  rmSync(files, { recursive: true });
});

const packOf = (records: Partial<Library>) =>
  packText(
    makePack(
      { records: { ...emptyLibrary, ...records } as never, events: [] },
      new Date().toISOString(),
    ),
  );
const dialogOf = (on: Page) => on.getByRole("dialog");
const stored = (on: Page, kind: string, id: string) =>
  on.evaluate(
    ([table, key]) =>
      new Promise<Record<string, unknown> | undefined>((resolve, reject) => {
        const opening = indexedDB.open("latchline");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const reading = db.transaction(table).objectStore(table).get(key);
          reading.onerror = () => reject(reading.error);
          reading.onsuccess = () => {
            db.close();
            resolve(reading.result as Record<string, unknown> | undefined);
          };
        };
      }),
    [kind, id] as const,
  );

async function chooseFile(on: Page, name: string, text: string): Promise<void> {
  const file = join(files, name);
  writeFileSync(file, text);
  await on.getByRole("button", { name: "Import a pack" }).click();
  await on.getByLabel("Pack file").setInputFiles(file);
}
async function close(on: Page): Promise<void> {
  await dialogOf(on).getByRole("button", { name: "Close" }).click();
  await dialogOf(on).waitFor({ state: "detached" });
}

/** Lets a file go over an element, as a hand with a mouse does. */
async function drop(on: Page, selector: string, name: string, text: string): Promise<void> {
  const data = await on.evaluateHandle(
    ([called, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], called, { type: "application/json" }));
      return transfer;
    },
    [name, text] as const,
  );
  await on.dispatchEvent(selector, "dragover", { dataTransfer: data });
  await on.locator(".pack-drop").waitFor();
  await on.dispatchEvent(selector, "drop", { dataTransfer: data });
}

it("refuses a pack that was changed and one of a newer version, dropped on the board, whatever its name", async () => {
  const good = packOf({ lines: library.lines });
  await drop(page, ".board-columns", "\u202egpj.<img src=x>.json", good.replace("0.108", "0.125"));
  const problem = dialogOf(page).locator(".problem");
  await problem.waitFor();
  expect(await problem.textContent()).toMatch(
    /^▯gpj.<img src=x>.json: The pack was damaged or changed/,
  );
  expect(await page.locator("dialog img").count()).toBe(0);
  await drop(page, "dialog", "newer.json", good.replace('"version":5', '"version":9'));
  await problem.filter({ hasText: "newer.json: This pack is of version 9" }).waitFor();
  await close(page);
});

it("shows what differs field by field, and takes what is chosen, record by record", async () => {
  const [string] = library.strings;
  const [valve] = library.valves;
  if (!string || !valve) throw new Error("no records");
  const measured = {
    ...string,
    revision: string.revision + 2,
    tools: string.tools.map((tool, at) =>
      at === 1 ? { ...tool, length: { value: 5.25, unit: "ft" as const } } : tool,
    ),
  };
  const twin = { ...valve, id: "valve-of-the-crew", serial: "em 0711" };
  const pack = packOf({
    strings: [measured],
    valves: [{ ...valve, remarks: "Scored at the lower packing" }, twin],
  });
  await drop(page, "main", "back.json", pack);
  const dialog = dialogOf(page);
  const ofString = dialog.getByRole("group", { name: string.name });
  await ofString.getByRole("row", { name: /Tool .*, length 5 ft 5.25 ft/ }).waitFor();
  const ofValve = dialog.getByRole("group", { name: `Valve ${valve.serial}` });
  await ofValve
    .getByRole("row", { name: "Remarks not said Scored at the lower packing" })
    .waitFor();
  await dialog.getByText("Valve em 0711 stands under two records").waitFor();
  for (const { name, ...size } of sizes) {
    await page.setViewportSize(size);
    await judge(page, `${name}-pack-differs`);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
  expect(await ofValve.getByLabel(/^Keep what is here/).isChecked()).toBe(true);
  await dialog.getByRole("button", { name: "Take all of the pack's" }).click();
  await ofValve.getByLabel(/^Keep what is here/).check();
  // Until now nothing was written.
  expect(await stored(page, "valves", twin.id)).toBeUndefined();
  await dialog.getByRole("button", { name: "Import back.json" }).click();
  await dialog.getByText("back.json is imported.").waitFor();
  await close(page);
  const kept = (await stored(page, "strings", string.id)) as typeof string | undefined;
  expect(kept?.tools[1]?.length).toEqual({ value: 5.25, unit: "ft" });
  expect(await stored(page, "valves", valve.id)).toEqual(valve);
  expect(await stored(page, "valves", twin.id)).toEqual(twin);
});

it("opens a locked pack with its passphrase, and keeps what was typed until then", async () => {
  const [line] = library.lines;
  if (!line) throw new Error("no line");
  const text = packOf({ lines: [{ ...line, id: "line-new", name: "Wire of the second unit" }] });
  await chooseFile(page, "locked.json", await lock(text, PASSPHRASE, crypto));
  const dialog = dialogOf(page);
  await dialog.getByText("locked.json is locked with a passphrase.").waitFor();
  await dialog.getByLabel("Passphrase").fill("rope socket, two stem");
  await dialog.getByRole("button", { name: "Open the pack" }).click();
  await dialog
    .locator(".problem", {
      hasText: "either the passphrase is another one, or the file was damaged",
    })
    .waitFor();
  expect(await dialog.getByLabel("Passphrase").inputValue()).toBe("rope socket, two stem");
  await judge(page, "tablet-pack-locked");
  await dialog.getByLabel("Passphrase").fill(PASSPHRASE);
  await dialog.getByRole("button", { name: "Open the pack" }).click();
  await dialog.getByText("New here: 1").waitFor();
  await dialog.getByText("Wire of the second unit").waitFor();
  await dialog.getByRole("button", { name: "Import locked.json" }).click();
  await dialog.getByText("locked.json is imported.").waitFor();
  await close(page);
  expect(await stored(page, "lines", "line-new")).toMatchObject({
    name: "Wire of the second unit",
  });
});

it("takes a pack that another app shares, once", async () => {
  const [line] = library.lines;
  const text = packOf({
    lines: [{ ...line, id: "line-shared", name: "Wire that was shared" } as never],
  });
  const landed = await page.evaluate(async (content) => {
    const form = new FormData();
    form.append("pack", new File([content], "EM-07 & more.json.txt", { type: "text/plain" }));
    return (await fetch("/shared-pack", { method: "POST", body: form })).url;
  }, text);
  expect(landed).toBe(`${site.address}/?shared=here`);
  await page.goto(landed);
  await dialogOf(page).getByText("Wire that was shared").waitFor();
  await dialogOf(page).getByRole("button", { name: "Import EM-07 & more.json.txt" }).waitFor();
  expect(new URL(page.url()).search).toBe("");
  await close(page);
  await page.reload();
  await page.locator(".job-card").first().waitFor();
  expect(await dialogOf(page).count()).toBe(0);
  expect(await page.evaluate(() => caches.has("latchline-shared-packs"))).toBe(false);
});

it("takes a file that the system opens with it", async () => {
  // A browser in a test has no system that opens files: this stands for it, the rest is the app's own.
  await page.addInitScript(() => {
    Object.defineProperty(window, "launchQueue", {
      configurable: true,
      value: {
        setConsumer: (consumer: (launched: object) => void) =>
          consumer({ files: [{ getFile: async () => new File(["{}"], "opened.json") }] }),
      },
    });
  });
  await page.goto(site.address);
  const problem = dialogOf(page).locator(".problem");
  await problem.filter({ hasText: "opened.json: This is not a job pack" }).waitFor();
  await page.addInitScript(() =>
    Object.defineProperty(window, "launchQueue", { value: undefined }),
  );
  await page.goto(site.address);
  await page.locator(".job-card").first().waitFor();
});

it("hands a whole day over, locked, to a crew without network, and takes the run back", async () => {
  // A second well on the same day.
  const today = String((await stored(page, "jobs", jobs.ready.id))?.day);
  const second = {
    ...jobs.ready,
    id: "job-second",
    day: today,
    well: "em-12",
    mandrel: "em-12-mandrel-3",
  };
  await chooseFile(page, "second.json", packOf({ jobs: [second] }));
  await dialogOf(page).getByRole("button", { name: "Import second.json" }).click();
  await dialogOf(page).getByText("second.json is imported.").waitFor();
  await close(page);

  const there = await crew.open(site.address, { width: 800, height: 1280 });
  await keptOffline(there);
  await there.getByRole("button", { name: "Remove the demonstration" }).click();
  await there.getByText("No jobs on this tablet").waitFor();
  await site.stop();

  await page.goto(`${site.address}/jobs/${jobs.ready.id}`);
  await page.getByRole("button", { name: "Save a pack" }).click();
  const dialog = dialogOf(page);
  await dialog.getByLabel(/^All \d jobs of/).check();
  await dialog.getByText(`latchline-day-${today}.json`).waitFor();
  await dialog.getByLabel("Lock it with a passphrase").check();
  await dialog.getByLabel("Passphrase", { exact: true }).fill(PASSPHRASE);
  await dialog.getByLabel("Passphrase once more").fill("rope socket");
  await dialog.getByRole("button", { name: "Lock the pack" }).click();
  await dialog.locator(".problem", { hasText: "The two do not agree" }).waitFor();
  expect(await dialog.getByRole("button", { name: "Download" }).count()).toBe(0);
  for (const { name, ...size } of sizes) {
    await page.setViewportSize(size);
    await judge(page, `${name}-hand-over`);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
  await dialog.getByLabel("Passphrase once more").fill(PASSPHRASE);
  await dialog.getByRole("button", { name: "Lock the pack" }).click();
  await dialog.getByText("Locked. Whoever opens it").waitFor();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    dialog.getByRole("button", { name: "Download" }).click(),
  ]);
  await dialog
    .getByText(`latchline-day-${today}.json handed to the browser's downloads.`)
    .waitFor();
  await judge(page, "tablet-handed-over");
  await close(page);
  expect(download.suggestedFilename()).toBe(`latchline-day-${today}.json`);
  const locked = readFileSync(await download.path(), "utf8");
  expect(locked).not.toContain("EM-07");

  await chooseFile(there, "day.json", locked);
  await dialogOf(there).getByLabel("Passphrase").fill(PASSPHRASE);
  await dialogOf(there).getByRole("button", { name: "Open the pack" }).click();
  await dialogOf(there)
    .getByText(/job on EM-12/)
    .waitFor();
  await dialogOf(there).getByRole("button", { name: "Import day.json" }).click();
  await dialogOf(there).getByText("day.json is imported.").waitFor();
  await close(there);
  await there.getByRole("region", { name: /Today/ }).getByText("EM-12").first().waitFor();

  // The crew writes into the log; it comes back and joins the office's.
  await sign(there, "R. Tamsin", "wireline supervisor");
  await there.goto(`${site.address}/jobs/${jobs.ready.id}`);
  await there.getByRole("button", { name: "Start the run" }).click();
  await there.locator(".step-title").waitFor();
  await there.goto(`${site.address}/jobs/${jobs.ready.id}`);
  const back = readFileSync(await (await downloadPack(there)).path(), "utf8");
  await page.goto(site.address);
  await chooseFile(page, "back.json", back);
  await dialogOf(page).getByText("1 new event of the jobs' logs").waitFor();
  await dialogOf(page).getByRole("button", { name: "Import back.json" }).click();
  await dialogOf(page).getByText("back.json is imported.").waitFor();
  await close(page);
  const events = await eventsIn(page, jobs.ready.id);
  expect(events.map(({ body }) => body.type)).toEqual(["programme issued", "run started"]);
  expect(events).toEqual(await eventsIn(there, jobs.ready.id));
});
