import { afterAll, beforeAll, expect, it } from "vitest";
import { goodRun } from "../jobs/demo.ts";
import { runThrough } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";

const site = new Site();
const tablet = new TabletBrowser();

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** The number that a figure shows. */
const figure = (text: string | null) => Number(/−?\d+/.exec(text ?? "")?.[0].replace("−", "-"));

it("shows the line offline, from the brief, and moves with what is read on the run sheet", async () => {
  const page = await tablet.open(site.address, { width: 800, height: 1280 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  await sign(page, "R. Tamsin", "wireline supervisor");

  const brief = `${site.address}/jobs/job-em-07-3`;
  const pushOut = page.getByRole("button", { name: /^Up: push-out, Under the valve/ });
  const hanging = page.locator(".line-pulls .result-row", { hasText: "Hanging" });
  const plot = page.getByRole("img", { name: /^Indicator over depth/ });
  await page.goto(brief);
  await page.getByRole("link", { name: "Line and string" }).click();
  await page
    .getByText(/Just under the closed valve the lightest string pulls down \d+ lbf/)
    .waitFor();
  const planned = { pushOut: await pushOut.textContent(), hanging: await hanging.textContent() };
  // 320 psig on 0.108 in wire, by hand: 2.9 lbf.
  expect(figure(planned.pushOut)).toBe(3);
  await page.getByText("No line pull was read with this string yet.").waitFor();

  // Every figure opens its working.
  await pushOut.click();
  const working = page.getByRole("dialog");
  await working.getByText("F = (p − patm) π d² / 4").waitFor();
  await working.getByRole("button", { name: "Close" }).click();

  // Another string is another line.
  await page.getByLabel("Pull string, orienting").check();
  await expect.poll(() => hanging.textContent()).not.toBe(planned.hanging);
  expect(await plot.getAttribute("aria-label")).toMatch(/At most, limit: 10\d\d lbf/);

  // The limit squeezes the rest together; without it in the picture it stands in words.
  const closer = page.getByRole("button", { name: "Look closer" });
  await closer.click();
  await page.getByText(/What is permitted at most, 10\d\d lbf, lies outside/).waitFor();
  expect(await plot.getAttribute("aria-label")).not.toContain("limit");
  await closer.click();

  // Nothing is too large, and the tightest pair stands there in words.
  await page.getByText("Every tool is smaller than every bore on its way.").waitFor();
  await page.locator(".drift-row", { hasText: "0.013 in" }).first().waitFor();

  // What nobody has said is missing by name.
  await page.goto(`${site.address}/jobs/job-em-12-3/line`);
  await page
    .locator(".line-groups .result-row", { hasText: "shears the running tool's pins, at least" })
    .getByText(/not known: needs .*diameter/i)
    .waitFor();
  await page.goto(`${brief}/line`);

  await page.getByRole("link", { name: "Back to the brief" }).click();
  await page.getByRole("button", { name: "Start the run" }).click();
  await runThrough(page, undefined, "correlate", {
    ...goodRun,
    "let-in": {
      fields: {
        "open-turns": { text: "14" },
        "let-in-casing": { text: "858" },
        "let-in-wellhead": { text: "900" },
      },
    },
    "gauge-down": {
      fields: { ...goodRun["gauge-down"]?.fields, hanging: { text: "214", unit: "lbf" } },
    },
  });

  await page.goto(`${brief}/line`);
  await page.getByText(/the lightest string pulls down/).waitFor();
  // 900 psig, by hand: 8.2 lbf; that much less hangs on the line.
  await expect.poll(async () => figure(await pushOut.textContent())).toBe(8);
  expect(figure(await hanging.textContent())).toBeLessThan(figure(planned.hanging));
  // What was read lands on the chart, and stands beside it with how far it is from what was expected.
  expect(await plot.getAttribute("aria-label")).toContain(
    "Line pull hanging at the mandrel 214 lbf",
  );
  expect(await page.locator(".depth-dot").count()).toBeGreaterThanOrEqual(5);
  await page
    .locator(".line-readings li", { hasText: "Line pull hanging at the mandrel" })
    .getByText(/lbf (less|more) than expected/)
    .waitFor();
  await page.getByRole("button", { name: /^Weight, by the readings, Under the valve/ }).waitFor();
  // The gauge passed: for the strings that follow it no bore is wider than it was.
  await page.getByText(/^The other \d+ that pass/).click();
  await page
    .getByText(/behind the gauge of 2\.300 in/)
    .first()
    .waitFor();
  await page.getByRole("link", { name: "Go on with the run" }).click();
  await page.locator(".step-title", { hasText: "Correct the counter" }).waitFor();
});
