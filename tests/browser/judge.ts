import { mkdirSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { seriousFaults } from "./seriousFaults.ts";

/** Pictures of every screen for somebody to look at, when a folder is named. */
const pictures = process.env.LATCHLINE_PICTURES;
if (pictures) mkdirSync(pictures, { recursive: true });

export const sizes = [
  { name: "tablet", width: 1280, height: 800 },
  { name: "upright", width: 800, height: 1280 },
  { name: "phone", width: 390, height: 844 },
];

/**
 * Holds what a screen must: no serious fault that axe finds, and nothing that sticks out sideways.
 *
 * @param of parts that axe looks at, where the rest is looked at elsewhere: it takes seconds for a long page
 */
export async function judge(page: Page, name: string, of: readonly string[] = []): Promise<void> {
  await fits(page, name);
  expect(await seriousFaults(page, of), name).toEqual([]);
}

/** Nothing sticks out sideways. */
export async function fits(page: Page, name: string): Promise<void> {
  await page.evaluate(() => document.fonts.ready);
  if (pictures) {
    await page.screenshot({ path: `${pictures}/${name}.png` });
    await page.screenshot({ path: `${pictures}/whole-${name}.png`, fullPage: true });
  }
  const overflow = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(overflow, `${name} scrolls sideways`).toBeLessThanOrEqual(0);
}
