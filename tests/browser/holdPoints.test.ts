import { afterAll, beforeAll, expect, it } from "vitest";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { holdPointsOf } from "../../src/jobs/sheet/walk.ts";
import { close, signAndRelease } from "./crew.ts";
import { Site, TabletBrowser } from "./harness.ts";
import {
  LOCKED,
  readGood,
  runThroughHolds,
  saysWhyLocked,
  standsAt,
  startOffline,
  voidAndReleaseAnew,
  waysFor,
} from "./holdWays.ts";

const site = new Site();
const tablet = new TabletBrowser();

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** The condition of each hold point that a reading breaks, before it is released and after. */
const ways = waysFor({
  "permit-hold": "safety-valves-ok",
  "first-barriers-hold": "first-full-turns",
  "pressure-test-hold": "low",
  "push-out-hold": "open-full",
  "friction-hold": "friction-push-out",
  "depth-hold": "gauge-passes",
  "second-barriers-hold": "second-full-turns",
  "pull-go-hold": "level-time-agreed",
  "level-hold": "level-now",
  "third-barriers-hold": "third-full-turns",
  "replacement-hold": "pins-ok",
  "set-go-hold": "set-level",
  "latched-hold": "same-pocket",
  "fourth-barriers-hold": "fourth-full-turns",
  "proof-hold": "holds",
  "fifth-barriers-hold": "fifth-full-turns",
  "handover-hold": "accounted",
});

it("has a way for every hold point of the sheet", () => {
  expect([...ways.keys()]).toEqual(holdPointsOf(changeOut).map(({ id }) => id));
});

it("locks every hold point of the sheet, releases it, voids it and has it released anew, with the server gone", async () => {
  const page = await startOffline(tablet, site);
  await runThroughHolds(page, ways, async (hold, way) => {
    if (!way) throw new Error(`no way for ${hold.id}`);
    await saysWhyLocked(page, way, LOCKED);
    await readGood(page, way);
    await standsAt(page, hold);
    await signAndRelease(page, hold);
    await voidAndReleaseAnew(page, way);
  });
  await close(page, "Every hold point released twice.");
});
