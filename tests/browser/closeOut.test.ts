import { subHours } from "date-fns";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { jobs } from "../../demo-data/emberMesa.ts";
import { correct, grantException } from "../../src/jobs/commands/run.ts";
import { latestReading } from "../../src/jobs/state/jobState.ts";
import { engineer, Tablet } from "../jobs/demo.ts";
import { record, stepOf, typeStep, view } from "./crew.ts";
import { keptOffline, pressAndHold, Site, sign, TabletBrowser } from "./harness.ts";
import { bringIn } from "./jobPack.ts";
import { fits, sizes } from "./judge.ts";
import { alterByHand, eventsIn } from "./log.ts";
import { seriousFaults } from "./seriousFaults.ts";

const site = new Site();
const tablet = new TabletBrowser();
let page: Page;
const JOB = jobs.ready.id;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** A run that did not go smoothly, up to its last step: over a limit, a sign not clear, a figure corrected. */
function roughRun(): Tablet {
  const ran = new Tablet(crypto.randomUUID(), JOB);
  ran.now = subHours(new Date(), 20);
  const said = (text: string, unit?: string) => ({ text, ...(unit !== undefined && { unit }) });
  ran.start().runTo(
    "proof-hold",
    {
      shear: { "shear-largest": said("1090", "lbf"), "shear-sign": said("unclear") },
    },
    "One blow came harder than meant.",
  );
  const reason = "Tagged and pulled lightly: it holds.";
  ran.act((s) => grantException(s, "proof-hold", "shear-clear", reason, engineer));
  ran.runTo("left-location", { "line-left": { "line-on-drum": said("") } });
  const cut = latestReading(ran.state, "line-cut");
  if (!cut) throw new Error("no reading");
  ran.act((s) => correct(s, cut, said("80", "ft"), "Measured again"));
  return ran;
}

/** Names of columns that lie over the next one's. */
const wideHeads = () =>
  page.locator(".plan-table thead th").evaluateAll((heads) =>
    heads.flatMap((head) => {
      const words = document.createRange();
      words.selectNodeContents(head);
      const over = words.getBoundingClientRect().right > head.getBoundingClientRect().right;
      return over ? [head.textContent] : [];
    }),
  );
const card = () => page.locator(".job-card", { hasText: "EM-07" });
/** On every size of screen; axe looks once, at these parts. */
const look = async (name: string, parts: readonly string[]) => {
  for (const { name: size, width, height } of sizes) {
    await page.setViewportSize({ width, height });
    await fits(page, `${size}-${name}`);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
  expect(await seriousFaults(page, parts), name).toEqual([]);
};

/** What need not be answered is taken back, by a correction and by recording the step again, and answered anew. */
async function takeBack() {
  const { title } = stepOf("line-left");
  const entry = page.locator(".recorded-entry", { hasText: "Line left on the drum" });
  const answer = async () => {
    await page.getByRole("button", { name: "Add what is missing" }).click();
    await page.locator("#entry-line-on-drum").fill("14020");
    await page.locator(".step-record").click();
    await page.locator(".run-said", { hasText: `: ${title}.` }).waitFor();
    await view(page, title);
    await entry.locator(".recorded-value", { hasText: "14020 ft" }).waitFor();
  };
  await view(page, title);
  await entry.getByRole("button", { name: "Correct" }).click();
  await entry.getByText("Left empty, the answer is taken back.").waitFor();
  await entry.getByRole("button", { name: "Misread" }).click();
  await look("take-back-by-correction", [".recorded"]);
  await entry.getByRole("button", { name: "Record the correction" }).click();
  await entry.getByText("Taken back").waitFor();
  await entry.getByText("was 14020 ft; Misread").waitFor();
  await answer();
  await page.getByRole("button", { name: "Read and record again" }).click();
  await page.locator("#entry-line-on-drum").fill("");
  await page.locator(".step-record").click();
  await page.getByText("stood there and was emptied").waitFor();
  await page.getByLabel("Taken back: why?").fill("Of the other drum.");
  await look("take-back-by-recording", [".stand-by"]);
  await page.getByRole("button", { name: "It is right, record it as typed" }).click();
  await page.locator(".run-said", { hasText: `: ${title}.` }).waitFor();
  await view(page, title);
  await entry.getByText("was 14020 ft; Of the other drum.").waitFor();
  await answer();
}

/** A figure of the reading on lift was misread: it is corrected with a reason, and stays in the list. */
async function correctOnLift() {
  const lift = page.locator(".lift-observed");
  const wellhead = page.locator("#entry-wellhead");
  await lift.getByRole("button", { name: "Correct this reading" }).click();
  expect(await wellhead.inputValue()).toBe("266");
  expect(await lift.getByLabel("Where it is read").inputValue()).toBe("Recorder");
  await lift.getByRole("button", { name: "Record the correction" }).click();
  await lift.getByText("Say why it is corrected.").waitFor();
  await lift.getByRole("button", { name: "Misread" }).click();
  await lift.getByRole("button", { name: "Record the correction" }).click();
  await lift.getByText("That is what stands there already.").waitFor();
  await wellhead.fill("226");
  await look("lift-correction", [".lift-observed"]);
  await page.reload();
  await expect.poll(() => wellhead.inputValue()).toBe("226");
  expect(await lift.getByLabel("Why it is corrected").inputValue()).toBe("Misread");
  await lift.getByRole("button", { name: "Record the correction" }).click();
  const corrected = lift.locator("li", { hasText: "wellhead pressure 266 psig" });
  await corrected.getByText(/^Does not stand: corrected on .* by R\. Tamsin: Misread$/).waitFor();
  await lift.locator("li", { hasText: "wellhead pressure 226 psig" }).waitFor();
  expect(await lift.getByRole("button", { name: "Correct this reading" }).count()).toBe(1);
  await look("lift-corrected", [".lift-observed"]);
  const read = (await eventsIn(page, JOB)).filter(({ body }) => body.type === "lift observed");
  expect(read.map(({ body }) => body)).toMatchObject([
    { wellhead: { value: 266 } },
    { wellhead: { value: 226 }, corrects: { event: read[0]?.hash, reason: "Misread" } },
  ]);
}

it("closes a rough run with one gap and a reason; it is asked about, answered, and approved with remarks", async () => {
  await bringIn(page, site.address, roughRun());
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}/jobs/${JOB}/run`);
  await record(page, stepOf("left-location"));
  await page.getByRole("link", { name: "Close out the run" }).click();
  await page.getByRole("heading", { name: "2 things are not answered" }).waitFor();
  await look("close-out", [".close-head", ".close-gaps", "[aria-label=Line]", ".close-run"]);

  // One of them is answered at its step, the other is left with a reason.
  const gap = page.locator(".close-gaps li", { hasText: "left on the drum" });
  await gap.getByRole("link", { name: "Answer it" }).click();
  await page.locator(".step-title", { hasText: stepOf("line-left").title }).waitFor();
  await page.getByRole("button", { name: "Add what is missing" }).click();
  expect(await page.locator("#entry-line-cut").inputValue()).toBe("80");
  await typeStep(page, stepOf("line-left"), { "line-on-drum": { text: "14020", unit: "ft" } });
  await record(page, stepOf("line-left"));
  const { body: added } = (await eventsIn(page, JOB)).at(-1) ?? {};
  expect(added?.type === "readings taken" && added.entries.map(({ field }) => field)).toEqual([
    "line-on-drum",
  ]);
  await takeBack();
  await page.getByRole("link", { name: "Close out the run" }).click();
  await page.getByRole("heading", { name: "1 thing is not answered" }).waitFor();
  await page.getByRole("link", { name: "Go to closing the run" }).click();
  await pressAndHold(page, "Close the run");
  await page.getByText("say why the run is closed without").waitFor();
  await page.getByLabel("Why it is closed with this").fill("No camera on this permit.");
  await page.reload();
  await pressAndHold(page, "Close the run");
  await page.getByText("Closed on this tablet. Save the pack").waitFor();
  await page.getByText("Why not everything is answered: No camera on this permit.").waitFor();
  await look("closed", [".close-done"]);

  // On the run sheet, too: what is refused now is not offered, what is still taken is.
  await page.goto(`${site.address}/jobs/${JOB}/run?step=line-left`);
  await page.getByText("Why not everything is answered: No camera on this permit.").waitFor();
  await page.locator(".spine-always").getByText("The run is closed: no step is changed").waitFor();
  expect(await page.getByRole("button", { name: "Something is wrong" }).count()).toBe(0);
  await page.getByRole("button", { name: "Add a note" }).waitFor();
  await look("run-sheet-closed", [".run-finished", ".spine-always"]);
  await page.goto(site.address);
  await card().getByRole("link", { name: "Close-out and readings on lift" }).click();

  // What the well does is read the same evening; swapped figures are asked about.
  await page.getByRole("button", { name: "Enter a reading on lift" }).click();
  await page.getByRole("button", { name: "Recorder" }).click();
  await page.locator("#entry-injectionAtSurface").click();
  for (const key of ["2", "6", "6", "Next", "9", "0", "5"]) {
    await page.locator(".keypad").getByRole("button", { name: key, exact: true }).click();
  }
  await look("lift-keys", [".lift-observed"]);
  await page.reload();
  await page.getByRole("button", { name: "Record the reading" }).click();
  await page.getByText("Are the two swapped?").waitFor();
  await page.locator("#entry-injectionAtSurface").fill("905");
  await page.locator("#entry-wellhead").fill("266");
  await page.getByRole("button", { name: "Record the reading" }).click();
  await page.getByText("casing pressure at surface 905 psig").waitFor();
  await correctOnLift();

  // The engineer asks about the correction; without an answer there is no approval.
  await sign(page, "L. Ashgrove", "production engineer");
  await page.goto(`${site.address}/jobs/${JOB}/review`);
  await page
    .getByText("Closed with 1 not answered. R. Tamsin: No camera on this permit.")
    .waitFor();
  const remark = (kind: string) => page.locator(".review-remarks > li", { hasText: kind });
  await remark("limit exceeded").getByText("Stood by: One blow came harder than meant.").waitFor();
  await remark("exception").first().waitFor();
  await remark("correction")
    .getByText("Wellhead pressure 266 psig corrected to 226 psig: Misread")
    .waitFor();
  await look("review, lift corrected", [".lift-observed"]);
  await page.setViewportSize({ width: 800, height: 1280 });
  expect(await wideHeads()).toEqual([]);
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByRole("button", { name: "Ask about correction: Line cut off" }).click();
  await page.getByLabel("Question about correction").fill("Who measured it again?");
  // A moment for the draft, as between two keys; then the tablet goes dark.
  await page.waitForTimeout(300);
  await page.reload();
  await page.getByText("A question is half written and not asked").waitFor();
  await page.getByRole("button", { name: "Go on with it" }).click();
  const words = page.getByLabel("Question about correction");
  await expect.poll(() => words.inputValue()).toBe("Who measured it again?");
  await page.getByRole("button", { name: "Ask the supervisor" }).click();
  await page.getByRole("heading", { name: "1 question waits for the supervisor" }).waitFor();
  await page.getByText("A question is half written").waitFor({ state: "detached" });
  await pressAndHold(page, "Approve the record");
  await page.getByText('A question has no answer: "Who measured it again?"').waitFor();

  await page.goto(site.address);
  await sign(page, "R. Tamsin", "wireline supervisor");
  await card().getByText("1 question waits for the supervisor").waitFor();
  await card().getByRole("link", { name: "Answer the engineer" }).click();
  await page.getByLabel("Answer", { exact: true }).fill("A. Brack, with the second tape.");
  await look("review, to answer", ["[aria-label=Questions]"]);
  await page.getByRole("button", { name: "Record the answer" }).click();
  await page.getByRole("heading", { name: "Questions, all answered" }).waitFor();

  await sign(page, "L. Ashgrove", "production engineer");
  const signs = await page.locator(".review-hash").first().textContent();
  expect(signs).toMatch(/^([0-9a-f]{4} ){15}[0-9a-f]{4}$/);
  await pressAndHold(page, "Approve with remarks");
  await page.getByText("Write the remark with which it is approved.").waitFor();
  await page.getByRole("textbox", { name: "Remark" }).fill("Send the valve to the shop.");
  await pressAndHold(page, "Approve with remarks");
  const head = page.locator(".review-head");
  await head.getByText("Approved with remarks. Run of").waitFor();
  await head.getByText("L. Ashgrove, production engineer: Send the valve to the shop.").waitFor();
  expect(await page.evaluate(() => window.scrollY)).toBe(0);
  await page.getByText("What was signed, as one fingerprint").waitFor();
  expect(await page.locator(".review-hash").first().textContent()).toBe(signs);
  const { body } = (await eventsIn(page, JOB)).at(-1) ?? {};
  expect(body).toMatchObject({ type: "review", decision: "approved with remarks" });

  // Nothing that would not be taken any more is asked for.
  await page.goto(`${site.address}/jobs/${JOB}/run?step=line-left`);
  await page.getByText("The record is approved.").waitFor();
  for (const name of ["Add a note", "Add a photograph", "Something is wrong"]) {
    expect(await page.getByRole("button", { name }).count(), name).toBe(0);
  }
});

it("does not approve a log that somebody altered, and says where", async () => {
  const events = await eventsIn(page, "job-em-03-3");
  const altered = events.find(
    ({ body }) => body.type === "readings taken" && body.step === "as-found",
  );
  if (!altered) throw new Error("no reading");
  await alterByHand(page, altered.hash);
  await page.goto(`${site.address}/jobs/job-em-03-3/review`);
  const told = page.locator(".review-broken");
  await told.getByText(`Event ${altered.sequence} was changed after it was written.`).waitFor();
  const says = await told.textContent();
  expect(says).toContain('The entry reads: readings taken in "Pressures as found", 1 Jan 2026');
  expect(says).toContain(`before it is number ${altered.sequence - 1}: step done in "Hold the`);
  expect(says).toContain("R. Tamsin");
  expect(await page.getByRole("button", { name: "Approve the record" }).isDisabled()).toBe(true);
  await page.goto(`${site.address}/jobs/job-em-03-3/close`);
  await page.getByText("The log of this job is not whole").waitFor();

  // Where it had been approved before, it is not called that any more, on the board neither.
  await page.goto(site.address);
  await card().getByText("Approved with remarks", { exact: true }).waitFor();
  const own = await eventsIn(page, JOB);
  const taken = own.find(({ body }) => body.type === "run closed");
  if (!taken) throw new Error("not closed");
  await alterByHand(page, taken.hash);
  await page.goto(`${site.address}/jobs/${JOB}/review`);
  await page.getByText("Approved with remarks, but the log was changed after that.").waitFor();
  await page.getByText("it is not the log that was approved").waitFor();
  await page.goto(site.address);
  await card().getByText("Approved with remarks, but the log was changed after that").waitFor();
  await look("board, log changed", [".job-card .problem"]);
});
