import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";

/** Faults of a page that shut somebody out, as axe finds them, each with where it is. */
export async function seriousFaults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
}
