import { writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Download, Page } from "playwright-core";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { makePack } from "../../src/jobs/pack/pack.ts";
import type { Library } from "../../src/jobs/store/library.ts";
import { Tablet } from "../jobs/demo.ts";

/** The ready demonstration job, run on another tablet up to somewhere: brought in by pack, as from a crew before. */

const JOB = jobs.ready.id;
export const runSheet = `/jobs/${JOB}/run`;

/**
 * Another tablet that ran the ready job up to an item, minutes ago by the clock of this machine.
 *
 * @param answers replace those of a good run, by step
 */
export function otherTablet(
  item: string | undefined,
  answers: Record<string, Record<string, Typed>> = {},
  standBy?: string,
): Tablet {
  const tablet = new Tablet(crypto.randomUUID(), JOB);
  const ran = new Tablet(crypto.randomUUID(), JOB);
  // A first pass tells how long it takes, so that the real one ends now.
  const start = ran.now.getTime();
  ran.start().runTo(item, answers, standBy);
  tablet.now = new Date(Date.now() - 60_000 - (ran.now.getTime() - start));
  return tablet.start().runTo(item, answers, standBy);
}

/**
 * Brings a tablet's log in through the board, as a person does.
 *
 * @param records that travel with it, the ready job's when not said
 */
export async function bringIn(
  page: Page,
  address: string,
  tablet: Pick<Tablet, "device" | "events">,
  records: Library = { ...library, jobs: [jobs.ready] },
): Promise<void> {
  const pack = makePack(
    { records: records as never, events: [...tablet.events] },
    new Date().toISOString(),
  );
  const file = join(tmpdir(), `pack-${tablet.device}-${tablet.events.length}.json`);
  writeFileSync(file, JSON.stringify(pack));
  await page.goto(address);
  await page.getByRole("button", { name: "Import a pack" }).click();
  await page.getByLabel("Pack file").setInputFiles(file);
  await importChosen(page);
  await page.getByText("is imported.").waitFor();
  await page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
}

/** Imports the file that the dialog shows; of what differs, as it is in the pack. */
export async function importChosen(page: Page): Promise<void> {
  const dialog = page.getByRole("dialog");
  const write = dialog.getByRole("button", { name: /^Import / });
  await write.waitFor();
  for (const take of await dialog.getByLabel(/^Take the pack's/).all()) await take.check();
  await write.click();
}

/** Saves a pack by download from the screen that is open. */
export async function downloadPack(page: Page): Promise<Download> {
  await page.getByRole("button", { name: "Save a pack" }).click();
  const dialog = page.getByRole("dialog");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    dialog.getByRole("button", { name: "Download" }).click(),
  ]);
  await dialog.getByText("handed to the browser's downloads.").waitFor();
  await dialog.getByRole("button", { name: "Close" }).click();
  return download;
}
