import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { keptOffline, pressAndHold, Site, TabletBrowser } from "./harness.ts";

const site = new Site();
const tablet = new TabletBrowser();
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  // Whatever follows has no network.
  await site.stop();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

const rows = () => page.locator(".library-row");
const search = () => page.getByLabel("Search the library");
const save = (what: string) => page.getByRole("button", { name: `Save the ${what}` });

/** Leaves a picture of the screen at the sizes of desk, tablet and phone where one is asked for. */
async function picture(name: string): Promise<void> {
  const folder = process.env.LATCHLINE_PICTURES;
  const sizes = [
    [1280, 800],
    [800, 1280],
    [390, 844],
  ] as const;
  for (const [width, height] of sizes) {
    await page.setViewportSize({ width, height });
    const over = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(over, `${name} at ${width}`).toBeLessThanOrEqual(0);
    if (!folder) continue;
    mkdirSync(folder, { recursive: true });
    await page.screenshot({ path: join(folder, `${name}-${width}.png`), fullPage: false });
  }
  await page.setViewportSize({ width: 1280, height: 800 });
}

it("finds a valve by a serial typed sloppily, says where it is, and opens it with what befell it", async () => {
  await page.goto(`${site.address}/library`);
  await search().waitFor();
  // The field is there to be typed into at once.
  await page.keyboard.type("em 03 13");
  await expect.poll(() => rows().first().textContent()).toContain("EM-0313");
  expect(await rows().first().textContent()).toContain("in EM-03, mandrel 3");
  await picture("library-found");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Where it is" }).waitFor();
  await page.getByText("In EM-03, mandrel 3.").waitFor();
  const befell = page.locator(".befell");
  await befell.getByText("pulled").waitFor();
  expect(await befell.textContent()).toContain("Port or stem cut");
  await picture("valve-standing");
  await page.getByRole("link", { name: "Look at EM-03" }).click();
  await page.getByText("What sat in the pockets before").click();
  const pockets = page.locator(".pockets-before");
  await pockets.getByText("EM-2037 set").waitFor();
  expect(await pockets.textContent()).toMatch(/Mandrel 3.*EM-0313 pulled.*EM-2037 set/);
  await picture("pockets-before");
  await page.goBack();
  await page.goBack();
  // What was typed is there again.
  await expect.poll(() => search().inputValue()).toBe("em 03 13");
});

it("filters by kind and by where a valve is", async () => {
  await search().fill("");
  await page.getByRole("link", { name: /^Valves/ }).click();
  await page.getByRole("button", { name: /^In stock/ }).click();
  await expect
    .poll(async () => (await rows().allTextContents()).every((row) => row.includes("in stock")))
    .toBe(true);
  await page.getByRole("button", { name: /^Installed/ }).click();
  await expect.poll(() => rows().first().textContent()).toContain("mandrel");
  await picture("library-valves");
});

it("keeps a new valve as it is typed, asks for what it needs, and refuses a serial that is here", async () => {
  await page.getByRole("link", { name: "New valve" }).click();
  await save("valve").click();
  await page.getByRole("alert").getByText("3 entries cannot be kept as entered").waitFor();
  await page.locator('[data-path="serial"]').fill("em 03-13");
  await page.locator('[data-path="kind"]').selectOption("orifice");
  await page.locator('[data-path="size"]').selectOption("1 in");
  await page.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();
  await picture("new-valve");
  await page.reload();
  await page.getByText("was begun on this tablet and not saved").waitFor();
  expect(await page.locator('[data-path="serial"]').inputValue()).toBe("em 03-13");
  expect(await page.locator('[data-path="kind"]').inputValue()).toBe("orifice");
  await save("valve").click();
  const refused = page.getByRole("alert");
  await refused.getByText(/EM-0313 is in the library already/).waitFor();
  expect(await refused.getByRole("link", { name: "Open EM-0313" }).getAttribute("href")).toMatch(
    /^\/edit\/valves\//,
  );
  await page.locator('[data-path="serial"]').fill("Q-900");
  await save("valve").click();
  await page.getByText("Saved.").waitFor();
  await page.getByText("In no pocket: in stock.").waitFor();
  // Another one begins empty.
  await page.goto(`${site.address}/new/valves`);
  await page.locator('[data-path="serial"]').waitFor();
  expect(await page.locator('[data-path="serial"]').inputValue()).toBe("");
});

it("begins a policy with limits that say where they come from, and a string from the catalog", async () => {
  await page.goto(`${site.address}/new/policies`);
  await page.locator('[data-path="name"]').fill("Field limits");
  expect(await page.locator('[data-path="watch.basis"]').inputValue()).toContain("common practice");
  await save("policy").click();
  await page.getByText("Saved.").waitFor();
  await page.goto(`${site.address}/new/strings`);
  await page.locator('[data-path="name"]').fill("Short pull string");
  await page.locator('[data-path="purpose"]').selectOption("pull");
  await save("tool string").click();
  await page.getByRole("alert").getByText("add at least one tool").waitFor();
  await page.getByRole("button", { name: "Add a tool from the catalog" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Jars", exact: true }).click();
  await page.locator(".catalog-part .button").first().click();
  await save("tool string").click();
  await page.waitForURL(/\/strings\//);
  await page.getByRole("heading", { name: "String Short pull string" }).waitFor();
});

it("names what holds a record, and takes out only what nothing names", async () => {
  await page.goto(`${site.address}/library/valves?q=em0313`);
  await rows().first().click();
  await page.getByRole("button", { name: "Take it out of the library" }).click();
  const refused = page.locator(".removal");
  await refused.getByText("EM-0313 cannot be taken out of the library").waitFor();
  await refused.getByRole("link", { name: "EM-03, mandrel 3" }).waitFor();
  await picture("removal-refused");
  await page.goto(`${site.address}/library/valves?q=q900`);
  await rows().first().click();
  await page.getByRole("button", { name: "Take it out of the library" }).click();
  await pressAndHold(page, "Take Q-900 out of the library");
  await page.waitForURL(/\/library\/valves/);
  await search().fill("q900");
  await page.getByText("Nothing is found by these words").waitFor();
});

it("puts what cannot be so on top, a tap from where it is mended", async () => {
  await page.goto(`${site.address}/library/valves?q=em0313`);
  await rows().first().click();
  await page.getByRole("link", { name: "Begin a new one from this" }).click();
  await page.locator('[data-path="serial"]').fill("Q-901");
  await save("valve").click();
  await page.getByText("Saved.").waitFor();
  await page.goto(`${site.address}/edit/wells/em-07`);
  const pocket = page.locator('[data-path="mandrels.0.valve"]');
  await pocket.fill("em-0313");
  await page.getByRole("button", { name: /^EM-0313/ }).click();
  await save("well").click();
  // A valve that another pocket holds is not taken; what was chosen stays until it is put back.
  const refused = page
    .getByRole("alert")
    .getByText(/Mandrel 1: this valve sits in EM-03, mandrel 3/);
  await refused.waitFor();
  await page.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();
  await page.reload();
  await page.getByText("was changed on this tablet and not saved").waitFor();
  await page.locator(".valve-chosen").getByText("EM-0313").first().waitFor();
  await picture("record-goes-on");
  await pressAndHold(page, "Put back as saved");
  await expect.poll(() => page.locator(".valve-chosen").getByText("EM-0313").count()).toBe(0);
  await page.reload();
  await page.getByRole("heading", { name: "well EM-07" }).waitFor();
  expect(await page.getByText("was changed on this tablet and not saved").count()).toBe(0);
  await page.goto(`${site.address}/library/valves?q=em0313`);
  await rows().first().click();
  await page.locator('[data-path="state"]').selectOption("scrapped");
  await save("valve").click();
  await page.getByText("Saved.").waitFor();
  expect(await page.getByText("Not saved yet").count()).toBe(0);
  await page.goto(`${site.address}/library`);
  const problems = page.getByRole("region", { name: "One thing here cannot be so" });
  await problems
    .getByText("Valve EM-0313 is marked scrapped and sits in EM-03, mandrel 3.")
    .waitFor();
  await picture("library-problems");
  await problems.getByRole("link", { name: "Change EM-03", exact: true }).click();
  await page.waitForURL(/\/edit\/wells\/em-03/);
});

it("shows how long the field's valves last, and the pocket that keeps failing", async () => {
  await page.goto(`${site.address}/library/valves`);
  await page.getByRole("link", { name: "How long valves last" }).click();
  const pockets = page.locator(".valve-life-pockets > li");
  await pockets.first().waitFor();
  const first = (await pockets.first().textContent()) ?? "";
  expect(first).toContain("EM-12, mandrel 3");
  expect(first).toContain("4 failures of 5 valves");
  // Thirteen past stays, twelve valves in their pockets, and the one that the finished job set.
  const lead = (await page.locator(".valve-life-whole").textContent()) ?? "";
  expect(lead).toContain("26 stays in pockets");
  expect(lead).toContain("1 pulled and found in no way");
  await page
    .getByRole("img", { name: /Share still in service/ })
    .first()
    .waitFor();
  await picture("valve-life");
});
