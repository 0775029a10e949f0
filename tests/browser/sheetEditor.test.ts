import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, expect, it } from "vitest";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { seriousFaults } from "./seriousFaults.ts";

const site = new Site();
let tablet = new TabletBrowser();
const pictures = process.env.LATCHLINE_PICTURES;
const upright = { width: 800, height: 1280 };
const sizes = [
  { name: "tablet", width: 1280, height: 800 },
  { name: "upright", ...upright },
  { name: "phone", width: 390, height: 844 },
];
const brief = "/jobs/job-em-07-3";

afterAll(() => site.stop());
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser();
});

/** Opened once with the server, which is then gone; the planner holds the tablet. */
async function offline() {
  if (pictures) mkdirSync(pictures, { recursive: true });
  await site.start();
  const page = await tablet.open(site.address, upright);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  await sign(page, "E. Rowan", "planner");
  return page;
}

/** The screen in every size: axe finds nothing serious, nothing sticks out, somebody can look at it. */
async function judge(page: Page, name: string) {
  for (const { name: size, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    expect(await seriousFaults(page), `${size} ${name}`).toEqual([]);
    const overflow = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overflow, `${size} ${name} scrolls sideways`).toBeLessThanOrEqual(0);
    if (pictures) {
      await page.screenshot({ path: `${pictures}/sheet-${name}-${size}.png` });
      await page.screenshot({
        path: `${pictures}/whole-sheet-${name}-${size}.png`,
        fullPage: true,
      });
    }
  }
  await page.setViewportSize(upright);
}

const line = (page: Page, title: string) =>
  page.locator(".sheet-line").filter({
    has: page.locator(".sheet-line-title", { hasText: new RegExp(`^${title}$`) }),
  });
const titles = (page: Page) => page.locator(".sheet-line-title").allTextContents();

async function open(page: Page, title: string) {
  const row = line(page, title).first();
  await row.locator(".sheet-line-open").click();
  return row;
}

it("takes a step of the planner's own, moves one, leaves one out, refuses what a hold point needs, and the crew has that sheet", async () => {
  const page = await offline();
  await page.goto(site.address + brief);
  await page.getByRole("link", { name: "Run sheet for this job" }).click();
  await page.locator(".sheet-line").first().waitFor();
  const before = await titles(page);

  // Every row and every act is a target for a glove.
  for (const box of await page.locator(".sheet-line-open").all()) {
    expect((await box.boundingBox())?.height).toBeGreaterThanOrEqual(72);
  }

  // A hold point: refused, with what it stands before.
  const hold = await open(page, "Equalised before unseating");
  await hold.getByRole("button", { name: /^Leave out/ }).click();
  await hold
    .getByText(
      'The hold point "Equalised before unseating" cannot be left out: it is released before the valve is jarred out of its pocket.',
    )
    .waitFor();
  await hold.getByRole("button", { name: /^Move down/ }).click();
  await hold.getByText(/cannot be moved: it is released before/).waitFor();

  // A step that a hold point needs: refused by the name of that hold point.
  const needed = await open(page, "Shear pins of the running tool");
  await needed.getByRole("button", { name: /^Leave out/ }).click();
  await needed
    .getByText(
      'The hold point "Replacement verified" asks for it: Running-tool pins are brass. It cannot be left out.',
    )
    .waitFor();
  await judge(page, "refused");
  expect(await titles(page)).toEqual(before);
  expect(await page.getByRole("button", { name: "Save the run sheet" }).count()).toBe(0);

  // One left out.
  const latch = await open(page, "Jar the valve out");
  await latch.getByRole("button", { name: /^Leave out/ }).click();
  await latch.getByText("left out", { exact: true }).waitFor();
  await page.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();

  // One moved by keyboard alone: twice down, once up.
  const [first = "", second = "", third = ""] = before;
  const opener = line(page, first).locator(".sheet-line-open");
  await opener.focus();
  await page.keyboard.press("Enter");
  const down = line(page, first).getByRole("button", { name: /^Move down/ });
  await down.focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => titles(page).then((all) => all.slice(0, 2))).toEqual([second, first]);
  await page.keyboard.press("Enter");
  await expect
    .poll(() => titles(page).then((all) => all.slice(0, 3)))
    .toEqual([second, third, first]);
  await line(page, first)
    .getByRole("button", { name: /^Move up/ })
    .focus();
  await page.keyboard.press("Enter");
  await expect
    .poll(() => titles(page).then((all) => all.slice(0, 3)))
    .toEqual([second, first, third]);
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe(
    `Move up: ${first}`,
  );

  // One of the planner's own; what is missing is said beside it, and what was typed stays.
  await line(page, first)
    .getByRole("button", { name: /^Add a step after it/ })
    .click();
  const form = page.locator(".own-step");
  await form.getByLabel("Title").fill("Noise log at the casing valve");
  await form.getByRole("button", { name: "Add an entry" }).click();
  await form.getByRole("button", { name: "Put the step in" }).click();
  await form.getByText("What to do: nothing entered.").waitFor();
  await form.getByText("Entry 1: nothing entered.").waitFor();
  expect(await form.getByLabel("Title").inputValue()).toBe("Noise log at the casing valve");
  await form
    .getByLabel(/^What to do/)
    .fill("Listen for two minutes with the injection gas shut in.");
  await form.getByLabel("Entry 1", { exact: true }).fill("Casing pressure while listening");
  await form.getByLabel("Kind of entry 1").selectOption("quantity");
  await judge(page, "own step");
  await form.getByRole("button", { name: "Put the step in" }).click();
  await line(page, "Noise log at the casing valve").getByText("your own").waitFor();
  const after = await titles(page);
  expect(after.slice(0, 4)).toEqual([second, first, "Noise log at the casing valve", third]);

  await page.getByRole("button", { name: "Save the run sheet" }).click();
  await page.getByText("Saved.").waitFor();
  await judge(page, "saved");

  // The battery dies; with the server still gone everything is there.
  await tablet.kill();
  const again = await tablet.open(site.address + brief, upright);
  const differs = again.locator(".brief-sheet");
  await differs.getByText("Run sheet, changed for revision 2").waitFor();
  await differs.getByText('Left out: "Jar the valve out".').waitFor();
  await differs
    .getByText(`The planner's own: "Noise log at the casing valve", after "${first}".`)
    .waitFor();
  await differs.getByText(/^Moved: /).waitFor();
  await judge(again, "in the brief");
  await again.getByRole("link", { name: "Run sheet for this job" }).click();
  await again.locator(".sheet-line").first().waitFor();
  expect(await titles(again)).toEqual(after);

  // Issued anew, the crew works on it. Who holds the tablet may have to be said anew after a dead battery.
  await again.goto(site.address + brief);
  await sign(again, "E. Rowan", "planner");
  await again.getByRole("button", { name: "Issue revision 2" }).click();
  await again.getByText("Programme revision 2, issued by E. Rowan.").waitFor();
  await differs.getByText("Run sheet, not the usual one").waitFor();
  expect(await differs.count()).toBe(1);
  await sign(again, "R. Tamsin", "wireline supervisor");
  await again.getByRole("button", { name: "Start the run" }).click();
  await again.locator(".step-title", { hasText: second }).waitFor();
  const spine = await again.locator(".spine-item").allTextContents();
  if (pictures) await again.screenshot({ path: `${pictures}/sheet-run.png` });
  expect(spine.join("|")).toContain("Noise log at the casing valve");
});

it("changes the work and the catcher, names what then has no place, and puts back what was saved", async () => {
  const page = await offline();
  await page.goto(`${site.address}${brief}/sheet`);
  await page.locator(".sheet-line").first().waitFor();
  const usual = await titles(page);
  await page.getByText("the words are for an orienting kickover tool").waitFor();
  const latch = await open(page, "Jar the valve out");
  await latch.getByRole("button", { name: /^Leave out/ }).click();

  await page.getByRole("radio", { name: /^Set into an empty pocket/ }).check();
  const strays = page.getByRole("region", { name: "Changes without a place" });
  await strays.getByText(/does not have\. Take the change back\./).waitFor();
  await judge(page, "without a place");
  await strays.getByRole("button", { name: "Take it back" }).click();
  await strays.waitFor({ state: "detached" });
  expect(await titles(page)).toContain("Feel the pocket");
  expect(await titles(page)).not.toContain("Jar the valve out");

  await page.getByRole("checkbox", { name: /^With a catcher/ }).check();
  expect(await titles(page)).toContain("Set it below the target, pull-test, tag");
  await pressAndHold(page, "Put back as saved");
  await expect.poll(() => titles(page)).toEqual(usual);
});

it("keeps what is not saved through a reload and a battery that dies, and lets a person choose when somebody saved meanwhile", async () => {
  const page = await offline();
  const address = `${site.address}${brief}/sheet`;
  const aside = "Not saved yet: kept on this tablet as a draft.";
  await page.goto(address);
  await page.locator(".sheet-line").first().waitFor();
  const usual = await titles(page);

  // In the middle of everything: one left out, a pocket more, a pressure half typed, a step half written.
  await page.getByRole("button", { name: "Add a pocket" }).click();
  const jarOut = "Jar the valve out, mandrel [0-9]+";
  const latch = await open(page, jarOut);
  await latch.getByRole("button", { name: /^Leave out/ }).click();
  const pressure = (of: Page) => of.getByLabel(/^Opening wanted at the mandrel/);
  await pressure(page).fill("1050x");
  await page.getByText(/It is not taken yet\./).waitFor();
  await latch.getByRole("button", { name: /^Add a step after it/ }).click();
  await page.locator(".own-step").getByLabel("Title").fill("Noise log at the ca");
  await page.getByText(aside).waitFor();

  const isAsLeft = async (again: Page) => {
    await again.getByText(`Opened with changes from before. ${aside}`).waitFor();
    await line(again, jarOut).first().getByText("left out", { exact: true }).waitFor();
    expect(await pressure(again).inputValue()).toBe("1050x");
    await again.getByText(/It is not taken yet\./).waitFor();
    const form = again.locator(".own-step");
    expect(await form.getByLabel("Title").inputValue()).toBe("Noise log at the ca");
  };
  await page.reload();
  await isAsLeft(page);
  await judge(page, "kept");
  await tablet.kill();
  const again = await tablet.open(address, upright);
  await isAsLeft(again);

  // Whoever would issue now is told; the screen is left and come back to.
  await again.goto(site.address + brief);
  await again.getByText(/The run sheet has changes on this tablet that are not saved\./).waitFor();
  await again.getByRole("link", { name: "Run sheet for this job" }).click();
  await isAsLeft(again);

  // The plan is saved in another window: the sheet is as it was, so the changes fit onto it.
  let there = await again.context().newPage();
  await there.goto(`${site.address}/edit/jobs/job-em-07-3`);
  await there.locator('[data-path="reason"]').fill("Opens too high since spring.");
  await there.getByRole("button", { name: "Save the job" }).click();
  await there.getByText("Saved.").waitFor();
  await there.close();
  const overtaken = again.getByRole("region", { name: "Saved by somebody else meanwhile" });
  await overtaken.getByText(/with the run sheet as it was/).waitFor();
  expect(await again.getByRole("button", { name: "Save the run sheet" }).count()).toBe(0);
  await judge(again, "job saved meanwhile");
  await overtaken.getByRole("button", { name: "Put my changes onto it" }).click();
  await overtaken.waitFor({ state: "detached" });
  await again.getByText(/Your changes are on the job as it is now\. Not saved yet/).waitFor();

  // Another sheet is saved: what it says is shown, the changes are kept until somebody chose, also over a dead battery.
  await again.getByRole("button", { name: "Leave it" }).click();
  await pressure(again).fill("1050");
  there = await again.context().newPage();
  await there.goto(address);
  await pressAndHold(there, "Put back as saved");
  await there.getByRole("checkbox", { name: /^With a catcher/ }).check();
  await there.getByRole("button", { name: "Save the run sheet" }).click();
  await there.getByText("Saved.").waitFor();
  await there.close();
  await overtaken.getByText("A catcher is set before the pull run").waitFor();
  await again.getByRole("button", { name: "Saved by somebody else: choose" }).click();
  await judge(again, "sheet saved meanwhile");
  await pressAndHold(again, "Mine in place of theirs");
  await again.getByRole("button", { name: "Save the run sheet" }).click();
  await again.getByText("Saved.").waitFor();
  expect(await again.getByText(aside).count()).toBe(0);

  await tablet.kill();
  const last = await tablet.open(address, upright);
  await line(last, jarOut).first().getByText("left out", { exact: true }).waitFor();
  expect(await last.getByRole("checkbox", { name: /^With a catcher/ }).isChecked()).toBe(false);
  expect(await pressure(last).inputValue()).toBe("1050");
  expect(await last.locator(".sheet-save").count()).toBe(0);
  // What the other window saved of the plan stands.
  await last.goto(`${site.address}/edit/jobs/job-em-07-3`);
  await expect
    .poll(() => last.locator('[data-path="reason"]').inputValue())
    .toBe("Opens too high since spring.");
  await last.goto(site.address + brief);
  await last.getByText("Run sheet, changed for revision 2").waitFor();
  expect(await last.getByText(/changes on this tablet that are not saved/).count()).toBe(0);

  // Discarded, nothing of it comes back.
  await last.goto(address);
  const back = await open(last, jarOut);
  await back.getByRole("button", { name: /^Take back/ }).click();
  await last.getByText(aside).waitFor();
  await pressAndHold(last, "Put back as saved");
  await last.getByText("Put back as saved.").waitFor();
  await last.reload();
  await line(last, jarOut).first().getByText("left out", { exact: true }).waitFor();
  expect(await last.getByText(aside).count()).toBe(0);
  expect((await titles(last)).length).toBeGreaterThan(usual.length);
});
