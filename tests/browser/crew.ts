import type { Page } from "playwright-core";
import { expect } from "vitest";
import { signers } from "../../demo-data/finishedRun.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import type { Role } from "../../src/jobs/roles.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import type { HoldPoint, Step } from "../../src/jobs/sheet/sheet.ts";
import { itemsOf } from "../../src/jobs/sheet/walk.ts";
import { goodRun } from "../jobs/demo.ts";
import { pressAndHold } from "./harness.ts";

/** What a crew does on the run sheet, through the screen only. */

/** The heading of the step or hold point on screen. */
export const heading = (page: Page) => page.locator(".step-title").textContent();

/** Types one field, the unit first where it is not the one shown. */
async function type(page: Page, field: Step["fields"][number], typed: Typed): Promise<void> {
  if (field.kind === "choice") {
    await page.locator(`input[name="entry-${field.id}"][value="${typed.text}"]`).check();
    return;
  }
  await page.locator(`#entry-${field.id}`).fill(typed.text);
}

export async function typeStep(
  page: Page,
  step: Step,
  typed: Record<string, Typed>,
): Promise<void> {
  for (const field of step.fields) {
    const entry = typed[field.id];
    if (field.kind === "choice") await closeKeys(page);
    if (entry) await type(page, field, entry);
  }
  await closeKeys(page);
}

/** On an upright tablet the number keys lie over what comes below. */
async function closeKeys(page: Page): Promise<void> {
  const close = page.getByRole("button", { name: "Close keys" });
  if (await close.isVisible()) await close.click();
}

/** Looks at a step or hold point of the phase that is open on the spine. */
export async function view(page: Page, title: string): Promise<void> {
  const item = page.locator(".spine-item").filter({ has: page.getByText(title, { exact: true }) });
  if (!(await item.isVisible())) await page.locator(".strip-button").first().click();
  await item.click();
}

/** Says when the gauges were read. */
export async function readEarlier(page: Page, minutes: number): Promise<void> {
  const then = new Date(Date.now() - minutes * 60_000);
  const time = `${String(then.getHours()).padStart(2, "0")}:${String(then.getMinutes()).padStart(2, "0")}`;
  await page.getByRole("button", { name: /Was it read earlier/ }).click();
  await page.getByLabel("Read at").fill(time);
}

/** Presses record and waits until it is acknowledged. @param early it was read before the last step was done */
export async function record(page: Page, step: Step, early = false): Promise<void> {
  await page.locator(".step-record").click();
  const said = page.locator(".run-said", { hasText: `: ${step.title}.` });
  if (early) {
    const right = page.getByRole("button", { name: "It is right, record it as typed" });
    await said.or(right).first().waitFor();
    if (await right.isVisible()) await right.click();
  }
  await said.waitFor().catch(async (error: unknown) => {
    const shown = await page.locator(".run-middle").ariaSnapshot();
    throw new Error(`"${step.title}" was not recorded. The screen says:\n${shown}`, {
      cause: error,
    });
  });
}

export async function signAndRelease(page: Page, hold: HoldPoint): Promise<void> {
  for (const condition of hold.conditions) {
    if (condition.kind !== "signature") continue;
    const row = page.locator(".condition", { hasText: condition.text });
    await row
      .getByLabel(`Name of the ${condition.role}`)
      .fill(signers[condition.role as Role] ?? "N. N.");
    await pressAndHold(page, `Sign as ${condition.role}`);
    await row.getByText("Signed by").waitFor();
  }
  await pressAndHold(page, "Release hold point");
  await page.locator(".run-said", { hasText: `${hold.title} released` }).waitFor();
}

/** Runs the sheet through the screen from one item up to another, not included. */
export async function runThrough(
  page: Page,
  from: string | undefined,
  to: string | undefined,
  answers: Readonly<Record<string, { readonly fields: Record<string, Typed> }>>,
  /** minutes before now at which a step's gauges were read */
  read: Readonly<Record<string, number>> = {},
): Promise<void> {
  const items = itemsOf(changeOut);
  const id = (item: (typeof items)[number]) => (item.type === "step" ? item.step.id : item.hold.id);
  const start = from === undefined ? 0 : items.findIndex((item) => id(item) === from);
  const end = to === undefined ? items.length : items.findIndex((item) => id(item) === to);
  for (const item of items.slice(start, end)) {
    const title = item.type === "step" ? item.step.title : item.hold.title;
    await page.locator(".step-title", { hasText: title }).waitFor();
    if (item.type === "hold") {
      await signAndRelease(page, item.hold);
      continue;
    }
    await typeStep(page, item.step, answers[item.step.id]?.fields ?? {});
    const minutes = read[item.step.id];
    if (minutes !== undefined) await readEarlier(page, minutes);
    await record(page, item.step, minutes !== undefined);
  }
}

/** Closes a run whose steps are all done. @param reason why it is closed with what is not answered */
export async function close(
  page: Page,
  remark: string,
  reason = "No camera is let into the zone.",
): Promise<void> {
  await page.getByRole("link", { name: "Close out the run" }).click();
  await page.getByLabel("Remark for the engineer").fill(remark);
  await page.getByLabel("Why it is closed with").fill(reason);
  await pressAndHold(page, "Close the run");
  await page.getByText("Closed on this tablet. Save the pack").waitFor();
}

export function stepOf(id: string): Step {
  const item = itemsOf(changeOut).find((each) => each.type === "step" && each.step.id === id);
  if (item?.type !== "step") throw new Error(`no step ${id}`);
  return item.step;
}

/** Starts the run from the brief and records up to the pressures as found, those included. */
export async function runToAsFound(page: Page): Promise<void> {
  const step = stepOf("as-found");
  await page.getByRole("button", { name: "Start the run" }).click();
  await runThrough(page, undefined, step.id, goodRun);
  await typeStep(page, step, goodRun[step.id]?.fields ?? {});
  await record(page, step);
}

/** Opens the pressures as found once more and types them, up to the press on record. */
export async function typeAgain(page: Page, casing: string): Promise<void> {
  await view(page, stepOf("as-found").title);
  await page.getByRole("button", { name: "Read and record again" }).click();
  // What another window has half typed here may arrive while a field is filled; this one's is typed over it.
  const wanted = { casing, wellhead: "318" };
  await expect
    .poll(async () => {
      const held: Record<string, string> = {};
      for (const [name, text] of Object.entries(wanted)) {
        await page.locator(`#entry-as-found-${name}`).fill(text);
      }
      for (const name of Object.keys(wanted)) {
        held[name] = await page.locator(`#entry-as-found-${name}`).inputValue();
      }
      return held;
    })
    .toEqual(wanted);
  // A moment for the draft, as between two keys.
  await page.waitForTimeout(200);
}
