import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";

/**
 * Faults of a page that shut somebody out, as axe finds them, each with where it is.
 *
 * @param of parts to look at, where not the whole page
 */
export async function seriousFaults(page: Page, of: readonly string[] = []): Promise<string[]> {
  const looked = of.reduce((builder, each) => builder.include(each), new AxeBuilder({ page }));
  const { violations } = await looked.analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
}
