import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

/** Comments, and what is said for paper: there every screen may put away what is no part of the page. */
const NOT_SHOWN = /\/\*[\s\S]*?\*\/|^@media print \{[\s\S]*?^\}/gm;

/** Every class that a file of styles sets by its bare name, such as `.entry { … }`, wherever it stands. */
function bareNames(css: string): string[] {
  const rules = css.replace(NOT_SHOWN, "").matchAll(/(?:^|[{};])\s*([^{};]+)\{/g);
  return [...rules].flatMap(([, selectors = ""]) =>
    selectors.split(",").flatMap((each) => /^\.([\w-]+)$/.exec(each.trim())?.[1] ?? []),
  );
}

it("gives a class its look in one file only: whatever screen was opened before, its styles stay loaded", () => {
  const files = new Map<string, Set<string>>();
  for (const file of readdirSync("src/ui", { recursive: true, encoding: "utf8" })) {
    if (!file.endsWith(".css")) continue;
    for (const name of bareNames(readFileSync(`src/ui/${file}`, "utf8"))) {
      files.set(name, (files.get(name) ?? new Set()).add(file));
    }
  }
  expect(files.size).toBeGreaterThan(300);
  const twice = [...files].flatMap(([name, where]) =>
    where.size > 1 ? [`.${name} in ${[...where].sort().join(" and ")}`] : [],
  );
  expect(twice).toEqual([]);
});
