import { afterAll, beforeAll, expect, it } from "vitest";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { holdPointsOf } from "../../src/jobs/sheet/walk.ts";
import { close, signAndRelease } from "./crew.ts";
import { Site, TabletBrowser } from "./harness.ts";
import {
  exceptions,
  LOCKED,
  letPass,
  lookAt,
  lookBack,
  readGood,
  runThroughHolds,
  saysWhyLocked,
  standsAt,
  startOffline,
  status,
  waysFor,
} from "./holdWays.ts";

const site = new Site();
const tablet = new TabletBrowser();

beforeAll(() => site.start());
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** The condition of each hold point that is broken and let pass; the two named last let nothing pass. */
const ways = waysFor({
  "permit-hold": "safety-valves-ok",
  "first-barriers-hold": "first-second-held",
  "pressure-test-hold": "strings-as-planned",
  "depth-hold": "gauge-clean",
  "second-barriers-hold": "second-second-held",
  "pull-go-hold": "level-checks-known",
  "level-hold": "level-steady",
  "third-barriers-hold": "third-second-held",
  "replacement-hold": "pins-ok",
  "set-go-hold": "set-level",
  "latched-hold": "same-pocket",
  "fourth-barriers-hold": "fourth-second-held",
  "proof-hold": "holds",
  "fifth-barriers-hold": "fifth-second-held",
  "handover-hold": "accounted",
  "push-out-hold": "open-full",
  "friction-hold": "friction-push-out",
});

it("has a way for every hold point of the sheet, by a condition that somebody may let pass wherever there is one", () => {
  const letting = holdPointsOf(changeOut).map(({ id, conditions }) => ({
    id,
    lets: conditions.some(({ exceptionBy }) => exceptionBy),
  }));
  expect(
    [...ways].map(([id, { condition }]) => ({ id, lets: condition.exceptionBy !== undefined })),
  ).toEqual(letting);
});

it("lets pass at every hold point what somebody may let pass, and nothing where nobody may, with the server gone", async () => {
  const page = await startOffline(tablet, site);
  await runThroughHolds(page, ways, async (hold, way) => {
    if (!way) throw new Error(`no way for ${hold.id}`);
    await saysWhyLocked(page, way, LOCKED);
    if (!way.condition.exceptionBy) {
      expect(await exceptions(page).count()).toBe(0);
      await readGood(page, way);
      await standsAt(page, hold);
      await signAndRelease(page, hold);
      return;
    }
    await letPass(page, way);
    await signAndRelease(page, hold);
    await lookAt(page, hold.id);
    await status(page).getByText("Released under exception").waitFor();
    await page.getByText("Released by R. Tamsin, wireline supervisor, at").waitFor();
    await page.getByText(/Let pass by .+: Looked at together/).waitFor();
    await lookBack(page);
  });
  await close(page, "Let pass by engineer and well owner, one at a hold point.");
});
