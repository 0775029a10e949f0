import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, expect, it } from "vitest";
import { jobs } from "../../demo-data/emberMesa.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { eventsIn } from "./log.ts";
import { seriousFaults } from "./seriousFaults.ts";

const job = jobs.ready.id;
const site = new Site();
const folder = mkdtempSync(join(tmpdir(), "latchline-camera-"));
const film = join(folder, "screen.y4m");
const sender = new TabletBrowser();
const reader = new TabletBrowser([
  "--use-fake-device-for-media-stream",
  "--use-fake-ui-for-media-stream",
  `--use-file-for-fake-video-capture=${film}`,
]);

afterEach(async () => {
  await Promise.all([sender.dispose(), reader.dispose()]);
});
afterAll(async () => {
  await site.stop();
  rmSync(folder, { recursive: true, force: true });
});

const width = 640;
const height = 480;
/** Pictures of each code at twenty a second: the fastest that the sender plays. */
const HELD = 2;

/** What a camera that looks straight at the sender's screen sees of the code there: its luma, row by row. */
async function seenOn(page: Page): Promise<Buffer> {
  const code = page.locator(".codes-shown .code");
  const side = Number((await code.getAttribute("viewBox"))?.split(" ")[2]);
  const dark = (await code.locator(".code-dark").getAttribute("d")) ?? "";
  const size = Math.floor(height / side);
  const [left, top] = [(width - side * size) / 2, (height - side * size) / 2].map(Math.floor);
  const luma = Buffer.alloc(width * height, 60);
  const box = (x: number, y: number, across: number, down: number, value: number) => {
    for (let row = y; row < y + down; row += 1) {
      const from = ((top ?? 0) + row) * width + (left ?? 0) + x;
      luma.fill(value, from, from + across);
    }
  };
  box(0, 0, side * size, side * size, 225);
  for (const [, x, y, run] of dark.matchAll(/M(\d+) (\d+)h(\d+)v1H\d+z/g)) {
    box(Number(x) * size, Number(y) * size, Number(run) * size, size, 25);
  }
  return luma;
}

/** A film in YUV4MPEG2, grey: what Chromium takes in place of a camera, over and over. */
function writeFilm(pictures: readonly Buffer[]) {
  const file = openSync(film, "w");
  writeSync(file, `YUV4MPEG2 W${width} H${height} F20:1 Ip A1:1 C420\n`);
  const grey = Buffer.alloc((width * height) / 2, 128);
  for (const luma of pictures) {
    for (let time = 0; time < HELD; time += 1) {
      writeSync(file, "FRAME\n");
      writeSync(file, luma);
      writeSync(file, grey);
    }
  }
  closeSync(file);
}

/** A browser that reads codes by itself: first one from somewhere else, and then it fails, as without its service. */
async function plantDetector(page: Page) {
  await page.addInitScript(() => {
    let looks = 0;
    const detector = class {
      static getSupportedFormats = async () => ["qr_code"];
      async detect() {
        looks += 1;
        if (looks > 1) throw new Error("the service is gone");
        return [{ rawValue: "https://example.com/" }];
      }
    };
    Object.assign(window, { BarcodeDetector: detector });
  });
}

it("hands a job with its log from one tablet's screen to another's camera, the server gone", async () => {
  await site.start();
  const shows = await sender.open(site.address);
  await keptOffline(shows);
  await sign(shows, "R. Tamsin", "wireline supervisor");
  await shows.goto(`${site.address}/jobs/${job}`);
  await shows.getByRole("button", { name: "Start the run" }).click();
  await shows.locator(".step-title").waitFor();
  await shows.goto(`${site.address}/jobs/${job}/codes`);
  const number = shows.locator(".codes-number");
  // It plays by itself, and stops.
  await number.getByText("3 of").waitFor();
  await shows.getByRole("button", { name: "Stop" }).click();
  expect(await seriousFaults(shows)).toEqual([]);
  await shows.getByText("Photographs do not travel in codes; this job has none.").waitFor();
  const count = Number((await number.textContent())?.split(" of ")[1]);
  expect(count).toBeGreaterThan(20);

  // What a reader says it misses is shown alone.
  const missing = shows.getByLabel("Missing on the other tablet");
  await missing.fill(`${count + 1}`);
  await shows.getByRole("button", { name: "Show only these" }).click();
  await shows
    .getByText(`There is no code ${count + 1}: they are numbered 1 to ${count}.`)
    .waitFor();
  await missing.fill("17 5-6");
  await shows.getByRole("button", { name: "Show only these" }).click();
  await shows.getByRole("button", { name: "Stop" }).click();
  await shows.getByText("Showing 3: 5 6 17.").waitFor();
  const on = shows.getByRole("button", { name: "One on" });
  const three = [];
  for (let step = 0; step < 3; step += 1) {
    three.push(Number((await number.textContent())?.split(" ")[0]));
    await on.click();
  }
  expect(three.sort((a, b) => a - b)).toEqual([5, 6, 17]);
  await shows.getByRole("button", { name: "Show all" }).click();
  await shows.getByRole("button", { name: "Stop" }).click();

  // The camera comes in the middle and sees all of them from there.
  const pictures: Buffer[] = [];
  for (let step = 0; step < count; step += 1) {
    pictures.push(await seenOn(shows));
    await on.click();
  }
  writeFilm([...pictures.slice(count / 2), ...pictures.slice(0, count / 2)]);
  const transfer = await shows.locator(".codes-shown").getByText("Transfer").textContent();
  const there = await eventsIn(shows, job);

  const reads = await reader.open(site.address, { width: 800, height: 1280 });
  await keptOffline(reads);
  await site.stop();
  const before = await eventsIn(reads, job);
  await plantDetector(reads);
  await reads.goto(`${site.address}/read-codes`);
  await reads.getByText("The code in the picture is not one of Latchline's.").waitFor();
  // The reader that comes along goes on.
  await reads.getByText(`${transfer}. It is the one`).waitFor();
  expect(await seriousFaults(reads)).toEqual([]);
  const dialog = reads.getByRole("dialog");
  await dialog
    .getByRole("button", { name: /^Import/ })
    .first()
    .waitFor({ timeout: 60_000 });
  await dialog
    .getByRole("button", { name: /^Import( codes|, take)/ })
    .first()
    .click();
  await dialog.getByText("is imported.").waitFor();
  const here = await eventsIn(reads, job);
  expect(here.length).toBeGreaterThan(before.length);
  expect(headsOf(here)).toEqual(headsOf(there));

  // A tablet without a camera says so, and what else there is.
  await shows.goto(`${site.address}/read-codes`);
  await shows
    .getByText(/No camera was found\. Connect one, or bring the job over as a pack/)
    .waitFor();
});
