import { afterAll, afterEach, expect, it } from "vitest";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";

const site = new Site();
let tablet = new TabletBrowser();

afterAll(() => site.stop());
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser();
});

/** Opened once with the server, which is then gone. */
async function offline() {
  await site.start();
  const page = await tablet.open(site.address, { width: 800, height: 1280 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  return page;
}

it("asks the whole well: as planned, as found, at other pressures, each number with its working", async () => {
  const page = await offline();
  await page.goto(`${site.address}/wells/em-07`);
  await page.getByText("By these pressures gas should enter at mandrel 5.").waitFor();
  await page.getByText("890 psig on lift and 120 psig at the wellhead the well unloads").waitFor();

  await page.getByLabel("As found 2026-11-20").check();
  await page.getByText("By these pressures no valve passes gas.").waitFor();

  // What cannot be is said beside the field, stays typed, and changes nothing.
  await page.getByLabel("As planned").check();
  const injection = page.getByLabel("Injection at surface, if another");
  await injection.fill("99o");
  await page.getByText('"99o" is not a number').waitFor();
  expect(await injection.inputValue()).toBe("99o");
  await page.getByText("The record's pressure stands.").waitFor();
  await page.getByText("By these pressures gas should enter at mandrel 5.").waitFor();
  await injection.fill("990");
  await page
    .getByText("gas should enter at mandrels 3, 4 and 5, and at 2 if open before.")
    .waitFor();
  await page.getByText("Worked at injection 990 psig and wellhead 120 psig").waitFor();
  // Another unit for the tablet does not make another pressure of what was typed.
  await page.getByText("psi ft", { exact: true }).click();
  await page.getByLabel("Injection at surface, if another, psig").waitFor();
  await page.getByText("gas should enter at mandrels 3, 4 and 5").waitFor();
  await page.getByText("bar m", { exact: true }).click();

  const third = page.locator(".on-lift-mandrel").nth(2);
  await third.getByRole("button", { name: /Opens at/ }).click();
  const working = page.getByRole("dialog");
  await working.getByText("Po = (Pd − R Pother) / (1 − R) + Ps, R = As/Ab").waitFor();
  await working.getByRole("button", { name: "its working" }).first().click();
  await working
    .getByRole("heading", { name: /Dome pressure at the valve's temperature/ })
    .waitFor();
  await working.getByRole("button", { name: "Close" }).click();

  await third.getByRole("button", { name: /That may differ by/ }).click();
  await page.getByRole("dialog").getByText("Standard deviation of 1000 draws").waitFor();
  await page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
});

it("reads the depth plot where it is tapped, and by keys", async () => {
  const page = await offline();
  await page.goto(`${site.address}/wells/em-07`);
  const plot = page.locator(".depth-plot", { hasText: "Pressure on lift" });
  const slider = plot.getByRole("slider");
  await slider.scrollIntoViewIfNeeded();
  await slider.waitFor();
  const before = await plot.locator(".depth-readout-depth").textContent();
  const box = await slider.boundingBox();
  if (!box) throw new Error("no plot to tap");
  await page.mouse.click(box.x + box.width / 2, box.y + box.height * 0.3);
  const tapped = await plot.locator(".depth-readout-depth").textContent();
  expect(tapped).not.toBe(before);
  await slider.press("Home");
  await expect.poll(() => plot.locator(".depth-readout-depth").textContent()).toMatch(/At\s*0/);
  expect(await slider.getAttribute("aria-valuetext")).toMatch(/Injection 890 psig/);
});

it("judges the bench readings on the set sheet, keeps them, and keeps what cannot be kept typed", async () => {
  const page = await offline();
  await sign(page, "E. Rowan", "planner");
  await page.goto(`${site.address}/jobs/job-em-12-3/set-sheet`);
  await page.getByText("0 readings so far; 3 are asked for.").waitFor();
  const opening = page.getByLabel("Opening pressure, psig");
  const temperature = page.getByLabel("Temperature of the valve, °F");
  const add = page.getByRole("button", { name: "Add the reading" });

  await opening.fill("1o11");
  await add.click();
  await page.getByText('Opening pressure: "1o11" is not a number').waitFor();
  await page.getByText("Temperature: nothing entered.").waitFor();
  expect(await opening.inputValue()).toBe("1o11");

  await temperature.fill("60");
  for (const [index, read] of ["1010", "1012", "1011"].entries()) {
    await opening.fill(read);
    await add.click();
    await page.getByRole("button", { name: `Take out reading ${index + 1}` }).waitFor();
  }
  await page.getByText("3 readings; 3 are asked for.").waitFor();
  expect(await page.locator(".bench-judgement").count()).toBe(3);
  await page.getByText("by E. Rowan").waitFor();
  await page.getByText("The readings lie within 2 psi of each other; 5 psi is allowed.").waitFor();
  await page
    .getByText(/The mean is 54 psi above what is needed; 5 psi is allowed\. Set it again/)
    .waitFor();

  // Killed and opened again, nothing that was kept is lost.
  await tablet.kill();
  const again = await tablet.open(`${site.address}/jobs/job-em-12-3/set-sheet`, {
    width: 800,
    height: 1280,
  });
  await again.getByText("3 readings; 3 are asked for.").waitFor();
  await pressAndHold(again, "Take out reading 3");
  await again.getByText("2 readings so far; 3 are asked for.").waitFor();

  // On paper there is the working and no button.
  await again.emulateMedia({ media: "print" });
  expect(await again.getByRole("button", { name: "Print" }).isVisible()).toBe(false);
  await again.getByText("Pd = (Po − Ps)(1 − R) + R Pother").waitFor();
  await again.getByText(/^Printed \d{4}-\d\d-\d\d/).waitFor();
});
