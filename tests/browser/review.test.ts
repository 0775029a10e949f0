import { afterAll, beforeAll, expect, it } from "vitest";
import { close, stepOf, view } from "./crew.ts";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";

const site = new Site();
const tablet = new TabletBrowser();

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

it("sends a record back, has it corrected and closed again, approves it, and puts the new valve on record", async () => {
  const page = await tablet.open(site.address, { width: 800, height: 1280 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  const record = `${site.address}/jobs/job-em-03-3/review`;

  // The engineer wants a figure looked at again.
  await sign(page, "L. Ashgrove", "production engineer");
  await page.goto(record);
  await page.getByText("in an unbroken chain").waitFor();
  await page.getByText("1090 lbf was read; the limit was").waitFor();
  await page.getByRole("textbox", { name: "Remark" }).fill("Which wellhead pressure when left?");
  await page.getByRole("button", { name: "Send back with this remark" }).click();
  await page.getByText("Sent back to the supervisor").waitFor();

  // The supervisor corrects it with the tablet's own keys.
  await page.goto(site.address);
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page
    .locator(".job-card", { hasText: "EM-03" })
    .getByRole("link", { name: "Answer the engineer" })
    .click();
  await page.getByText("The engineer sent it back: Which wellhead").waitFor();
  await view(page, stepOf("injection").title);
  const entry = page.locator(".recorded-entry", { hasText: "Wellhead pressure when left" });
  await entry.getByRole("button", { name: "Correct" }).click();
  await page.locator("#entry-final-wellhead-corrected").click();
  const keys = page.locator(".keypad");
  for (const key of ["2", "6", "8"]) {
    await keys.getByRole("button", { name: key, exact: true }).click();
  }
  await keys.getByRole("button", { name: "Close keys" }).click();
  await entry.getByRole("button", { name: "Record the correction" }).click();
  await entry.getByText("Say why it is corrected").waitFor();
  await entry.getByRole("button", { name: "Misread" }).click();
  await entry.getByRole("button", { name: "Record the correction" }).click();
  await entry.getByText("was 262 psig; Misread").waitFor();
  expect(await entry.locator(".recorded-value").textContent()).toBe("268 psig");
  await close(page, "It was 268.");

  // The engineer reads it again and approves; the well's record then says what the pocket holds.
  await sign(page, "L. Ashgrove", "production engineer");
  await page.goto(record);
  await page.getByText("262 psig corrected to 268 psig: Misread").waitFor();
  await pressAndHold(page, "Approve the record");
  await page.getByText("The well's record still says otherwise").waitFor();
  await page.getByRole("button", { name: "Put it into the well's record" }).click();
  await page.getByText("EM-2037 sits in mandrel 3; so says the well's record.").waitFor();
  await page.goto(`${site.address}/wells/em-03`);
  await page.locator(".on-lift-mandrel", { hasText: "EM-2037" }).waitFor();
});
