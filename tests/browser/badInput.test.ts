import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { goodRun } from "../jobs/demo.ts";
import { runThrough, stepOf, typeStep, view } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { downloadPack } from "./jobPack.ts";

const site = new Site();
const tablet = new TabletBrowser();
const files = mkdtempSync(join(tmpdir(), "latchline-packs-"));
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address, { width: 800, height: 1280 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
  rmSync(files, { recursive: true });
});

it("says who has to be named before anything is signed, and starts nothing", async () => {
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("button", { name: "Start the run" }).click();
  await page.getByText("Say first who holds this tablet").waitFor();
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.getByRole("button", { name: "Start the run" }).click();
  await page.locator(".step-title").waitFor();
});

it.each([
  [
    "an impossible pressure",
    "60000",
    /Casing pressure at surface: 60000 psig cannot be; a pressure lies between -14.7 and 50,000 psig/,
  ],
  ["a letter in a number", "10l2", /"10l2" is not a number. Enter digits/],
  ["two points", "1.0.1", /"1.0.1" is not a number/],
  ["a comma for thousands", "1,012.5", /"1,012.5" is not a number/],
  ["a comma that could mean either", "1,012", /"1,012" could mean 1012 or 1.012/],
])("answers %s beside its field, and keeps it on the screen", async (_, typed, says) => {
  const step = stepOf("as-found");
  await runThroughOnce();
  await typeStep(page, step, {
    "as-found-casing": { text: typed },
    "as-found-wellhead": { text: "318" },
  });
  await page.locator(".step-record").click();
  const problem = page.locator("#entry-as-found-casing-problem");
  await problem.waitFor();
  expect(await problem.textContent()).toMatch(says);
  expect(await page.locator("#entry-as-found-casing").inputValue()).toBe(typed);
  expect(await page.locator("#entry-as-found-wellhead").inputValue()).toBe("318");
  expect(await page.locator("#entry-as-found-casing").getAttribute("aria-invalid")).toBe("true");
});

it("answers an empty reading by its name, and goes on once it is entered", async () => {
  const step = stepOf("as-found");
  await page.locator("#entry-as-found-casing").fill("1012");
  await page.locator("#entry-as-found-wellhead").fill("");
  await page.locator(".step-record").click();
  await page.getByText("Wellhead pressure: nothing entered. Enter it.").waitFor();
  expect(await page.locator("#entry-as-found-casing").inputValue()).toBe("1012");
  await page.locator("#entry-as-found-wellhead").fill("318");
  await page.locator(".step-record").click();
  await page.locator(".run-said", { hasText: step.title }).waitFor();
});

it("asks about a reading beyond what the well can show, and records it when somebody stands by it", async () => {
  await view(page, stepOf("as-found").title);
  await page.getByRole("button", { name: "Read and record again" }).click();
  await page.locator("#entry-as-found-casing").fill("8600");
  await page.locator("#entry-as-found-wellhead").fill("318");
  await page.locator(".step-record").click();
  await page.getByText("8600 psig is more than the 1100 psig").waitFor();
  await page.locator("#entry-as-found-casing").fill("860");
  expect(await page.locator(".stand-by").count()).toBe(0);
  await page.locator("#entry-as-found-casing").fill("8600");
  await page.locator(".step-record").click();
  await page.getByRole("button", { name: "It is right, record it as typed" }).click();
  await page.locator(".run-said", { hasText: stepOf("as-found").title }).waitFor();
});

it("keeps a step open on an answer that stops the work, and says what to do", async () => {
  await view(page, stepOf("briefing").title);
  await page.getByRole("button", { name: "Read and record again" }).click();
  await page.locator("#entry-people").fill("5");
  await typeStep(page, stepOf("briefing"), { "gas-test": { text: "gas" } });
  await page.locator(".step-record").click();
  await page.getByText("Gas was found. Stop, find the source, test again.").first().waitFor();
  // The run stands at the step that stopped it, whatever came after.
  await page.locator(".step-title", { hasText: stepOf("briefing").title }).waitFor();
  await page.getByText(/and the step stays open/).waitFor();
});

it("shows in one window what another one recorded, and lets neither do it twice", async () => {
  const other = await page.context().newPage();
  await other.goto(`${site.address}/jobs/job-em-07-3/run`);
  await page.goto(`${site.address}/jobs/job-em-07-3/run`);
  await typeStep(page, stepOf("briefing"), goodRun.briefing?.fields ?? {});
  await page.locator(".step-record").click();
  await page.locator(".run-said", { hasText: stepOf("briefing").title }).waitFor();
  await other.locator(".step-title", { hasText: "Permit and briefing" }).waitFor();
  await other.locator(".condition", { hasText: "Gas test clear" }).getByText("(met)").waitFor();
  await other.close();
});

let there = false;
async function runThroughOnce() {
  if (!there) await runThrough(page, undefined, "as-found", goodRun);
  there = true;
}

it("answers a letter in a record's number beside its field, and keeps what was typed", async () => {
  await page.goto(`${site.address}/edit/wells/em-12`);
  const field = page.getByLabel("Maximum shut-in wellhead");
  await field.first().fill("9oo");
  await page.getByLabel("Gravity, air = 1").first().fill("0.7");
  await page.getByRole("button", { name: "Save the well" }).click();
  await page
    .locator("p.problem", { hasText: 'Maximum shut-in wellhead: "9oo" is not a number' })
    .first()
    .waitFor();
  expect(await field.first().inputValue()).toBe("9oo");
  await field.first().fill("900");
  await page.getByRole("button", { name: "Save the well" }).click();
  await page.getByText("Saved.").waitFor();
  await page.reload();
  expect(await page.getByLabel("Maximum shut-in wellhead").first().inputValue()).toBe("900");
  expect(await page.getByLabel("Gravity, air = 1").first().inputValue()).toBe("0.7");
});

const demo = () => readFileSync("demo-data/ember-mesa.json", "utf8");
it.each([
  [
    "a damaged pack",
    "cut.json",
    () => demo().slice(0, 4000),
    /cut.json: The file is damaged or not a job pack/,
  ],
  [
    "a changed pack",
    "changed.json",
    () => demo().replace('"EM-07"', '"EM-70"'),
    /changed.json: The pack was damaged or changed after it was made/,
  ],
  [
    "a pack of a newer version",
    "newer.json",
    () => demo().replace(/"version": \d+/, '"version": 9'),
    /newer.json: This pack is of version 9, made by a newer Latchline/,
  ],
  [
    "a picture",
    "photo.json",
    () => "\u0089PNG",
    /photo.json: The file is damaged or not a job pack/,
  ],
])("refuses %s, saying what and where, and writes nothing", async (_, name, text, says) => {
  await page.goto(site.address);
  await page.locator(".job-card").first().waitFor();
  const before = await page.locator(".job-card").count();
  writeFileSync(join(files, name), text());
  await page.getByRole("button", { name: "Import a pack" }).click();
  await page.getByLabel("Pack file").setInputFiles(join(files, name));
  const problem = page.locator("dialog .problem");
  await problem.waitFor();
  expect(await problem.textContent()).toMatch(says);
  await page.getByRole("button", { name: "Close" }).click();
  expect(await page.locator(".job-card").count()).toBe(before);
});

it("exports a job as a pack that another tablet imports, log and all", async () => {
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  const download = await downloadPack(page);
  const file = join(files, "em-07.json");
  await download.saveAs(file);
  const other = new TabletBrowser();
  try {
    const there = await other.open(site.address);
    await there.getByRole("button", { name: "Remove the demonstration" }).click();
    await there.getByText("No jobs on this tablet").waitFor();
    await there.getByRole("button", { name: "Import a pack" }).click();
    await there.getByLabel("Pack file").setInputFiles(file);
    await there.getByText("New here").waitFor();
    await there.getByRole("button", { name: "Import em-07.json" }).click();
    await there.getByText("em-07.json is imported.").waitFor();
    await there.getByRole("button", { name: "Close" }).click();
    await there.getByRole("link", { name: "Go on with the run" }).click();
    await there.getByText("Permit and briefing").first().waitFor();
    expect(await there.locator(".step-title").textContent()).toBe("Permit and briefing");
  } finally {
    await other.dispose();
  }
});
