import type { Page } from "playwright-core";
import { afterAll, afterEach, expect, it } from "vitest";
import { keptOffline, Site, storedPhotographs, TabletBrowser } from "./harness.ts";
import { jpeg } from "./jpeg.ts";
import { seriousFaults } from "./seriousFaults.ts";

const site = new Site();
// A camera that shows a test picture. Whether a page may have it is asked as on any tablet.
const withCamera = ["--use-fake-device-for-media-stream"];
let tablet = new TabletBrowser(withCamera);
const upright = { width: 800, height: 1280 };

afterAll(() => site.stop());
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser(withCamera);
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

/** The same JPEG with what a camera held upright notes in it (Exif 2.3): turn it to the right, and where it was. */
function asHeldUpright(picture: Buffer): Buffer {
  const ORIENTATION = 0x0112;
  const PLACE = 0x010e;
  const entry = (tag: number, type: number, count: number, value: number) => {
    const bytes = Buffer.alloc(12);
    bytes.writeUInt16BE(tag, 0);
    bytes.writeUInt16BE(type, 2);
    bytes.writeUInt32BE(count, 4);
    if (type === 3) bytes.writeUInt16BE(value, 8);
    else bytes.writeUInt32BE(value, 8);
    return bytes;
  };
  const place = Buffer.from("taken at 60.1 N\0");
  const entries = [entry(PLACE, 2, place.length, 38), entry(ORIENTATION, 3, 1, 6)];
  const tiff = Buffer.concat([
    Buffer.from("4d4d002a00000008", "hex"),
    Buffer.from([0, entries.length]),
    ...entries,
    Buffer.alloc(4),
    place,
  ]);
  const body = Buffer.concat([Buffer.from("Exif\0\0"), tiff]);
  const head = Buffer.from("ffe10000", "hex");
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([picture.subarray(0, 2), head, body, picture.subarray(2)]);
}

/** What a picture on the page shows: its size, how bright it is at the top and at the bottom, and its bytes. */
const shownBy = (page: Page, index: number) =>
  page
    .locator(".string-photographs img")
    .nth(index)
    .evaluate(async (image: HTMLImageElement) => {
      await image.decode();
      const { naturalWidth: width, naturalHeight: height } = image;
      const canvas = document.createElement("canvas");
      canvas.width = width;
      canvas.height = height;
      const context = canvas.getContext("2d");
      if (!context) throw new Error("nothing to draw on");
      context.drawImage(image, 0, 0);
      const bright = (y: number) => context.getImageData(width / 2, y, 1, 1).data[0];
      return { width, height, top: bright(height * 0.2), bottom: bright(height * 0.8) };
    });

it("takes several pictures at once, the right way up and without where they were taken, and names each that is none", async () => {
  const page = await offline();
  await page.goto(`${site.address}/strings/string-pull`);
  const choose = page.getByLabel("Choose pictures that are here");
  await choose.waitFor();
  const lying = await jpeg(page, 2400, 1200);
  const files = [
    { name: "upright.jpg", mimeType: "image/jpeg", buffer: asHeldUpright(lying) },
    { name: "torn.jpg", mimeType: "image/jpeg", buffer: lying.subarray(0, 40) },
    {
      name: "IMG_7.HEIC",
      mimeType: "image/heic",
      buffer: Buffer.from("\0\0\0\x18ftypheic\0\0\0\0mif1heic"),
    },
    { name: "none.png", mimeType: "image/png", buffer: Buffer.alloc(0) },
    { name: "lying.jpg", mimeType: "image/jpeg", buffer: lying },
  ];
  expect(files[0]?.buffer.includes("60.1 N")).toBe(true);
  await choose.setInputFiles(files);
  const pictures = page.locator(".string-photographs img");
  await expect.poll(() => pictures.count()).toBe(2);
  const problems = page.locator(".take-photograph-problems li");
  expect(await problems.allTextContents()).toEqual([
    expect.stringMatching(/^torn\.jpg is not a picture .* damaged/),
    expect.stringMatching(/^IMG_7\.HEIC is a HEIC picture.*save it as JPEG/),
    expect.stringMatching(/^none\.png is empty/),
  ]);

  expect(await seriousFaults(page)).toEqual([]);

  // Turned to the right, what was on the left is at the top.
  const upright = await shownBy(page, 0);
  expect(upright).toMatchObject({ width: 800, height: 1600 });
  expect(upright.top).toBeGreaterThan(240);
  expect(upright.bottom).toBeLessThan(15);
  expect(await shownBy(page, 1)).toMatchObject({ width: 1600, height: 800 });
  await page.getByRole("button", { name: "Save the string" }).click();
  await page.getByText("Saved.").waitFor();
  for (const kept of await storedPhotographs(page, "string-pull")) {
    const bytes = Buffer.from(kept, "base64");
    expect(bytes.length).toBeLessThanOrEqual(400_000);
    expect(bytes.includes("60.1 N")).toBe(false);
    expect(bytes.includes("Exif")).toBe(false);
  }

  // Six are all that a string holds: what has no room is named, and there is nothing left to press.
  const more = await Promise.all(
    [1, 2, 3, 4, 5, 6].map(async (size) => ({
      name: `more-${size}.jpg`,
      mimeType: "image/jpeg",
      buffer: await jpeg(page, 100 * size, 100),
    })),
  );
  await choose.setInputFiles(more);
  await expect.poll(() => pictures.count()).toBe(6);
  await page.getByText("No room for more-5.jpg, more-6.jpg: only 4 more could be added.").waitFor();
  await page.getByText("6 photographs are all that a string holds").waitFor();
  expect(await page.locator(".string-photographs input").count()).toBe(0);
});

/** What the page of the tests adds to its window. */
interface Planted {
  /** what every look at the picture reads from here on */
  codes: string[];
  /** the codes that the page asked for */
  formats: readonly string[];
  tracks: MediaStreamTrack[];
}
type PlantedWindow = Window & Planted;

/** A browser that reads codes, which Chromium does not do on every system; its camera is its own. */
async function plantDetector(page: Page) {
  await page.addInitScript(() => {
    const planted = window as unknown as PlantedWindow;
    planted.codes = [];
    planted.tracks = [];
    const detector = class {
      static getSupportedFormats = async () => ["aztec", "code_39", "data_matrix"];
      constructor({ formats }: { readonly formats: readonly string[] }) {
        planted.formats = formats;
      }
      async detect(video: HTMLVideoElement) {
        // As a real one: without a picture it fails.
        if (video.readyState < 2 || video.videoWidth === 0) throw new Error("no picture");
        return planted.codes.map((rawValue) => ({ rawValue }));
      }
    };
    Object.assign(window, { BarcodeDetector: detector });
    const { mediaDevices } = navigator;
    const ask = mediaDevices.getUserMedia.bind(mediaDevices);
    mediaDevices.getUserMedia = async (constraints) => {
      const stream = await ask(constraints);
      planted.tracks.push(...stream.getTracks());
      return stream;
    };
  });
}

const read = (page: Page, ...codes: string[]) =>
  page.evaluate((all) => {
    (window as unknown as PlantedWindow).codes = all;
  }, codes);
/** The camera's tracks that were ever opened on this page, each "live" or "ended". */
const tracks = (page: Page) =>
  page.evaluate(() =>
    (window as unknown as PlantedWindow).tracks.map(({ readyState }) => readyState),
  );

const SERIAL = '[data-path="serial"]';
async function openValve(page: Page) {
  await page.goto(`${site.address}/edit/valves/valve-em-0711`);
  await page.locator(SERIAL).waitFor();
}

it("reads a serial off its tag, shows it, and fills the field by a tap and by nothing else", async () => {
  const page = await offline();
  await page.context().grantPermissions(["camera"], { origin: site.address });
  await plantDetector(page);
  await openValve(page);
  const serial = page.locator(SERIAL);
  const scan = page.getByRole("button", { name: "Scan the serial" });
  const dialog = page.getByRole("dialog", { name: "Scan the serial" });
  await scan.click();
  await dialog.getByText("Hold the tag so that its code lies").waitFor();
  expect(await tracks(page)).toEqual(["live"]);
  // Of what it reads, what is on tags of the trade.
  expect(await page.evaluate(() => (window as unknown as PlantedWindow).formats)).toEqual([
    "code_39",
    "data_matrix",
  ]);

  await read(page, " VX-2041\r\n");
  await dialog.getByText("Read: VX-2041. Compare it with the tag").waitFor();
  expect(await serial.inputValue()).toBe("EM-0711");
  const large = dialog.locator(".scan-text");
  expect(
    await large.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize)),
  ).toBeGreaterThanOrEqual(40);
  expect(await dialog.locator("video").evaluate((video: HTMLVideoElement) => video.paused)).toBe(
    true,
  );

  expect(await seriousFaults(page)).toEqual([]);

  // Not that one: read again. Two on one box are shown both.
  await read(page);
  await dialog.getByRole("button", { name: "Read again" }).click();
  await dialog.getByText("Hold the tag so that its code lies").waitFor();
  expect(await large.count()).toBe(0);
  await read(page, "PART-9", "VX-2042");
  await dialog.getByText("2 codes are on the picture. Take the one that is the serial.").waitFor();
  expect(await serial.inputValue()).toBe("EM-0711");
  await dialog.getByRole("button", { name: "Take VX-2042" }).click();
  await dialog.waitFor({ state: "detached" });
  expect(await serial.inputValue()).toBe("VX-2042");
  expect(await tracks(page)).toEqual(["ended"]);
  expect(await scan.evaluate((button) => button === document.activeElement)).toBe(true);

  // Escape and the button leave the field as it is, and the camera closed.
  for (const leave of [
    () => page.keyboard.press("Escape"),
    () => dialog.getByRole("button", { name: "Type it instead" }).click(),
  ]) {
    await scan.click();
    await dialog.getByText("2 codes are on the picture.").waitFor();
    await leave();
    await dialog.waitFor({ state: "detached" });
    expect(await serial.inputValue()).toBe("VX-2042");
    expect(new Set(await tracks(page))).toEqual(new Set(["ended"]));
  }
  await page.getByRole("button", { name: "Save the valve" }).click();
  await page.getByText("Saved.").waitFor();
});

it("takes no code that the next look reads otherwise", async () => {
  const page = await offline();
  await page.context().grantPermissions(["camera"], { origin: site.address });
  await plantDetector(page);
  await openValve(page);
  await page.evaluate(() => {
    let looks = 0;
    Object.defineProperty(window, "codes", {
      get: () => {
        looks += 1;
        return looks < 8 ? [`BLUR-${looks}`] : ["VX-2041"];
      },
    });
  });
  await page.getByRole("button", { name: "Scan the serial" }).click();
  const text = page.locator(".scan-text");
  await text.waitFor();
  expect(await text.allTextContents()).toEqual(["VX-2041"]);
});

it("closes the camera when the page goes out of sight and when its screen goes, and opens it again when asked", async () => {
  const page = await offline();
  await page.context().grantPermissions(["camera"], { origin: site.address });
  await plantDetector(page);
  await openValve(page);
  await page.getByRole("button", { name: "Scan the serial" }).click();
  await page.getByText("Hold the tag so that its code lies").waitFor();
  const sight = (hidden: boolean) =>
    page.evaluate((value) => {
      Object.defineProperty(document, "hidden", { value, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    }, hidden);
  await sight(true);
  await page.getByText("The camera was closed while this page was out of sight.").waitFor();
  expect(await tracks(page)).toEqual(["ended"]);
  await sight(false);
  await page.getByRole("button", { name: "Open the camera again" }).click();
  await page.getByText("Hold the tag so that its code lies").waitFor();
  expect(await tracks(page)).toEqual(["ended", "live"]);

  await page.evaluate(() => {
    history.pushState(null, "", "/");
  });
  await page.locator(".job-card").first().waitFor();
  expect(await tracks(page)).toEqual(["ended", "ended"]);
});

it("says plainly that the camera is refused, and the serial is typed", async () => {
  const page = await offline();
  const session = await page.context().newCDPSession(page);
  await session.send("Browser.setPermission", {
    origin: site.address,
    permission: { name: "camera" },
    setting: "denied",
  });
  await plantDetector(page);
  await openValve(page);
  await page.getByRole("button", { name: "Scan the serial" }).click();
  const dialog = page.getByRole("dialog", { name: "Scan the serial" });
  await dialog
    .getByText(/The camera is not allowed for this page\..*or type what stands on the tag\./)
    .waitFor();
  await dialog.getByRole("button", { name: "Type it instead" }).click();
  await page.locator(SERIAL).fill("VX-3000");
  await page.getByRole("button", { name: "Save the valve" }).click();
  await page.getByText("Saved.").waitFor();
});

it.each([
  { missing: "a detector", flags: withCamera, detector: false },
  { missing: "a camera", flags: [], detector: true },
])("offers no scan without $missing", async ({ flags, detector }) => {
  await tablet.dispose();
  tablet = new TabletBrowser(flags);
  const page = await offline();
  if (detector) await plantDetector(page);
  else {
    await page.addInitScript(() => {
      Reflect.deleteProperty(window, "BarcodeDetector");
    });
  }
  // What is asked of the browser before the button shows is asked to the end.
  await page.addInitScript(() => {
    const { mediaDevices } = navigator;
    const list = mediaDevices.enumerateDevices.bind(mediaDevices);
    mediaDevices.enumerateDevices = async () => {
      const all = await list();
      document.documentElement.dataset.cameras = String(
        all.filter(({ kind }) => kind === "videoinput").length,
      );
      return all;
    };
  });
  await openValve(page);
  if (detector) await page.locator('html[data-cameras="0"]').waitFor();
  await page.waitForTimeout(300);
  expect(await page.getByRole("button", { name: /^Scan/ }).count()).toBe(0);
  await page.locator(SERIAL).fill("VX-3000");
});
