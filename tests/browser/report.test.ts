import { readFileSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { fieldInWords } from "../../src/jobs/entryInWords.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { makePack } from "../../src/jobs/pack/pack.ts";
import { fieldById } from "../../src/jobs/sheet/walk.ts";
import { closingHash } from "../../src/jobs/state/closingHash.ts";
import { Tablet } from "../jobs/demo.ts";
import { eventfulRun, kept } from "../jobs/report/eventfulRun.ts";
import { bare, pagesOf } from "../jobs/report/readPdf.ts";
import { keptOffline, Site, TabletBrowser } from "./harness.ts";
import { importChosen } from "./jobPack.ts";
import { sizes } from "./judge.ts";
import { seriousFaults } from "./seriousFaults.ts";

const site = new Site();
const tablet = new TabletBrowser();
const pictures = process.env.LATCHLINE_PICTURES;
/** Of a job that the demonstration does not have, whose log would be joined with this one. */
const job = { ...jobs.ready, id: "job-em-07-reported" };
const run = eventfulRun(new Tablet(crypto.randomUUID(), job.id));
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  const records = { ...library, jobs: [job] };
  const pack = makePack(
    { records: records as never, events: [...run.events], pictures: [kept] },
    new Date().toISOString(),
  );
  await page.getByRole("button", { name: "Import a pack" }).click();
  await page.getByLabel("Pack file").setInputFiles({
    name: "run.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(pack)),
  });
  await importChosen(page);
  await page.getByText("is imported.").waitFor();
  await page.goto(`${site.address}/jobs/${job.id}/review`);
  await page.getByRole("link", { name: "Report", exact: true }).click();
  await page.getByRole("heading", { name: "Calculations with their working" }).waitFor();
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

async function download(button: string) {
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  await page.getByText(`${file.suggestedFilename()} handed to the browser's downloads.`).waitFor();
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/** Words of the charts that are cut off at an edge, or on which an axis' name lies. */
function crampedWords(shown: Page): Promise<string[]> {
  return shown.evaluate(() =>
    [...document.querySelectorAll(".report-chart > svg")].flatMap((svg) => {
      const edge = svg.getBoundingClientRect();
      const words = [...svg.querySelectorAll("text")];
      const names = words.filter((each) => each.classList.contains("name"));
      return words.flatMap((each) => {
        const box = each.getBoundingClientRect();
        const under = names.some((name) => {
          const lies = name.getBoundingClientRect();
          const beside = box.left >= lies.right || box.right <= lies.left;
          return name !== each && !beside && box.top < lies.bottom && box.bottom > lies.top;
        });
        const cut = box.left < edge.left || box.right > edge.right || box.bottom > edge.bottom;
        return cut || under ? [`${each.textContent} of ${svg.getAttribute("aria-label")}`] : [];
      });
    }),
  );
}

/** Over how many lines each figure of plan against actual runs with its unit. */
function linesOfFigures(shown: Page): Promise<number[]> {
  return shown.locator("#plan-actual td.report-figure").evaluateAll((cells) =>
    cells.map((cell) => {
      const words = document.createRange();
      words.selectNodeContents(cell);
      return new Set([...words.getClientRects()].map(({ top }) => Math.round(top))).size;
    }),
  );
}

/** What the record has and the report must have: readings as entered, serials, reasons, names, the closing hash. */
function figures(): string[] {
  const { state } = run;
  const sheet = state.programme?.sheet;
  if (!sheet) throw new Error("no sheet");
  return [
    ...state.readings.map(({ field, value }) => fieldInWords(fieldById(sheet, field), value)),
    ...state.exceptions.map(({ reason }) => reason),
    ...state.signatures.map(({ by }) => by.name),
    closingHash(state) ?? "no closing hash",
    state.events.at(-1)?.hash ?? "no hash",
  ];
}

it("stands on the screen with everything the record has, and with its pictures", async () => {
  const text = bare((await page.locator(".report").textContent()) ?? "");
  expect(figures().filter((each) => !text.includes(bare(each)))).toEqual([]);
  await page.locator(".report-photograph img").waitFor();
  await page.getByText("This picture is not on the tablet that made the report").waitFor();
});

it.each(sizes)("fits a screen of $width x $height", async ({ name, width, height }) => {
  await page.setViewportSize({ width, height });
  if (pictures) {
    for (const part of ["result", "charts", "calculations"]) {
      await page.locator(`#${part}`).evaluate((element) => element.scrollIntoView());
      await page.screenshot({ path: `${pictures}/${name}-report-${part}.png` });
    }
  }
  const overflow = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(overflow).toBeLessThanOrEqual(0);
  expect(await crampedWords(page)).toEqual([]);
  const [most = 0] = (await linesOfFigures(page)).sort((one, other) => other - one);
  expect(most).toBe(1);
});

it("shuts nobody out, where its kinds of blocks are", async () => {
  // All of it has thousands of cells that are alike: axe would look at each.
  const faults = await seriousFaults(page, [
    ".report-actions",
    "#result",
    "#charts",
    "#log",
    "#signatures",
  ]);
  expect(faults).toEqual([]);
});

it("leaves as a PDF whose text is the record's, on either paper, with nothing but this tablet", async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  for (const paper of ["A4", "Letter"]) {
    const { name, bytes } = await download(`PDF, ${paper}`);
    expect(name).toBe(`latchline-report-EM-07-${job.day}.pdf`);
    const pages = await pagesOf(new Uint8Array(bytes));
    const text = bare(pages.join(" "));
    expect(figures().filter((each) => !text.includes(bare(each)))).toEqual([]);
    // One page of result, whatever it has to say.
    expect(pages[0]).toContain("Closing hash");
    expect(pages[1]).toContain("Close-out");
    if (pictures) writeFileSync(`${pictures}/report-${paper}.pdf`, bytes);
  }
  await page.reload();
  await page.locator(".button.next", { hasText: "PDF, Letter" }).waitFor();
});

it("is given up on request, and nothing is saved", async () => {
  await page.getByRole("button", { name: "PDF, A4" }).click();
  await page.getByRole("button", { name: "Give up" }).click();
  await page.getByText("The PDF was given up; nothing was saved.").waitFor();
});

it("is printed by the browser with every table, pages numbered and no controls", async () => {
  const printed = await page.pdf({
    preferCSSPageSize: true,
    ...(pictures && { path: `${pictures}/report-print.pdf` }),
  });
  const pages = await pagesOf(new Uint8Array(printed));
  const text = bare(pages.join(" "));
  const cells = await page.locator(".report td, .report th, .report dd").allTextContents();
  expect(cells.length).toBeGreaterThan(500);
  expect(cells.filter((each) => !text.includes(bare(each)))).toEqual([]);
  expect(pages[2]).toContain(`3 of ${pages.length}`);
  expect(pages[2]).toContain("NOT APPROVED");
  expect(text).not.toContain(bare("Readings as workbook"));
});

it("leaves as tables and as JSON whose chain holds", async () => {
  const workbook = await download("Readings as workbook");
  expect([...workbook.bytes.subarray(0, 2)]).toEqual([...Buffer.from("PK")]);
  const csv = await download("Readings as CSV");
  expect(csv.bytes.toString("utf8").trimEnd().split("\r\n")).toHaveLength(
    run.state.readings.length + 1,
  );
  const json = await download("Record as JSON");
  const { events } = JSON.parse(json.bytes.toString("utf8"));
  expect(brokenLinks(events)).toEqual([]);
  expect(events).toEqual(run.events);
});
