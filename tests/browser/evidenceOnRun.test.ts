import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import { stepOf } from "./crew.ts";
import { drawSignature, keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn, downloadPack, otherTablet, runSheet } from "./jobPack.ts";
import { jpeg } from "./jpeg.ts";
import { judge } from "./judge.ts";
import { typedIsKept } from "./log.ts";

const site = new Site();
const tablet = new TabletBrowser();
const upright = { width: 800, height: 1280 };

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

it("keeps photographs, a note and a drawn signature with the step they belong to, offline and through a dead battery", async () => {
  let page = await tablet.open(site.address, upright);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await bringIn(page, site.address, otherTablet("as-found"));
  await sign(page, "R. Tamsin", "wireline supervisor");
  await site.stop();
  await page.goto(`${site.address}${runSheet}`);
  await page.locator(".step-title", { hasText: stepOf("as-found").title }).waitFor();

  await page.getByRole("button", { name: "Add a photograph" }).click();
  await page.getByLabel("What it shows").fill("Tree and both gauges");
  await page.getByRole("button", { name: "Add a note" }).click();
  await page.getByLabel("Note").fill("Needle of the casing gauge sticks; tapped before reading.");
  // Half typed, neither saved yet, and the battery falls out.
  await typedIsKept(page, "Tree and both gauges");
  await typedIsKept(page, "Needle of the casing gauge sticks; tapped before reading.");
  await tablet.kill();
  page = await tablet.open(`${site.address}${runSheet}`, upright);
  await expect
    .poll(() => page.getByLabel("Note").inputValue())
    .toBe("Needle of the casing gauge sticks; tapped before reading.");
  await expect
    .poll(() => page.getByLabel("What it shows").inputValue())
    .toBe("Tree and both gauges");

  // Who holds the tablet is said anew after a dead battery; nothing is signed in a name that is not sure.
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.getByRole("button", { name: "Save the note" }).click();
  await page.locator(".notes-kept", { hasText: "tapped before reading." }).waitFor();
  await page.getByLabel("Choose pictures that are here").setInputFiles({
    name: "gauges.jpg",
    mimeType: "image/jpeg",
    buffer: await jpeg(page, 2400, 1200),
  });
  const kept = page.locator(".photographs-kept figure");
  await kept.getByText("Tree and both gauges").waitFor();
  await kept.getByAltText("Tree and both gauges").waitFor();
  await judge(page, "upright-photograph");

  // It is in the log before the step is recorded, and there after the next dead battery.
  await tablet.kill();
  page = await tablet.open(`${site.address}${runSheet}`, upright);
  await page.locator(".photographs-kept").getByAltText("Tree and both gauges").waitFor();

  // The pack that leaves the tablet carries the picture under the hash the log names it by.
  await page.goto(`${site.address}${runSheet.replace("/run", "")}`);
  const download = await downloadPack(page);
  const pack = JSON.parse(readFileSync(await download.path(), "utf8"));
  const named = pack.content.events.flatMap(
    (event: { body: { type: string; picture?: string } }) =>
      event.body.type === "photograph" ? [event.body.picture] : [],
  );
  expect(named).toHaveLength(1);
  const carried = pack.content.pictures.map((each: { base64: string }) =>
    createHash("sha256").update(Buffer.from(each.base64, "base64")).digest("hex"),
  );
  expect(carried).toEqual(named);
});

it("keeps what a second person drew with the release, and shows it to the engineer", async () => {
  await tablet.kill();
  await site.start();
  const page = await tablet.open(site.address, upright);
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(site.address);
  await bringIn(page, site.address, otherTablet("permit-hold"));
  await page.goto(`${site.address}${runSheet}`);
  const pad = page.getByRole("button", { name: "Draw a signature, too" }).first();
  await pad.click();
  await drawSignature(page);
  await page.getByText("Drawn in one stroke.").waitFor();
  await judge(page, "upright-signature");
  await pressAndHold(page, "Sign as field operator");
  await page.getByText("Signed by").first().waitFor();
  await page.goto(`${site.address}${runSheet.replace("/run", "/review")}`);
  const walk = page.locator("section", {
    has: page.getByRole("heading", { name: "The run, step by step" }),
  });
  await walk.locator("summary").first().click();
  await page.getByRole("img", { name: /^Signature of .*, field operator$/ }).waitFor();
});
