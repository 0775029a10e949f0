import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { ReportDocument } from "../../src/jobs/report/document.ts";
import { setPdf } from "../../src/jobs/report/pdf/setPdf.ts";
import { greyJpeg } from "../jobs/report/jpeg.ts";
import { paperFonts } from "../jobs/report/paperFonts.ts";
import { sample } from "../jobs/report/sampleDocument.ts";
import { Site, TabletBrowser } from "./harness.ts";
import { buildOwnPage } from "./ownPage.ts";
import type { MakingPage } from "./pages/pdf.tsx";

/** A report made on a page of its own, behind the server and under the policy of the app. */
const folder = mkdtempSync(join(tmpdir(), "latchline-pdf-"));
const site = new Site();
const tablet = new TabletBrowser();
const jpeg = greyJpeg(1600, 1200);
let page: Page;

beforeAll(async () => {
  await buildOwnPage("tests/browser/pages/pdf.tsx", "Report", folder);
  writeFileSync(join(folder, "here.jpg"), jpeg);
  await site.start(folder);
  page = await tablet.open(site.address);
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
  rmSync(folder, { recursive: true });
});

const make = (document: ReportDocument, giveUpAt?: number) =>
  page.evaluate(
    ([what, at]) =>
      (window as unknown as MakingPage).make(what, "Letter", { here: "/here.jpg" }, at),
    [document, giveUpAt] as const,
  );

it("is made in a worker to the same bytes as anywhere else, and tells how far it is", async () => {
  const { base64, told } = await make(sample);
  const elsewhere = await setPdf(sample, {
    paper: "Letter",
    fonts: paperFonts,
    pictures: async (hash) => (hash === "here" ? jpeg : undefined),
  });
  expect(Buffer.from(base64, "base64").equals(elsewhere)).toBe(true);
  expect(told.length).toBeGreaterThan(10);
  expect(told.at(-1)).toBe(1);
});

it("ends when it is given up, and another is made after it", async () => {
  await expect(make(sample, 0.3)).rejects.toThrow("given up");
  expect((await make(sample)).told.at(-1)).toBe(1);
});
