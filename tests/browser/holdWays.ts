import type { Page } from "playwright-core";
import { expect } from "vitest";
import { signers } from "../../demo-data/finishedRun.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import type { Condition, HoldPoint, Step } from "../../src/jobs/sheet/sheet.ts";
import { holdPointsOf, itemId, itemsOf } from "../../src/jobs/sheet/walk.ts";
import { goodRun } from "../jobs/demo.ts";
import { type Broken, holdCases } from "../jobs/holdCases.ts";
import { record, signAndRelease, stepOf, typeStep, view } from "./crew.ts";
import { keptOffline, pressAndHold, type Site, sign, type TabletBrowser } from "./harness.ts";

/** How a hold point is locked on the screen: one of its conditions, and the reading that breaks it. */
export interface Way {
  readonly hold: HoldPoint;
  readonly condition: Condition;
  readonly broken: Extract<Broken, { by: "reading" }>;
}

/** The ways for hold points of the usual sheet, each by the condition that is broken. */
export function waysFor(conditions: Readonly<Record<string, string>>): ReadonlyMap<string, Way> {
  const entries = holdPointsOf(changeOut).flatMap((hold): [string, Way][] => {
    const id = conditions[hold.id];
    return holdCases(changeOut, hold).flatMap(({ condition, broken }): [string, Way][] =>
      condition.id === id && broken.by === "reading"
        ? [[hold.id, { hold, condition, broken }]]
        : [],
    );
  });
  return new Map(entries);
}

const good = (step: string) => goodRun[step]?.fields ?? {};
const bad = ({ broken }: Way) => ({ ...good(broken.step), ...broken.typed });

/** The ready job's run is started, with the server gone and a clock that can be put on. */
export async function startOffline(tablet: TabletBrowser, site: Site): Promise<Page> {
  const page = await tablet.open(site.address, { width: 1280, height: 800 });
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  await page.clock.install();
  await page.reload();
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page
    .locator(".job-card", { hasText: "EM-07" })
    .getByRole("link", { name: "Read the brief" })
    .click();
  await page.getByRole("button", { name: "Start the run" }).click();
  return page;
}

/** Watches are a quarter of an hour and more: the tablet's clock goes on by what the work takes. */
const wait = (page: Page, minutes: number) => page.clock.fastForward(minutes * 60_000);

/** Where the run stands, by the title on the screen. */
export const standsAt = (page: Page, { title }: { readonly title: string }) =>
  page.locator(".step-title", { hasText: title }).waitFor();

/**
 * Runs the sheet from the first item to the last: its steps as in a good run, but for the reading of each way, which is
 * bad; at its hold points what the story has there.
 */
export async function runThroughHolds(
  page: Page,
  ways: ReadonlyMap<string, Way>,
  atHold: (hold: HoldPoint, way: Way | undefined) => Promise<void>,
): Promise<void> {
  for (const item of itemsOf(changeOut)) {
    if (item.type === "hold") {
      await standsAt(page, item.hold);
      await atHold(item.hold, ways.get(item.hold.id));
      continue;
    }
    const { step } = item;
    await standsAt(page, step);
    await wait(page, goodRun[step.id]?.minutes ?? 0);
    const spoilt = [...ways.values()].filter(({ broken }) => broken.step === step.id);
    await typeAndRecord(page, step, Object.assign({ ...good(step.id) }, ...spoilt.map(bad)));
  }
}

async function typeAndRecord(page: Page, step: Step, typed: Record<string, Typed>): Promise<void> {
  await typeStep(page, step, typed);
  await record(page, step);
}

/** Looks at a step or hold point, whichever phase is open on the spine. */
export async function lookAt(page: Page, id: string): Promise<void> {
  const phase = changeOut.phases.find(({ items }) => items.some((item) => itemId(item) === id));
  const item = phase?.items.find((each) => itemId(each) === id);
  if (!phase || !item) throw new Error(`no item ${id}`);
  const { title } = item.type === "step" ? item.step : item.hold;
  const closed = page.locator(".spine-closed", {
    has: page.getByText(phase.title, { exact: true }),
  });
  if (await closed.isVisible()) await closed.click();
  await page.locator(".spine-item", { hasText: title }).first().waitFor();
  await view(page, title);
  await page.locator(".step-title", { hasText: title }).waitFor();
}

export const lookBack = (page: Page) =>
  page.getByRole("button", { name: /Back to where the run stands/ }).click();

async function recordAgain(page: Page, id: string, typed: Record<string, Typed>): Promise<void> {
  await lookAt(page, id);
  await page.getByRole("button", { name: "Read and record again" }).click();
  await typeAndRecord(page, stepOf(id), typed);
}

const readBad = (page: Page, way: Way) => recordAgain(page, way.broken.step, bad(way));

/** A band that was left is watched anew: good for as long as a watch takes, and read once more. */
const WATCH = 20;

/** Reads again, good, and where it has to stay so for a while, once more after that while. */
export async function readGood(page: Page, { hold, broken }: Way): Promise<void> {
  const { step } = broken;
  await recordAgain(page, step, good(step));
  const steady = hold.conditions.some((each) => each.kind === "check" && each.check === "steady");
  if (!steady) return;
  await standsAt(page, hold);
  await page.getByText("Watched within the band for 0 min so far").waitFor();
  expect(await releases(page).count()).toBe(0);
  await wait(page, WATCH);
  await recordAgain(page, step, good(step));
}

export const status = (page: Page) => page.locator(".hold-status");
const releases = (page: Page) => page.getByRole("button", { name: "Release hold point" });
export const exceptions = (page: Page) =>
  page.getByRole("button", { name: "Exception, with a reason and a name" });

/** The hold point is up and says which condition is open and why; it offers no release, and no exception but its own. */
export async function saysWhyLocked(page: Page, way: Way, as: RegExp): Promise<void> {
  const { hold, condition, broken } = way;
  await standsAt(page, hold);
  await status(page).getByText(as).waitFor();
  const row = page.locator(".condition.open", { hasText: condition.text });
  await row.locator(".condition-why", { hasText: broken.says }).waitFor();
  expect(await releases(page).count()).toBe(0);
  expect(await row.locator(exceptions(page)).count()).toBe(condition.exceptionBy ? 1 : 0);
}

export const LOCKED = /Locked: \d+ of \d+ open/;

/** Somebody whom the condition names lets it pass, by radio: reason and name, pressed and held. */
export async function letPass(page: Page, { condition }: Way): Promise<void> {
  const [role, ...others] = condition.exceptionBy ?? [];
  const name = role && signers[role];
  if (!name) throw new Error(`nobody lets ${condition.id} pass`);
  const row = page.locator(".condition", { hasText: condition.text });
  await row.locator(exceptions(page)).click();
  await row.getByLabel("Reason").fill("Looked at together and agreed by radio.");
  await row.getByLabel(/Authorised by/).fill(name);
  if (others.length > 0) await row.getByLabel("Role").selectOption(role);
  await pressAndHold(page, "Grant the exception");
  await row.getByText(`Let pass by ${name}, ${role}: Looked at together`).waitFor();
}

/** A later reading breaks what it was released on: what it guards is out of reach until it is released anew. */
export async function voidAndReleaseAnew(page: Page, way: Way): Promise<void> {
  const { hold } = way;
  await readBad(page, way);
  await saysWhyLocked(page, way, /Voided: \d+ of \d+ open/);
  await page.getByText("broke what it was released on. It has to be released again.").waitFor();
  await lookAt(page, hold.guards);
  await page.getByText("This step comes later.").waitFor();
  expect(await page.locator(".step-record").count()).toBe(0);
  await lookBack(page);
  await readGood(page, way);
  await standsAt(page, hold);
  await status(page).getByText("Voided").waitFor();
  await signAndRelease(page, hold);
}
