import { readFileSync } from "node:fs";
import { zipSync } from "fflate";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoText } from "../jobs/demo.ts";
import { keptOffline, Site, TabletBrowser } from "./harness.ts";

/** Files that were made to do harm: refused in plain words, the screen still there, and nothing written of them. */
const site = new Site();
const tablet = new TabletBrowser();
let page: Page;
let before: unknown;

/** Everything that the tablet's store holds, counted by table. */
const held = () =>
  page.evaluate(async () => {
    const [{ name = "" } = {}] = await indexedDB.databases();
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await done(indexedDB.open(name));
    const counts: [string, number][] = [];
    for (const table of database.objectStoreNames) {
      counts.push([table, await done(database.transaction(table).objectStore(table).count())]);
    }
    database.close();
    return counts;
  });

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  before = await held();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

const bomb = zipSync({ "xl/worksheets/sheet1.xml": new Uint8Array(60e6) });
const laughs =
  '<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;">]><trajectorys version="1.4.1.1"><trajectory><name>&b;</name></trajectory></trajectorys>';

it.each<[string, string, string | Uint8Array, RegExp]>([
  ["a zip bomb", "wells.xlsx", bomb, /would have 57\.2 MB/],
  ["entities that multiply", "survey.xml", laughs, /defines a document type or entities/],
  [
    "half a workbook, with a name that is none",
    `${"../".repeat(40)}<b>\u202ewells\u0000.xlsx`,
    bomb.subarray(0, 300),
    /not a whole spreadsheet/,
  ],
])("refuses %s among the office's tables", async (_, name, content, says) => {
  await page.goto(`${site.address}/bring-in`);
  await page
    .locator('input[type="file"]')
    .first()
    .setInputFiles({ name, mimeType: "", buffer: Buffer.from(content) });
  await page.getByText(says).waitFor();
  expect(await page.getByRole("button", { name: /^Write/ }).count()).toBe(0);
  expect(await held()).toEqual(before);
});

it("refuses more than a table is", async () => {
  await page.goto(`${site.address}/bring-in`);
  // Made in the page: what drives the browser hands over no file as large as this.
  await page
    .locator('input[type="file"]')
    .first()
    .evaluate((input: HTMLInputElement) => {
      const chosen = new DataTransfer();
      chosen.items.add(new File([new Uint8Array(50_000_001)], "wells.csv"));
      input.files = chosen.files;
      input.dispatchEvent(new Event("change", { bubbles: true }));
    });
  await page.getByText("larger than 50 MB").waitFor();
  expect(await held()).toEqual(before);
});

it.each<[string, (text: string) => string, RegExp]>([
  [
    "that reaches for every object's prototype",
    (text) => text.replace('"made"', '"__proto__": {"polluted": true}, "made"'),
    /a field "__proto__", which no pack has/,
  ],
  ["without an end to its lists", () => "[".repeat(200_000), /nest|deep|not a job pack|damaged/],
  ["that says one thing twice", (text) => text.replace('"made"', '"format": "x", "made"'), /twice/],
])("refuses a pack %s", async (_, spoil, says) => {
  await page.goto(site.address);
  await page.getByRole("button", { name: "Import a pack" }).click();
  await page.getByLabel("Pack file").setInputFiles({
    name: "pack.json",
    mimeType: "application/json",
    buffer: Buffer.from(spoil(demoText())),
  });
  await page.getByRole("dialog").getByRole("alert").getByText(says).waitFor();
  expect(await page.evaluate(() => "polluted" in {})).toBe(false);
  expect(await page.getByRole("button", { name: /^Import pack/ }).count()).toBe(0);
  expect(await held()).toEqual(before);
});

it("takes a survey of WITSML 1.4.1.1 into the well that is chosen", async () => {
  await page.goto(`${site.address}/bring-in`);
  const survey = readFileSync(new URL("../files/em-21-survey-1411.xml", import.meta.url));
  await page
    .locator('input[type="file"]')
    .first()
    .setInputFiles({ name: "survey.xml", mimeType: "", buffer: survey });
  await page.getByLabel("Which well is it of?").first().selectOption({ label: "EM-12" });
  await page.getByRole("button", { name: "Write the path of EM-12" }).click();
  await page.getByText("It is in: EM-12 has a path of").waitFor();
});
