import { describe, expect, it } from "vitest";
import { takenAt } from "../../src/jobs/commands/takenAt.ts";

/** An instant by the clock on the wall, whatever zone the machine is in. */
const wall = (day: number, hour: number, minute: number) =>
  new Date(2026, 10, day, hour, minute).toISOString();

describe("when gauges were read", () => {
  const now = wall(25, 14, 30);
  it.each([
    ["nothing typed: just now", undefined, now],
    ["a time before now: today", "14:05", wall(25, 14, 5)],
    ["this very minute: today", "14:30", now],
    ["a little after now: ahead, and not yesterday's", "14:32", wall(25, 14, 32)],
    ["not a time: just now", "25:99", now],
  ])("%s", (_, typed, instant) => {
    expect(takenAt(typed, now)).toBe(instant);
  });

  it("before midnight, typed after it: yesterday's", () => {
    expect(takenAt("23:50", wall(25, 0, 10))).toBe(wall(24, 23, 50));
  });
});
