import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { xlsxOf } from "../../src/jobs/files/tabular.ts";
import { valveRegister } from "../files/valveRegister.ts";
import { keptOffline, Site, TabletBrowser } from "./harness.ts";

const site = new Site();
let tablet = new TabletBrowser();
const desk = { width: 1280, height: 800 };

beforeAll(() => site.start());
afterAll(() => site.stop());
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser();
});

async function open() {
  const page = await tablet.open(site.address, desk);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await page.goto(`${site.address}/bring-in`);
  return page;
}

const give = (page: Page, name: string, content: Uint8Array | string) =>
  page
    .locator('input[type="file"]')
    .first()
    .setInputFiles({ name, mimeType: "", buffer: Buffer.from(content) });

const picture = async (page: Page, name: string) => {
  const folder = process.env.LATCHLINE_PICTURES;
  if (!folder) return;
  for (const [width, height] of [
    [1280, 800],
    [800, 1280],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.screenshot({ path: `${folder}/${name}-${width}.png`, fullPage: true });
  }
  await page.setViewportSize(desk);
};

const check = (page: Page) => page.getByRole("button", { name: "Check the table" });

/** How many records of a kind the tablet's store holds. */
const stored = (page: Page, kind: "wells" | "valves" | "tools") =>
  page.evaluate(async (table) => {
    const [{ name = "" } = {}] = await indexedDB.databases();
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await done(indexedDB.open(name));
    const records = await done(database.transaction(table).objectStore(table).getAll());
    database.close();
    return records as Record<string, unknown>[];
  }, kind);

const messy = readFileSync(new URL("../files/wells-messy.csv", import.meta.url), "utf8");

/** Says what the messy list of mandrels does not: the unit, the gaps, and what new wells need. */
async function answerMessy(page: Page) {
  await page.getByRole("button", { name: "psig (gauge)" }).click();
  await page.getByText("An empty cell in the well's column").click();
  await check(page).click();
  await page.getByLabel("Field, for wells that are new here").fill("Ember Mesa");
  await page.getByLabel("Depths are counted from, for").fill("rotary table");
  const above = "That above the wellhead zero, for wells that are new here";
  await page.getByLabel(above, { exact: true }).fill("12.5");
  await page.getByLabel(`Unit: ${above}`).selectOption("ft");
  await page.getByLabel("Injection down the annulus or the tubing").selectOption("annulus");
  await page.getByLabel("Path of wells that are new here").selectOption("vertical");
  await page.getByLabel("Construction of mandrels").selectOption("side pocket");
}

it("brings in a messy list of mandrels: bad cells named and nothing written, then all of it, and the mapping comes back", async () => {
  const page = await open();
  const before = (await stored(page, "wells")).length;
  await page.getByRole("heading", { name: "What should come in?" }).waitFor();
  await picture(page, "source");

  const spoilt = messy
    .replace("EM-IPO-3010;ipo;905", "EM-IPO-3001;gizmo;905")
    .replace("1.498,0", "14x98");
  await give(page, `<img src=x onerror=alert(1)>\u202evsc.csv`, spoilt);
  await page.getByText("10 of 10 columns are used").waitFor();
  expect(await check(page).isDisabled()).toBe(true);
  await page.getByText('"Ptro psi" says psi: gauge or absolute?').waitFor();
  await picture(page, "mapping");
  await answerMessy(page);
  await picture(page, "answers");
  await check(page).click();
  await page.getByRole("heading", { name: "things are wrong" }).waitFor();
  const problems = (await page.locator(".bring-problems li").allTextContents()).join("\n");
  expect(problems).toContain("Row 7, MD RKB (m): 14x98");
  expect(problems).toContain(
    "Row 9, Valve type: gizmo is not one of the choices. Possible: injection-operated",
  );
  await picture(page, "problems");
  expect(await stored(page, "wells")).toHaveLength(before);
  expect(await page.locator("main img").count()).toBe(0);

  // The mended file under the same mapping: it was kept when the first was refused.
  await give(page, "wells.csv", messy);
  await page.getByText("10 of 10 columns are used").waitFor();
  await page.getByRole("button", { name: "Check the table" }).click();
  // Whether mandrels are conventional is no habit of a list: it is asked of each.
  await page.getByLabel("Construction of mandrels").selectOption("side pocket");
  await check(page).click();
  await page.getByRole("button", { name: "Write 3 wells and 5 valves" }).click();
  await page.getByText("From wells.csv: 8 new, 0 changed, 0 the same as before").waitFor();
  await page.getByText("3 wells are taken as vertical").waitFor();
  await page.getByRole("link", { name: "Plan a job" }).waitFor();
  await page.getByRole("link", { name: "Open EM-23" }).waitFor();
  await picture(page, "written");
  const wells = await stored(page, "wells");
  expect(wells).toHaveLength(before + 3);
  expect(wells.find(({ name }) => name === "em 22")).toMatchObject({
    depthReference: { name: "rotary table", aboveWellheadZero: { value: 12.5, unit: "ft" } },
  });

  // Again, pasted, after the page was loaded anew: mapped as the last time, and only what differs is written.
  await page.reload();
  await page.getByRole("button", { name: "Paste cells instead" }).click();
  await page
    .getByLabel("Cells copied from a spreadsheet")
    .fill(messy.replaceAll(";", "\t").replace("1.104,8", "1.105,3"));
  await page.getByRole("button", { name: "Use what is pasted" }).click();
  await page.getByText("as the last time a table with these columns was checked").waitFor();
  await check(page).click();
  await page.getByText("Mandrel 2: Mandrel depth along hole: 1104.8 m becomes 1105.3 m").waitFor();
  await picture(page, "changes");
  await page.getByRole("button", { name: "Write 1 well" }).click();
  await page.getByText("0 new, 1 changed, 7 the same as before").waitFor();
});

it("brings in a workbook with merged names and mixed units from the sheet that is chosen", async () => {
  const page = await open();
  await give(page, "register.xlsx", await valveRegister());
  await page.getByLabel("Register").check();
  await page.getByLabel("Valves in stock").waitFor();
  expect(await page.getByLabel("Valves in stock").isChecked()).toBe(true);
  await page.getByRole("button", { name: "psig (gauge)" }).click();
  await page.getByRole("cell", { name: "62.5 barg" }).waitFor();
  await check(page).click();
  await page.getByLabel("Where are the valves of this table").selectOption("in stock");
  await picture(page, "workbook");
  await check(page).click();
  await page.getByRole("button", { name: "Write 4 valves" }).click();
  await page.getByText("From register.xlsx: 4 new").waitFor();
  const valves = await stored(page, "valves");
  expect(valves.find(({ serial }) => serial === "EM-PPO-4003")).toMatchObject({
    port: { value: 6.35, unit: "mm" },
    state: "in stock",
  });
});

it("reads forty thousand rows beside the screen, can be stopped, and goes on from the same mapping", async () => {
  const page = await open();
  const rows = Array.from(
    { length: 40_000 },
    (_, at) => `EM-L-${at},ipo,1,${800 + (at % 200)},2026-02-0${1 + (at % 9)},0.1875,stock`,
  );
  const large = ["Serial,Type,Size,Ptro psig,Test date,Port in,Status", ...rows].join("\n");
  await give(page, "large.csv", large);
  await page.getByText("40,000 rows below").waitFor();
  await check(page).click();
  await page.getByText("Reading the table: row").waitFor();
  // The screen answers meanwhile.
  await page.getByRole("button", { name: /^Skin/ }).click();
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByText("Stopped. Nothing was written.").waitFor();
  await picture(page, "stopped");
  await check(page).click();
  await page.getByRole("button", { name: "Write 40,000 valves" }).waitFor();
  expect((await stored(page, "valves")).length).toBeLessThan(100);
});

it("opens a workbook so large that its reader would want a worker which the page forbids", async () => {
  const page = await open();
  const rows = Array.from({ length: 20_000 }, (_, at) => [
    `EM-L-${(at * 7919) % 99_991}`,
    "ipo",
    `${800 + ((at * 31) % 997)}`,
  ]);
  const file = xlsxOf({ name: "Valves", columns: ["Serial", "Type", "Ptro psig"], rows });
  expect(file.length).toBeGreaterThan(320_000);
  await give(page, "large.xlsx", file);
  await page.getByText("20,000 rows below").waitFor();
});

it("takes a survey out of WITSML into the well that the planner says, and none that has a hole in it", async () => {
  const page = await open();
  const broken = readFileSync(new URL("../files/em-22-survey-20.xml", import.meta.url), "utf8");
  await give(page, "broken.xml", broken);
  await page.getByText("One station of this survey cannot be read, so it is not taken").waitFor();
  await page.getByText('the unit "chain" is not known').waitFor();
  expect(await page.getByRole("button", { name: /^Write/ }).count()).toBe(0);

  const mended = broken.replace('uom="chain" datum="KB">75', 'uom="m" datum="KB">1300');
  await give(page, "survey.xml", mended);
  await page.getByText("From survey.xml").waitFor();
  await page.getByLabel("Which well is it of?").selectOption({ label: "EM-03" });
  await picture(page, "survey");
  await page.getByRole("button", { name: "Write the path of EM-03" }).click();
  await page.getByText("It is in: EM-03 has a path of").waitFor();
  await page.getByRole("link", { name: "Open EM-03" }).waitFor();
  const well = (await stored(page, "wells")).find(({ name }) => name === "EM-03");
  expect(well).toMatchObject({ path: { kind: "surveyed" } });
});
