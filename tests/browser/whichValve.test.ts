import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { judge, sizes } from "./judge.ts";

const site = new Site();
const tablet = new TabletBrowser();
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** A day of two pens, as a recorder writes it down. */
const trend = [
  "Time\tCSG (psig)\tTBG (psig)",
  ...Array.from(
    { length: 48 },
    (_, half) =>
      `2026-11-${19 + Math.floor(half / 24)} ${String(half % 24).padStart(2, "0")}:00\t${742 + (half % 5)}\t${128 - (half % 3)}`,
  ),
].join("\n");
const survey = [
  "MD (ft)\tPressure (psig)",
  ...[
    [0, 128],
    [1880, 316],
    [3240, 451],
    [4380, 556],
    [5290, 854],
    [6050, 1103],
  ].map((stop) => stop.join("\t")),
].join("\n");

async function paste(page: Page, text: string) {
  await page.getByLabel("Cells pasted").fill(text);
  await page.getByRole("button", { name: "Read what is pasted" }).click();
}

it("an engineer finds which valve is at fault, agrees, and makes the job, without a network", async () => {
  await site.start();
  const page = await tablet.open(site.address);
  const faults: string[] = [];
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  await keptOffline(page);
  await sign(page, "L. Ashgrove", "production engineer");
  await site.stop();

  await page.goto(`${site.address}/which-valve`);
  await page.getByLabel("Name or field, a few letters will do").fill("em7");
  await page.getByRole("button", { name: /^EM-07/ }).click();
  // What the demonstration brings is one of before; a new look begins without evidence.
  await page.getByText("Look anew, or take this investigation away").click();
  await page.getByRole("button", { name: "Begin a new investigation" }).click();
  await page.getByText("Investigated before: 1").waitFor();
  await page.getByRole("button", { name: "Say it otherwise" }).click();
  await page
    .getByLabel("What made somebody look")
    .fill("Casing bleeds below what valve 3 shuts at.");
  await page.getByRole("button", { name: "Keep these words" }).click();
  await page.getByText("Casing bleeds below what valve 3 shuts at.").waitFor();

  // Without evidence nothing is said, and what it needs is named.
  await page.getByText("Nothing can be said yet.").waitFor();
  // In its frame, though the screen was opened by its address and no other was before.
  const frame = await page
    .locator(".fault-needs")
    .evaluate((element) => getComputedStyle(element).borderTopStyle);
  expect(frame).toBe("dashed");

  // What cannot be is refused beside its field; what was typed outlasts a reload.
  await page.getByRole("button", { name: "Two gauges read at one moment" }).click();
  await page.getByLabel("Injection pressure, casing", { exact: true }).fill("742");
  await page.getByLabel("Wellhead pressure, tubing", { exact: true }).fill("12k8");
  await page.getByRole("button", { name: "Keep this evidence" }).click();
  await page.getByText('Wellhead pressure, tubing: "12k8" is not a number.').waitFor();
  await page.getByText("Say where it comes from").waitFor();
  await page.getByText("kept on this tablet as a draft").waitFor();
  await page.reload();
  await expect
    .poll(() => page.getByLabel("Injection pressure, casing", { exact: true }).inputValue())
    .toBe("742");
  await page.getByLabel("Wellhead pressure, tubing", { exact: true }).fill("128");
  await page.getByLabel("Source").fill("Gauges C-11 and T-04");
  await page.getByRole("radio", { name: "good" }).check();
  await page.getByRole("button", { name: "Keep this evidence" }).click();
  await page
    .getByText("Saved: two gauges read at one moment, casing 742 psig, tubing 128 psig.")
    .waitFor();

  // Two gauges do not name a valve.
  await page.getByText(/^(Not enough evidence to tell|No one answer stands out)$/).waitFor();
  // The pens: seen as a picture before they are kept.
  await page.getByRole("button", { name: "Two pens against time" }).click();
  await paste(page, trend.replace("CSG (psig)", "CSG (psi)"));
  await page
    .getByText("psi does not say whether it is counted from the air or from nothing")
    .first()
    .waitFor();
  await page.getByRole("radio", { name: "psig, gauge" }).click();
  await page.getByRole("img", { name: /^As it was read: casing and tubing pressure/ }).waitFor();
  await page.getByLabel("Source").fill("Recorder R-3");
  await judge(page, "which-valve-pens");
  await page.getByRole("button", { name: "Keep this trend" }).click();
  await page.getByText("Saved: 48 points over 47 h.").waitFor();

  // The survey: as a table, too.
  await page.getByRole("button", { name: "Flowing survey" }).click();
  await page.getByRole("button", { name: "Bring the survey in as a table instead" }).click();
  await paste(page, survey);
  await page.getByRole("cell", { name: "4380 ft" }).waitFor();
  await page.getByLabel("Source").fill("Gauge 2214");
  await page.getByRole("button", { name: "Keep this survey" }).click();
  await page.getByText("Saved: 6 stops, 0 ft to 6050 ft along hole.").waitFor();

  // On record already: one tap.
  await page.getByRole("button", { name: /^Take in: Last found on lift/ }).click();
  await page.getByText(/^Saved: taken in/).waitFor();

  const answers = page.locator(".fault-one h3");
  const stuck = "Valve in mandrel 3 stuck open";
  await expect.poll(() => answers.first().textContent(), { timeout: 20_000 }).toBe(stuck);
  await page.getByRole("img", { name: /^Pressure against depth/ }).waitFor();
  await page.getByRole("img", { name: /Valve 3 shuts between/ }).waitFor();
  for (const { name, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    await judge(page, `which-valve-${name}`);
  }
  await page.setViewportSize({ width: 1280, height: 800 });

  // The engineer agrees; the job carries why.
  await page.getByRole("button", { name: "Agree on it as L. Ashgrove" }).click();
  await page.getByText("Choose what is agreed on.").waitFor();
  await page.locator(".fault-choices label").filter({ hasText: stuck }).click();
  await page.getByLabel("Why", { exact: true }).fill("Gas enters at mandrel 3 by the survey.");
  await page.getByRole("button", { name: "Agree on it as L. Ashgrove" }).click();
  await page.getByText("Saved: agreed by L. Ashgrove.").waitFor();
  await page.getByRole("link", { name: "Make the job: mandrel 3" }).click();
  const reason = page.locator("#plan-reason");
  await expect.poll(() => reason.inputValue()).toContain(stuck);
  expect(await reason.inputValue()).toContain(
    "Gas enters at mandrel 3 by the survey. (L. Ashgrove)",
  );
  await page.locator(".plan-tap", { hasText: "Today" }).click();
  await page.getByRole("button", { name: "Keep the plan" }).click();
  await page.waitForURL(/\/jobs\//);
  await page
    .getByText(/Gas enters at mandrel 3 by the survey/)
    .first()
    .waitFor();

  // A well of which nothing was looked at begins with what made somebody look.
  await page.goto(`${site.address}/wells/em-12/fault`);
  await page.getByRole("button", { name: "The well heads." }).click();
  await page.getByRole("button", { name: "Begin the investigation" }).click();
  await page.getByText("Opened by L. Ashgrove").waitFor();

  // No picture was drawn inside out, and nothing else went wrong on the way.
  expect(faults).toEqual([]);

  // The investigation knows its job.
  await page.goto(`${site.address}/wells/em-07/fault`);
  await page.getByRole("link", { name: "The job it led to" }).waitFor();

  // A reading is taken back after the job was made of it, by a glove that taps twice: both say so, and the job stays.
  const taken = page.locator("li.evidence", { hasText: "6 stops" });
  await taken.getByRole("button", { name: "Set aside" }).dblclick({ delay: 150 });
  await taken.getByRole("button", { name: "Count it again" }).waitFor();
  await page.getByText("A job was made from this, and the evidence says otherwise now.").waitFor();
  await page.getByRole("link", { name: "The job it led to" }).click();
  await page
    .getByText("Settle it with the production engineer before the programme is issued.")
    .waitFor();
  await page.getByText(/^Change out .* in mandrel 3 of EM-07/).waitFor();
  for (const { name, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    await judge(page, `brief-turned-${name}`, [".brief-led"]);
  }
});
