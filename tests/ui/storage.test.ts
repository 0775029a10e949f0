import { describe, expect, it } from "vitest";
import { mustBeInstalledFirst } from "../../src/ui/offline/installFirst.ts";
import { inWords, isNearlyFull } from "../../src/ui/Storage/room.ts";

describe("room on the tablet", () => {
  it.each([
    ["half of much", 5e9, 10e9, false],
    ["nearly all", 8.1e9, 10e9, true],
    ["little left of little", 20e6, 200e6, true],
    ["a browser that names no quota", 5e6, 0, false],
  ])("%s", (_, used, quota, full) => {
    expect(isNearlyFull({ used, quota })).toBe(full);
  });

  it("is said in the unit that fits", () => {
    expect([9_400, 412_300_000, 1_250_000_000].map(inWords)).toEqual(["9 kB", "412 MB", "1.3 GB"]);
  });
});

describe("whether the app has to be installed first", () => {
  const iPad =
    "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Safari/605.1.15";
  const iPhone = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15";
  const android = "Mozilla/5.0 (Linux; Android 15; Tablet) AppleWebKit/537.36 Chrome/140.0";
  it.each([
    ["an iPad's tab", { userAgent: iPad, maxTouchPoints: 5, standalone: false }, true],
    ["the app on an iPad", { userAgent: iPad, maxTouchPoints: 5, standalone: true }, false],
    ["a phone's tab in another browser", { userAgent: iPhone, maxTouchPoints: 5 }, true],
    ["a Mac", { userAgent: iPad, maxTouchPoints: 0 }, false],
    ["an Android tablet", { userAgent: android, maxTouchPoints: 5 }, false],
  ])("%s", (_, browser, must) => {
    expect(mustBeInstalledFirst(browser)).toBe(must);
  });
});
