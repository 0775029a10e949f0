import { readFileSync } from "node:fs";
import Papa from "papaparse";
import type { Page } from "playwright-core";
import readXlsxFile from "read-excel-file/node";
import { afterAll, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { Tablet } from "../jobs/demo.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn } from "./jobPack.ts";
import { judge, sizes } from "./judge.ts";

const pictures = process.env.LATCHLINE_PICTURES;
const site = new Site();
const tablet = new TabletBrowser();
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

const DAY = "2026-12-03";
const FORMULA = '=HYPERLINK("http://example.invalid","EM-1")';

/** Two jobs of one day that both want one valve; a gauge cutter with a name that a spreadsheet would run. */
const first = { ...jobs.ready, id: "job-day-em-07", day: DAY };
const second = {
  ...jobs.ready,
  id: "job-day-em-03",
  day: DAY,
  well: "em-03",
  mandrel: "em-03-mandrel-2",
  pins: { ...jobs.ready.pins, count: 1, material: "brass" as const },
  strings: { ...jobs.ready.strings, gauge: "string-named" },
};
const gauge = library.strings.find(({ id }) => id === "string-gauge");
const named = {
  ...(gauge as NonNullable<typeof gauge>),
  id: "string-named",
  name: "Gauge string, named",
  tools:
    gauge?.tools.map((tool) => (tool.id === "gauge" ? { ...tool, name: FORMULA } : tool)) ?? [],
};
const records = { ...library, jobs: [first, second], strings: [...library.strings, named] };

it("two wells in a day: put in order, seen to clash, loaded, kept without a network, and taken along as files", async () => {
  await site.start();
  const page = await tablet.open(site.address);
  await keptOffline(page);
  await bringIn(page, site.address, new Tablet(), records);
  await sign(page, "E. Rowan", "planner");
  await site.stop();
  await page.goto(`${site.address}/days/${DAY}`);

  // By their wells until the planner orders them, by the keyboard.
  const wells = page.locator(".day-jobs h3");
  await expect.poll(() => wells.allTextContents()).toEqual(["EM-03", "EM-07"]);
  await page.getByRole("button", { name: "Move EM-07 up" }).focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => wells.allTextContents()).toEqual(["EM-07", "EM-03"]);
  // The row is at its end now; the same key takes it back from where the focus is.
  await page.keyboard.press("Enter");
  await expect.poll(() => wells.allTextContents()).toEqual(["EM-03", "EM-07"]);
  await page.getByRole("button", { name: "Move EM-03 down" }).click();
  await expect.poll(() => wells.allTextContents()).toEqual(["EM-07", "EM-03"]);

  const worst = page.locator(".day-clashes li").first();
  expect(await worst.textContent()).toContain(
    "Valve EM-2041 is to go into EM-07, mandrel 3 and EM-03, mandrel 2.",
  );
  await page.getByText("Set string, orienting: EM-07, EM-03").waitFor();

  // Ticked, each with who and when.
  const line = (what: string) => page.locator(".load-line").filter({ hasText: what });
  const tickOf = (what: string) => line(what).getByRole("checkbox");
  await tickOf("Stem 1-1/2 in x 5 ft").click();
  await line("Stem 1-1/2 in x 5 ft").getByText("Loaded: E. Rowan").waitFor();
  await tickOf("Kickover tool, orienting").click();
  await tickOf(FORMULA).click();
  await page.getByText(/^3 of \d+ loaded$/).waitFor();

  // By hand: refused with what to mend, then kept as typed.
  await page.getByLabel("Take along as well").fill("  @SUM(A1) of coffee");
  await page.getByLabel("Count").fill("some");
  await page.getByRole("button", { name: "Add to the list" }).click();
  await page.getByText('"some" is no count: a whole number from 1 to 999.').waitFor();
  await page.getByLabel("Count").fill("2");
  await page.getByRole("button", { name: "Add to the list" }).click();
  await line("@SUM(A1) of coffee").waitFor();

  // The battery dies; the server is gone.
  await tablet.kill();
  const again = await tablet.open(`${site.address}/days/${DAY}`);
  await again.getByText(/^3 of \d+ loaded$/).waitFor();
  expect(await again.locator(".day-jobs h3").allTextContents()).toEqual(["EM-07", "EM-03"]);

  await compareFiles(again);
  await lookedAt(again);
  await onPaper(again);

  // The second job goes to another day: what was loaded for it alone is named, and nothing is lost.
  await again.evaluate(
    async (job) => {
      const [{ name = "" } = {}] = await indexedDB.databases();
      const database = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open(name);
        request.onsuccess = () => resolve(request.result);
      });
      const transaction = database.transaction("jobs", "readwrite");
      transaction.objectStore("jobs").put(job);
      await new Promise((resolve) => {
        transaction.oncomplete = resolve;
      });
      database.close();
    },
    { ...second, day: "2026-12-04", revision: 2 },
  );
  await again.reload();
  const notNeeded = again.locator(".load-line.not-needed");
  await notNeeded.getByText(`1 × ${FORMULA}`).waitFor();
  await notNeeded.getByRole("button", { name: /^Off the truck/ }).click();
  await expect.poll(() => notNeeded.count()).toBe(0);
});

/** Both files, read back by other readers: nothing in them runs, and both say the same. */
async function compareFiles(page: Page): Promise<void> {
  const saved = async (button: string) => {
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: button }).click(),
    ]);
    return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
  };
  const csv = await saved("Save as CSV");
  expect(csv.name).toBe(`latchline-load-out-${DAY}.csv`);
  const { data } = Papa.parse<string[]>(csv.bytes.toString("utf8").replace(/^\ufeff/, ""), {
    skipEmptyLines: true,
  });
  const shown = await page.locator(".load-line").count();
  expect(data).toHaveLength(shown + 1);
  const row = (what: string) => data.find((cells) => cells[2]?.includes(what)) ?? [];
  expect(row("Stem 1-1/2")).toMatchObject({
    1: "2",
    4: "EM-07, EM-03",
    8: "loaded",
    9: "E. Rowan",
  });
  expect(row("HYPERLINK")[2]).toBe(`'${FORMULA}`);
  expect(row("coffee")[2]).toBe("'@SUM(A1) of coffee");
  expect(data.flat().filter((cell) => /^\s*[=+\-@]/.test(cell))).toEqual([]);

  const excel = await saved("Save as XLSX");
  expect(excel.name).toBe(`latchline-load-out-${DAY}.xlsx`);
  const [sheet] = await readXlsxFile(excel.bytes);
  const words = sheet?.data.map((cells) => cells.map((cell) => String(cell ?? "")));
  expect(words).toEqual(data);
  expect(sheet?.data.find(([, , what]) => String(what).includes("Stem"))?.[1]).toBe(2);
}

/** On the screens it is used on. */
async function lookedAt(page: Page): Promise<void> {
  for (const { name, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    await page.evaluate(() => scrollTo(0, 0));
    await judge(page, `day-${name}`);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
}

async function onPaper(page: Page): Promise<void> {
  await page.emulateMedia({ media: "print" });
  await page.getByText(/^Thu 3 Dec 2026\s*Printed \d{4}-/).waitFor();
  expect(await page.getByRole("button", { name: "Save as CSV" }).isVisible()).toBe(false);
  expect(await page.getByRole("button", { name: "Move EM-03 up" }).isVisible()).toBe(false);
  expect(await page.getByText("Stem 1-1/2 in x 5 ft").first().isVisible()).toBe(true);
  // A box to tick on paper for what is not ticked here.
  const box = await page.locator(".load-line.open input").first().boundingBox();
  expect(box?.width).toBeGreaterThan(8);
  expect(
    await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    ),
  ).toBeLessThanOrEqual(0);
  if (pictures) {
    await page.pdf({
      path: `${pictures}/day.pdf`,
      format: "A4",
      margin: { top: "12mm", bottom: "12mm", left: "12mm", right: "12mm" },
    });
    await page.setViewportSize({ width: 794, height: 1123 });
    await page.screenshot({ path: `${pictures}/day-print.png`, fullPage: true });
    await page.setViewportSize({ width: 1280, height: 800 });
  }
  await page.emulateMedia({ media: "screen" });
}
