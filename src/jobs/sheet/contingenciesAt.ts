import type { Contingency } from "./sheet.ts";

/**
 * The contingencies of a sheet with these steps: places that are not in it are taken out. A way out whose every
 * place is gone goes with them, since an empty list would mean that the place is chosen freely.
 */
export function contingenciesAt(
  given: readonly Contingency[],
  steps: ReadonlySet<string>,
): Contingency[] {
  return given.flatMap((each) => {
    const near = each.near.filter((step) => steps.has(step));
    const options = each.options
      .map((option) => ({
        ...option,
        rejoins: option.rejoins.filter((step) => steps.has(step)),
        free: option.rejoins.length === 0,
      }))
      .filter(({ free, rejoins }) => free || rejoins.length > 0)
      .map(({ free: _, ...option }) => option);
    const belongs = each.near.length === 0 || near.length > 0;
    return belongs && options.length > 0 ? [{ ...each, near, options }] : [];
  });
}
