import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { CDPSession, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import type { Strokes } from "../../src/jobs/signature.ts";
import { Site, TabletBrowser } from "./harness.ts";
import { buildOwnPage } from "./ownPage.ts";
import { seriousFaults } from "./seriousFaults.ts";

/** The pad on a page of its own, behind the server and under the policy of the app. */
const folder = mkdtempSync(join(tmpdir(), "latchline-pad-"));
const site = new Site();
let tablet = new TabletBrowser();
let page: Page;
let touch: CDPSession;

beforeAll(async () => {
  await buildOwnPage("tests/browser/pages/signaturePad.tsx", "Signing", folder);
  await site.start(folder);
});
afterAll(async () => {
  await site.stop();
  rmSync(folder, { recursive: true });
});
beforeEach(async () => {
  page = await tablet.open(site.address, { width: 800, height: 1280 });
  touch = await page.context().newCDPSession(page);
  await touch.send("Emulation.setTouchEmulationEnabled", { enabled: true, maxTouchPoints: 5 });
  await page.locator(".signature-surface").waitFor();
  await page.evaluate(() => {
    addEventListener("pointermove", ({ clientX }) => {
      window.heardAt = clientX;
    });
  });
});
afterEach(async () => {
  await tablet.dispose();
  tablet = new TabletBrowser();
});

type Place = readonly [number, number];
const frame = { width: 600, height: 200 };

/** A place of the pad's frame on the screen. */
async function onScreen([x, y]: Place) {
  const box = await page.locator(".signature-surface").boundingBox();
  if (!box) throw new Error("no pad");
  return {
    x: box.x + (x / frame.width) * box.width,
    y: box.y + (y / frame.height) * box.height,
  };
}

/** Fingers, each a number of its own; `lift` is all of them leaving. */
const fingers = {
  send: async (type: "touchStart" | "touchMove", places: readonly Place[]) => {
    const touchPoints = await Promise.all(
      places.map(async (place, id) => ({ ...(await onScreen(place)), id })),
    );
    await touch.send("Input.dispatchTouchEvent", { type, touchPoints });
  },
  lift: () => touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] }),
};

/** The page has heard of a finger there: a browser holds moves back until it paints, and answers before. */
async function arrived(place: Place) {
  const { x } = await onScreen(place);
  await page.waitForFunction((at) => Math.abs((window.heardAt ?? -99) - at) <= 1, x);
}

async function draw(places: readonly Place[], lift = true) {
  const [first = [0, 0], ...rest] = places;
  await fingers.send("touchStart", [first]);
  for (const place of rest) await fingers.send("touchMove", [place]);
  if (lift) await fingers.lift();
  else await arrived(rest.at(-1) ?? first);
}

const strokesIn = async (output: "held" | "committed") =>
  JSON.parse((await page.locator(`#${output}`).textContent()) ?? "") as Strokes | null;
const held = async () => (await strokesIn("held")) ?? [];
const button = (name: string) => page.getByRole("button", { name, exact: true });

const downhill: readonly Place[] = [
  [100, 40],
  [150, 90],
  [200, 140],
];
const uphill: readonly Place[] = [
  [100, 140],
  [150, 90],
  [200, 40],
];

/** A pixel of the screen is 600/756 of a unit here, and a finger stands on whole pixels. */
function expectNear(stroke: Strokes[number] | undefined, ends: readonly [Place, Place]) {
  for (const [at, end] of [
    [stroke?.[0], ends[0]],
    [stroke?.at(-1), ends[1]],
  ] as const) {
    expect(Math.abs((at?.[0] ?? -99) - end[0])).toBeLessThanOrEqual(2);
    expect(Math.abs((at?.[1] ?? -99) - end[1])).toBeLessThanOrEqual(2);
  }
}

it("draws under a finger without scrolling, takes a stroke back, clears, and keeps what stands through a turn of the tablet", async () => {
  await page.evaluate(() => {
    document.body.style.minHeight = "3000px";
  });
  await draw(downhill);
  await page.getByText("Not a signature yet.").waitFor();
  await draw(uphill);
  await page.getByText("Drawn in 2 strokes.").waitFor();
  expect(await page.evaluate(() => scrollY)).toBe(0);
  const both = await held();
  expect(both).toHaveLength(2);
  expectNear(both[0], [
    [100, 40],
    [200, 140],
  ]);
  expectNear(both[1], [
    [100, 140],
    [200, 40],
  ]);

  await page.setViewportSize({ width: 1280, height: 800 });
  expect(await held()).toEqual(both);
  // The picture is as wide as before in its frame, and a stroke drawn now lands where the finger is.
  await draw([
    [560, 20],
    [560, 180],
  ]);
  await expect.poll(async () => (await held()).length).toBe(3);
  expectNear((await held())[2], [
    [560, 20],
    [560, 180],
  ]);

  await button("Take back the last stroke").click();
  expect(await held()).toEqual(both);
  await button("Put the pad away or back").click();
  await button("Put the pad away or back").click();
  await page.getByText("Drawn in 2 strokes.").waitFor();
  await button("Clear the pad").click();
  expect(await held()).toEqual([]);
  expect(await button("Clear the pad").isDisabled()).toBe(true);
});

it("keeps a line that runs off the pad at its edge", async () => {
  await draw([
    [500, 100],
    [580, 100],
    [640, 100],
    [640, 60],
  ]);
  const [stroke] = await held();
  expect(stroke?.at(-1)?.[0]).toBe(600);
  expect(Math.max(...(stroke ?? []).map(([x]) => x))).toBe(600);
});

it("has the stroke that is still being drawn when the screen commits", async () => {
  await draw(uphill, false);
  expect(await held()).toEqual([]);
  await page.evaluate(() => window.commit());
  await page.getByRole("img", { name: "Signature of R. Tamsin" }).waitFor();
  expectNear((await strokesIn("committed"))?.[0], [
    [100, 140],
    [200, 40],
  ]);
  // What the finger does after that is no second stroke, and none is lost or doubled.
  await fingers.send("touchMove", [[300, 100]]);
  await fingers.lift();
  expect(await held()).toHaveLength(1);
});

it.each([
  { when: "a key is pressed", does: () => page.keyboard.press("Shift") },
  {
    when: "the page goes out of sight",
    does: () =>
      page.evaluate(() => {
        Object.defineProperty(document, "hidden", { value: true });
        document.dispatchEvent(new Event("visibilitychange"));
      }),
  },
  {
    when: "the pad goes",
    does: () =>
      page.evaluate(() => {
        const all = [...document.querySelectorAll("button")];
        all.find(({ textContent }) => textContent === "Put the pad away or back")?.click();
      }),
  },
])("hands on an unfinished stroke when $when", async ({ does }) => {
  await draw(downhill, false);
  expect(await held()).toEqual([]);
  await does();
  await expect.poll(async () => (await held()).length).toBe(1);
});

it("ignores a second finger, and lets a pen draw where its hand came down first", async () => {
  await fingers.send("touchStart", [[100, 100]]);
  await fingers.send("touchStart", [
    [100, 100],
    [400, 100],
  ]);
  await fingers.send("touchMove", [
    [150, 100],
    [450, 180],
  ]);
  await fingers.lift();
  expect(await held()).toHaveLength(1);
  expectNear((await held())[0], [
    [100, 100],
    [150, 100],
  ]);
  await button("Clear the pad").click();

  await fingers.send("touchStart", [[300, 190]]);
  const pen = async (type: "mousePressed" | "mouseMoved" | "mouseReleased", place: Place) =>
    touch.send("Input.dispatchMouseEvent", {
      type,
      ...(await onScreen(place)),
      pointerType: "pen",
      button: "left",
      buttons: type === "mouseReleased" ? 0 : 1,
      clickCount: 1,
    });
  await pen("mousePressed", [200, 40]);
  await pen("mouseMoved", [260, 120]);
  await pen("mouseReleased", [260, 120]);
  await fingers.lift();
  expect(await held()).toHaveLength(1);
  expectNear((await held())[0], [
    [200, 40],
    [260, 120],
  ]);
});

it("thins a long scribble to what a signature may hold", async () => {
  const scribble = Array.from({ length: 4000 }, (_, index): Place => {
    const t = index / 40;
    return [300 + 2.4 * t * Math.cos(3 * t), 100 + 0.9 * t * Math.sin(5 * t)];
  });
  // Through the page: a thousand touches over the wire would take minutes.
  await page.evaluate((places) => {
    const surface = document.querySelector(".signature-surface");
    const box = surface?.getBoundingClientRect();
    if (!surface || !box) throw new Error("no pad");
    // No pointer of the hardware stands behind it that could be captured.
    surface.setPointerCapture = () => {};
    const send = (type: string, [x, y]: readonly [number, number]) =>
      surface.dispatchEvent(
        new PointerEvent(type, {
          bubbles: true,
          pointerId: 7,
          pointerType: "touch",
          clientX: box.left + (x / 600) * box.width,
          clientY: box.top + (y / 200) * box.height,
        }),
      );
    const last = places.at(-1) ?? [0, 0];
    send("pointerdown", places[0] ?? last);
    for (const place of places) send("pointermove", place);
    send("pointerup", last);
  }, scribble);
  const [stroke = []] = await held();
  expect(stroke.length).toBeLessThanOrEqual(1500);
  expect(stroke.length).toBeGreaterThan(300);
  expectNear(stroke, [scribble[0] ?? [0, 0], scribble.at(-1) ?? [0, 0]]);
});

it("has targets for a glove, and what is drawn stands out in every skin", async () => {
  await draw(downhill);
  await draw(uphill);
  await page.getByText("Drawn in 2 strokes.").waitFor();
  for (const name of ["Take back the last stroke", "Clear the pad"]) {
    expect((await button(name).boundingBox())?.height).toBeGreaterThanOrEqual(96);
  }
  for (const skin of ["paper", "sun", "night"]) {
    const contrast = await page.evaluate((chosen) => {
      document.documentElement.dataset.skin = chosen;
      const luminance = (colour: string) => {
        const [r = 0, g = 0, b = 0] = (colour.match(/\d+/g) ?? []).map((part) => {
          const share = Number(part) / 255;
          return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const of = (selector: string) => {
        const element = document.querySelector(selector);
        if (!element) throw new Error(selector);
        return getComputedStyle(element);
      };
      const both = [
        luminance(of(".signature-line").stroke),
        luminance(of(".signature-frame").backgroundColor),
      ];
      return (Math.max(...both) + 0.05) / (Math.min(...both) + 0.05);
    }, skin);
    expect(contrast, skin).toBeGreaterThanOrEqual(7);
    expect(await seriousFaults(page), skin).toEqual([]);
  }
});
