import { crc32, deflateSync } from "node:zlib";
import { afterAll, afterEach, expect, it } from "vitest";
import {
  keptOffline,
  pressAndHold,
  Site,
  sign,
  storedPhotographs,
  TabletBrowser,
} from "./harness.ts";

const site = new Site();
let tablet = new TabletBrowser();
const upright = { width: 800, height: 1280 };

afterAll(() => site.stop());
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser();
});

/** Opened once with the server, which is then gone. */
async function offline() {
  await site.start();
  const page = await tablet.open(site.address, upright);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await site.stop();
  return page;
}

it("builds a string that does not fit, sees why each time, mends it, saves it, and finds it after the battery died", async () => {
  const page = await offline();
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("link", { name: "Gauge string, 2.30 in" }).click();
  const rows = page.locator(".tool-row");
  const row = (name: string) => rows.filter({ hasText: name });
  const save = page.getByRole("button", { name: "Save the string" });
  await row("Gauge cutter 2.30 in, long body").waitFor();
  expect(await rows.count()).toBe(6);
  expect(await save.count()).toBe(0);

  // Every row is a target for a glove.
  for (const box of await rows.locator(".tool-row-open").all()) {
    expect((await box.boundingBox())?.height).toBeGreaterThanOrEqual(96);
  }

  // Too large: the drift of the tubing does not pass the nipple.
  await row("Gauge cutter").getByRole("button").first().click();
  await page.getByRole("button", { name: "Swap", exact: true }).click();
  const catalog = page.getByRole("dialog");
  await catalog
    .getByText(/drift of the tubing by API Spec 5CT/i)
    .first()
    .waitFor();
  await catalog
    .getByRole("button", { name: "Swap for Gauge cutter for 2-7/8 in 6.4 lb/ft" })
    .click();
  await page.getByText("Bore: too large by 0.034 in.").waitFor();
  await page.getByText("swap it for a smaller one").waitFor();
  await row("too large").getByText("Gauge cutter for 2-7/8 in").waitFor();
  await page.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();

  await row("Gauge cutter").getByRole("button").first().click();
  await page.getByRole("button", { name: "Swap", exact: true }).click();
  await catalog.getByRole("button", { name: "Swap for Gauge cutter 2.3 in" }).click();
  await page.getByText("Bore: 0.013 in to spare.").waitFor();

  // Too long: three more stems than the lubricator holds.
  for (let stems = 0; stems < 4; stems += 1) {
    await page.getByRole("button", { name: "Add a tool at the bottom" }).click();
    await catalog.getByRole("button", { name: "Stem", exact: true }).click();
    await catalog
      .getByText(/By geometry, a solid round bar of steel/)
      .first()
      .waitFor();
    await catalog.getByRole("button", { name: "Add Stem 1-1/2 in x 5 ft" }).click();
    await expect.poll(() => rows.count()).toBe(7 + stems);
  }
  // 1 + 5 + 5 + 6 + 1 + 1.5 + 4 × 5 ft, margin 2 ft, 36 ft usable.
  await page.getByText("Lubricator: too long by 5.5 ft.").waitFor();
  await page.getByText("Take out or swap a tool, or add a lubricator section.").waitFor();
  await page
    .getByText("It does not fit: too long by 5.5 ft; has stem below its jars: they strike with")
    .waitFor();

  // A stem of the four goes up two places with two taps on one spot, and two come out.
  await rows.nth(7).getByRole("button").first().click();
  const up = page.getByRole("button", { name: "Move up" });
  await up.scrollIntoViewIfNeeded();
  const before = await up.boundingBox();
  if (!before) throw new Error("no button to move up");
  const tap = () => page.mouse.click(before.x + before.width / 2, before.y + before.height / 2);
  await tap();
  await page.getByText("Stem 1-1/2 in x 5 ft is now at place 7 of 10.").waitFor();
  expect(Math.abs(((await up.boundingBox())?.y ?? 0) - before.y)).toBeLessThan(2);
  await tap();
  await page.getByText("Stem 1-1/2 in x 5 ft is now at place 6 of 10.").waitFor();
  for (const left of [9, 8]) {
    if (left === 8) await rows.nth(6).getByRole("button").first().click();
    await pressAndHold(page, "Take out");
    await expect.poll(() => rows.count()).toBe(left);
  }
  await page.getByText("Lubricator: 4.5 ft to spare.").waitFor();

  // Away and back: what is not saved is still there and still said to be so, and the editor waits until it is saved.
  await page.getByText("Save first to change the tools' figures.").waitFor();
  expect(await page.getByRole("link", { name: "Change the tools' figures" }).count()).toBe(0);
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("link", { name: "Gauge string, 2.30 in" }).click();
  await page.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();
  expect(await rows.count()).toBe(8);

  // The page is gone at once, as when the camera makes the tablet drop it: the draft comes back.
  await tablet.kill();
  const dropped = await tablet.open(`${site.address}/strings/string-gauge`, upright);
  await dropped.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();
  expect(await dropped.locator(".tool-row").count()).toBe(8);
  await dropped.getByRole("button", { name: "Save the string" }).click();
  await dropped.getByText("Saved.").waitFor();
  expect(await dropped.getByRole("button", { name: "Save the string" }).count()).toBe(0);
  await dropped.getByRole("link", { name: "Change the tools' figures" }).waitFor();

  await tablet.kill();
  const again = await tablet.open(`${site.address}/strings/string-gauge`, upright);
  await again.getByText("Lubricator: 4.5 ft to spare.").waitFor();
  expect(await again.locator(".tool-row").count()).toBe(8);
  await again.getByText("Gauge cutter 2.3 in").first().waitFor();
});

it("says of a pull string that it is too light, and that it cannot reach the pocket, until both are mended", async () => {
  const page = await offline();
  // The other well has a mandrel of the other kind: no string is right for both, so its job gets another.
  await page.goto(`${site.address}/edit/jobs/job-em-12-3`);
  await page.locator('[data-path="strings.pull"]').selectOption("");
  await page.getByRole("button", { name: "Save the job" }).click();
  await page.getByText("Saved.").waitFor();
  await page.goto(`${site.address}/strings/string-pull`);
  const rows = page.locator(".tool-row");
  const save = page.getByRole("button", { name: "Save the string" });
  const catalog = page.getByRole("dialog");
  const takeOut = async (name: string) => {
    const before = await rows.count();
    await rows.filter({ hasText: name }).first().getByRole("button").first().click();
    await pressAndHold(page, "Take out");
    await expect.poll(() => rows.count()).toBe(before - 1);
  };
  const add = async (kind: string, name: string, above: string) => {
    const before = await rows.count();
    await rows.filter({ hasText: above }).getByRole("button").first().click();
    await page.getByRole("button", { name: "Add below" }).click();
    await catalog.getByRole("button", { name: kind, exact: true }).click();
    await catalog.getByRole("button", { name: `Add ${name}`, exact: true }).click();
    await expect.poll(() => rows.count()).toBe(before + 1);
  };
  const first = page.locator(".string-fit").first();
  await page.getByText("Pocket: the kickover tool matches.").waitFor();
  await page.getByText("Push-out: 110 lb to spare.").waitFor();
  await page.getByText(/Going in: \d+ lbf of line pull left\./).waitFor();

  // No kickover tool: 153 less 58 lb are still heavy enough.
  await takeOut("Kickover tool, orienting");
  await first.getByText("Pocket: no kickover tool.").waitFor();
  await first.getByText("Add one made for a mandrel with an orienting sleeve.").waitFor();
  await page.getByText("It does not fit: no kickover tool.").waitFor();

  // The wrong one.
  await add("Kickover tool", "Kickover tool, not orienting, for 2-7/8 in tubing", "Knuckle");
  await first.getByText("Pocket: the kickover tool does not match.").waitFor();
  await first.getByText(/Mandrel 3 has an orienting sleeve, and the pull string carries/).waitFor();

  // Too light besides: 4 + 24 + 4 + 5 lb, with the stems and the kickover tool out.
  await takeOut("Kickover tool, not orienting");
  await takeOut("Stem");
  await takeOut("Stem");
  await first.getByText("Push-out: too light by 6 lb.").waitFor();
  await first
    .getByText(/37 lb in air, 43 lb needed: effective weight is 1\.11 times push-out of 3 lbf/)
    .waitFor();
  await first.getByText("Add stem, or bring the wellhead pressure down.").waitFor();
  await page.getByText("It does not fit: too light by 6 lb; no kickover tool.").waitFor();

  await add("Stem", "Stem 1-1/2 in x 5 ft", "Rope socket");
  await page.getByText("Push-out: 24 lb to spare.").waitFor();
  await add("Kickover tool", "Kickover tool, orienting, for 2-7/8 in tubing", "Knuckle");
  await page.getByText("Pocket: the kickover tool matches.").waitFor();
  await page.getByText(/^It does not fit/).waitFor({ state: "detached" });
  await save.click();
  await page.getByText("Saved.").waitFor();
  await page.reload();
  await page.getByText("Pocket: the kickover tool matches.").waitFor();
  await page.getByText("Push-out: 79 lb to spare.").waitFor();
  expect(await rows.count()).toBe(6);
});

it("says how far short a string stays that its weight does not take to the mandrel", async () => {
  const page = await offline();
  const packing = async (lbf: string) => {
    await page.goto(`${site.address}/edit/jobs/job-em-07-3`);
    await page.locator('[data-path="expected.packingFriction"]').fill(lbf);
    await page.getByRole("button", { name: "Save the job" }).click();
    await page.getByText("Saved.").waitFor();
    await page.goto(`${site.address}/strings/string-gauge`);
  };
  // A packing screwed tight: the weight of wire and string does not take it down.
  await packing("400");
  const wrong = page.locator(".string-fit.does-not-fit", { hasText: "Going in:" });
  await wrong.getByText(/Going in: the line would have to push with \d+ lbf\./).waitFor();
  await wrong.getByText(/At mandrel 3, \d+ ft, the line carries \d+ lbf hanging still/).waitFor();
  await wrong.getByText("add stem, or rollers").waitFor();
  await packing("30");
  await page.getByText(/Going in: \d+ lbf of line pull left\./).waitFor();
  expect(await page.locator(".string-fit.does-not-fit").count()).toBe(0);
});

it.each([
  { held: "lying", size: { width: 1280, height: 800 } },
  { held: "upright", size: upright },
])("keeps what stays in view clear of the photographs on a tablet held $held", async ({ size }) => {
  const page = await offline();
  await page.setViewportSize(size);
  await page.goto(`${site.address}/strings/string-pull`);
  const photographs = page.locator(".string-photographs");
  await photographs.waitFor();
  for (const down of [0, 0.5, 1]) {
    await page.evaluate((share) => {
      scrollTo(0, share * document.documentElement.scrollHeight);
    }, down);
    const top = (await photographs.boundingBox())?.y ?? 0;
    for (const part of [".string-picture", ".string-fits"]) {
      const box = await page.locator(part).boundingBox();
      expect((box?.y ?? top) + (box?.height ?? 0), `${part} at ${down}`).toBeLessThanOrEqual(top);
    }
  }
});

/** A grey PNG, noisy or plain, with a note in it as a camera leaves one. */
function png(width: number, height: number, noisy: boolean): Buffer {
  const chunk = (kind: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(kind), data]);
    const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    sum.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, sum]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // eight bits a pixel, grey
  head.writeUInt8(8, 8);
  let noise = 1;
  const rows = Buffer.alloc((width + 1) * height, 140);
  for (let i = 0; i < rows.length; i += 1) {
    noise = (noise * 48271) % 2147483647;
    if (noisy) rows[i] = noise & 255;
    // every row begins with the name of its filter: none
    if (i % (width + 1) === 0) rows[i] = 0;
  }
  return Buffer.concat([
    Buffer.from("89504e470d0a1a0a", "hex"),
    chunk("IHDR", head),
    chunk("tEXt", Buffer.from("Comment\0taken at 60.1 N")),
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

it("keeps photographs of a string, without where they were taken, and shows them to whoever fishes for it", async () => {
  const page = await offline();
  await page.goto(`${site.address}/strings/string-pull`);
  const pictures = page.locator(".string-photographs img");
  const add = page.getByLabel("Add a photograph");
  const choose = (name: string, mimeType: string, buffer: Buffer) =>
    add.setInputFiles({ name, mimeType, buffer });
  await add.waitFor();
  expect(await add.getAttribute("capture")).toBe("environment");
  expect((await add.boundingBox())?.height).toBeGreaterThanOrEqual(90);

  await choose("string.png", "image/png", png(60, 40, false));
  await page
    .getByText("Photograph added. Not saved yet: kept on this tablet as a draft.")
    .waitFor();
  await expect.poll(() => pictures.count()).toBe(1);

  // No picture: said so, and what is there stays.
  await choose("photo.jpg", "image/jpeg", Buffer.from("a note, not a picture"));
  await page
    .getByText("photo.jpg is not a picture that this tablet can show, or it is damaged. Take the")
    .waitFor();
  expect(await pictures.count()).toBe(1);
  await page.getByText("Not saved yet: kept on this tablet as a draft.").waitFor();

  // The same again is none, and a large one is made to fit.
  await choose("string.png", "image/png", png(60, 40, false));
  await page.getByText("string.png is with this string already.").waitFor();
  await choose("large.png", "image/png", png(3000, 2000, true));
  await expect.poll(() => pictures.count()).toBe(2);
  await expect
    .poll(() => pictures.last().evaluate((image: HTMLImageElement) => image.naturalWidth))
    .toBeGreaterThan(600);
  const { width, height } = await pictures.last().evaluate((image: HTMLImageElement) => ({
    width: image.naturalWidth,
    height: image.naturalHeight,
  }));
  expect(width).toBeLessThanOrEqual(1600);
  expect(width / height).toBeCloseTo(1.5, 2);

  await page.getByRole("button", { name: "Save the string" }).click();
  await page.getByText("Saved.").waitFor();
  const kept = await storedPhotographs(page, "string-pull");
  expect(kept).toHaveLength(2);
  for (const jpeg of kept) {
    const bytes = Buffer.from(jpeg, "base64");
    expect(bytes.length).toBeLessThanOrEqual(400_000);
    expect(bytes.subarray(0, 3).toString("hex")).toBe("ffd8ff");
    expect(bytes.includes("60.1 N")).toBe(false);
    expect(bytes.includes("Exif")).toBe(false);
  }

  // The battery dies; with the server still gone they are there, and on the sketch.
  await tablet.kill();
  const again = await tablet.open(`${site.address}/strings/string-pull`, upright);
  const there = again.locator(".string-photographs img");
  await there.nth(1).waitFor();
  await again.goto(`${site.address}/jobs/job-em-07-3/sketch`);
  const pull = again.locator(".sketch-string", { hasText: "Pull string" });
  const onSketch = pull.getByRole("img", { name: /photograph \d/ });
  await onSketch.nth(1).waitFor();
  await expect
    .poll(() => onSketch.first().evaluate((image: HTMLImageElement) => image.naturalWidth))
    .toBe(60);
  await again.emulateMedia({ media: "print" });
  expect(await onSketch.first().isVisible()).toBe(true);
  await again.emulateMedia({ media: "screen" });

  // Taken out by press and hold, and saved so.
  await again.goto(`${site.address}/strings/string-pull`);
  await there.nth(1).waitFor();
  await pressAndHold(again, "Take out photograph 1");
  await expect.poll(() => there.count()).toBe(1);
  await again.getByText("Photograph 1 taken out.").waitFor();
  await again.getByRole("button", { name: "Save the string" }).click();
  await again.getByText("Saved.").waitFor();
  expect(await storedPhotographs(again, "string-pull")).toEqual([kept[1]]);
});

it("puts back what was saved, and does not overwrite what somebody else saved", async () => {
  const page = await offline();
  await page.goto(`${site.address}/strings/string-pull`);
  const rows = page.locator(".tool-row");
  await rows.nth(6).waitFor();
  await rows.nth(2).getByRole("button").first().click();
  await pressAndHold(page, "Take out");
  await expect.poll(() => rows.count()).toBe(6);
  await pressAndHold(page, "Put back as saved");
  await expect.poll(() => rows.count()).toBe(7);

  await rows.nth(2).getByRole("button").first().click();
  await pressAndHold(page, "Take out");
  // Another window saves the same string.
  const other = await page.context().newPage();
  await other.setViewportSize(upright);
  await other.goto(`${site.address}/edit/strings/string-pull`);
  await other.getByRole("button", { name: "Save the tool string" }).click();
  await other.getByText("Saved.").waitFor();
  await other.close();
  await page.getByText(/Somebody saved this string since you began/).waitFor();
  expect(await rows.count()).toBe(6);
  expect(await page.getByRole("button", { name: "Save the string" }).isDisabled()).toBe(true);
});

it("copies a string for one job, which takes the copy, and leaves the others what they have", async () => {
  const page = await offline();
  await page.goto(`${site.address}/jobs/job-em-12-3`);
  await page
    .getByRole("navigation", { name: "Records" })
    .getByRole("link", { name: "Pull string, orienting" })
    .click();
  const rows = page.locator(".tool-row");
  await rows.nth(6).waitFor();
  await page.locator(".string-fit").first().getByText("EM-12.").waitFor();
  await rows.nth(2).getByRole("button").first().click();
  await pressAndHold(page, "Take out");
  await expect.poll(() => rows.count()).toBe(6);
  await page.getByRole("button", { name: "Copy as another string for EM-12" }).click();
  await page.getByRole("heading", { name: "String Pull string, orienting, EM-12" }).waitFor();
  await expect.poll(() => rows.count()).toBe(6);
  expect(await page.getByRole("button", { name: "Save the string" }).count()).toBe(0);

  await page.goto(`${site.address}/jobs/job-em-12-3`);
  await page
    .getByRole("navigation", { name: "Records" })
    .getByRole("link", { name: "Pull string, orienting, EM-12" })
    .waitFor();
  await page.goto(`${site.address}/strings/string-pull`);
  await expect.poll(() => rows.count()).toBe(7);
  expect(await page.getByText("Not saved yet").count()).toBe(0);
  expect(await page.getByRole("button", { name: /Copy as another string/ }).count()).toBe(0);
});

it("says which job keeps the old string, and the sketch that the record has changed since", async () => {
  const page = await offline();
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("button", { name: "Start the run" }).click();
  await page.waitForURL(/\/run$/);
  await page.goto(`${site.address}/strings/string-gauge`);
  const rows = page.locator(".tool-row");
  await rows.nth(5).waitFor();
  await rows.nth(2).getByRole("button").first().click();
  await pressAndHold(page, "Take out");
  await page.getByText("EM-07 runs on revision 1 and keeps the string as it was issued.").waitFor();
  await page.getByRole("button", { name: "Save the string" }).click();
  await page.getByText("Saved.").waitFor();
  await page.goto(`${site.address}/jobs/job-em-07-3/sketch`);
  const gauge = page.locator(".sketch-string", { hasText: "Gauge string" });
  await gauge.getByText("The string's record has changed since issue.").waitFor();
  // The table stays beside the drawing.
  const drawing = await gauge.locator(".sketch-picture").boundingBox();
  const table = await gauge.locator(".sketch-tools").boundingBox();
  expect(table?.x ?? 0).toBeGreaterThan((drawing?.x ?? 0) + (drawing?.width ?? 0));
  expect(await page.getByText("The string's record has changed since issue.").count()).toBe(1);
});

it("draws every string of the job for whoever has to fish for it, and prints", async () => {
  const page = await offline();
  await page.goto(`${site.address}/jobs/job-em-07-3`);
  await page.getByRole("link", { name: "Fishing sketch" }).click();
  await page.locator(".sketch-string").nth(2).waitFor();
  expect(await page.locator(".sketch-string").count()).toBe(3);
  const pull = page.locator(".sketch-string", { hasText: "Pull string" });
  await pull.getByRole("img", { name: /drawn to scale/ }).waitFor();
  await pull.locator("tfoot").getByText("28.2 ft").waitFor();
  await pull.getByText(/Pins: .+/).waitFor();

  await page.emulateMedia({ media: "print" });
  expect(await page.getByRole("button", { name: "Print" }).isVisible()).toBe(false);
  expect(await pull.getByText("Measured by").isVisible()).toBe(true);
  expect(await pull.getByText("Measured length").isVisible()).toBe(true);
  await page.getByText(/^Printed \d{4}-\d\d-\d\d/).waitFor();
});
