import { type Remembered, rememberedIn } from "../../jobs/tables/remembered.ts";

const KEY = "latchline.tables";

/** How tables were mapped on this device. No evidence and no record: lost, it is mapped again. */
export function rememberedMappings(): readonly Remembered[] {
  try {
    return rememberedIn(localStorage.getItem(KEY));
  } catch {
    return [];
  }
}

export function keepMappings(remembered: readonly Remembered[]): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(remembered));
  } catch {
    // Full or forbidden: the table is in all the same, and the next one is mapped again.
  }
}
