import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { record, runToAsFound, stepOf, typeAgain, view } from "./crew.ts";
import { keptOffline, Site, sign, TabletBrowser } from "./harness.ts";
import { casingsIn, eventsIn } from "./log.ts";

const site = new Site();
const tablet = new TabletBrowser();
const JOB = "job-em-07-3";
const step = stepOf("as-found");
let page: Page;

beforeAll(async () => {
  await site.start();
  page = await tablet.open(site.address);
  await keptOffline(page);
  await page.locator(".job-card").first().waitFor();
  await sign(page, "R. Tamsin", "wireline supervisor");
  await page.addInitScript(layBare);
  await page.goto(`${site.address}/jobs/${JOB}`);
  await runToAsFound(page);
});
afterAll(async () => {
  await tablet.dispose();
  await site.stop();
});

/** What a test may do to the page's database: `handles` are those it has opened, `mend` undoes what was done. */
interface Bared {
  readonly handles: IDBDatabase[];
  /** asked before a handle begins a transaction; what it throws, the handle throws */
  onBegin: (handle: IDBDatabase) => void;
  /** told of every transaction that a handle has begun */
  onBegun: (transaction: IDBTransaction) => void;
  /** told of an event that was taken, before it is committed, and how many were taken since the store was broken */
  onEvent: (events: IDBObjectStore, count: number) => void;
  /** asked before the database is opened */
  onOpen: () => void;
  /** events whose transaction is over, since the store was broken */
  committed: number;
  /** what a test notes down */
  readonly promised: IDBTransactionDurability[];
  mend(): void;
}
declare global {
  interface Window {
    bared: Bared;
  }
}

/** Runs in the page before the app: a database library may bind the browser's methods as it opens. */
function layBare() {
  let count = 0;
  const whole = { onBegin() {}, onBegun() {}, onEvent() {}, onOpen() {} };
  const bared = {
    handles: [] as IDBDatabase[],
    ...whole,
    committed: 0,
    promised: [],
    mend() {
      count = 0;
      bared.committed = 0;
      Object.assign(bared, whole);
    },
  } as Bared;
  window.bared = bared;

  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (...given) {
    bared.onOpen();
    const request = open.apply(this, given);
    request.addEventListener("success", () => bared.handles.push(request.result));
    return request;
  };
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (...given) {
    bared.onBegin(this);
    const begun = transaction.apply(this, given);
    bared.onBegun(begun);
    return begun;
  };
  const { add } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.add = function (...given) {
    const request = add.apply(this, given);
    if (this.name === "events") {
      request.addEventListener("success", () => {
        count += 1;
        this.transaction.addEventListener("complete", () => {
          bared.committed += 1;
        });
        bared.onEvent(this, count);
      });
    }
    return request;
  };
}

const brokenStores: readonly {
  readonly when: string;
  /** runs in the page */
  readonly break: () => void;
  /** what the screen says; undefined where the store mends itself without a word */
  readonly says?: RegExp;
}[] = [
  {
    when: "the connection died while the tablet slept",
    break: () => {
      for (const handle of window.bared.handles) handle.close();
    },
  },
  {
    when: "the connection was lost and says so at every use",
    break: () => {
      const dead = new Set(window.bared.handles);
      window.bared.onBegin = (handle) => {
        if (dead.has(handle)) throw new DOMException("Connection lost", "UnknownError");
      };
    },
  },
  {
    when: "the connection takes everything, commits it and never says so",
    break: () => {
      const dead = new Set(window.bared.handles);
      window.bared.onBegun = (transaction) => {
        if (!dead.has(transaction.db)) return;
        for (const answer of ["complete", "abort", "error"]) {
          transaction.addEventListener(answer, (event) => event.stopImmediatePropagation(), true);
        }
      };
    },
  },
  {
    when: "the first commit is aborted",
    break: () => {
      window.bared.onEvent = ({ transaction }, count) => {
        if (count === 1) transaction.abort();
      };
    },
  },
  {
    when: "every commit is aborted",
    break: () => {
      window.bared.onEvent = ({ transaction }) => transaction.abort();
    },
    says: /Not saved yet: the tablet's storage did not answer/,
  },
  {
    when: "the browser refuses the database",
    break: () => {
      for (const handle of window.bared.handles) handle.close();
      window.bared.onOpen = () => {
        throw new DOMException("denied", "SecurityError");
      };
    },
    says: /Not saved yet: the tablet's storage did not answer/,
  },
];

it.each(brokenStores.map((each, index) => ({ ...each, reading: String(1001 + index) })))(
  "keeps a reading on the screen until it is written, and writes it once, when $when",
  async (broken) => {
    const { reading, says } = broken;
    await typeAgain(page, reading);
    await page.evaluate(broken.break);
    await page.locator(".step-record").click();
    if (says) {
      await refusedWith(says, reading);
      await page.evaluate(() => window.bared.mend());
      expect(await readingsOf(reading)).toBe(0);
      await page.locator(".step-record").click();
    }
    // On the screen until it is said to be saved, and then in the store.
    for (let seen = await screen(); !seen.isSaved; seen = await screen()) {
      expect(seen.isTyped).toBe(true);
      await page.waitForTimeout(50);
    }
    await page.evaluate(() => window.bared.mend());
    expect(await readingsOf(reading)).toBe(1);
    expect(brokenLinks(await eventsIn(page, JOB))).toEqual([]);
  },
);

it("is not called saved while its write is under way, however long that takes", async () => {
  await typeAgain(page, "1011");
  await page.evaluate(() => {
    window.bared.onEvent = (events) => {
      const until = Date.now() + 3000;
      const keepBusy = () => {
        if (Date.now() < until) events.count().onsuccess = keepBusy;
      };
      keepBusy();
    };
  });
  await page.locator(".step-record").click();
  let looks = 0;
  for (let seen = await screen(); !seen.isSaved; seen = await screen()) {
    if (!seen.isCommitted) looks += 1;
    await page.waitForTimeout(50);
  }
  expect(looks).toBeGreaterThan(2);
  expect(await screen()).toMatchObject({ isSaved: true, isCommitted: true });
  await page.evaluate(() => window.bared.mend());
  expect(await readingsOf("1011")).toBe(1);
});

it("writes with the browser's promise that it is on the disk, not only with the operating system", async () => {
  await typeAgain(page, "1012");
  await page.evaluate(() => {
    window.bared.onBegun = ({ mode, durability, objectStoreNames }) => {
      if (mode !== "readonly" && objectStoreNames.contains("events")) {
        window.bared.promised.push(durability);
      }
    };
  });
  await record(page, step);
  expect(await page.evaluate(() => window.bared.promised)).toEqual(["strict"]);
  await page.evaluate(() => window.bared.mend());
});

it("says that the tablet is full, loses nothing, and records once there is room", async () => {
  await typeAgain(page, "1013");
  const before = await eventsIn(page, JOB);
  const session = await page.context().newCDPSession(page);
  const quota = (bytes?: number) =>
    session.send("Storage.overrideQuotaForOrigin", {
      origin: site.address,
      ...(bytes !== undefined && { quotaSize: bytes }),
    });
  // The browser itself refuses from here on: there is less room than is used already.
  await quota(1000);
  await expect.poll(hasRoom, { timeout: 60_000, interval: 1000 }).toBe(false);
  await page.locator(".step-record").click();
  await refusedWith(/Not saved yet: the tablet's storage is full.*Make room/, "1013");
  expect(await eventsIn(page, JOB)).toEqual(before);
  // What is typed into a full tablet is there after a reload, too.
  await page.locator("#entry-as-found-casing").fill("1014");
  await page.waitForTimeout(200);
  await page.reload();
  await page.locator(".step-title").waitFor();
  await view(page, step.title);
  await page.getByRole("button", { name: "Read and record again" }).click();
  await expect.poll(() => page.locator("#entry-as-found-casing").inputValue()).toBe("1014");
  await page.locator(".step-record").click();
  await refusedWith(/Not saved yet: the tablet's storage is full/, "1014");

  await quota();
  await record(page, step);
  expect(await readingsOf("1013")).toBe(0);
  expect(await readingsOf("1014")).toBe(1);
  expect(brokenLinks(await eventsIn(page, JOB))).toEqual([]);
  expect(await page.locator("[role=alert]").count()).toBe(0);
});

it("has every reading after a reload", async () => {
  await page.reload();
  await page.locator(".step-title").waitFor();
  const readings = brokenStores.map((_, index) => `${1001 + index}`);
  for (const reading of [...readings, "1011", "1012", "1014"]) {
    expect(await readingsOf(reading)).toBe(1);
  }
  expect(await page.locator("[role=alert]", { hasText: "storage" }).count()).toBe(0);
});

/** The screen says why it is not saved, says nowhere that it is, and still holds what was typed. */
async function refusedWith(says: RegExp, casing: string): Promise<void> {
  await page.locator(".problem", { hasText: says }).first().waitFor();
  expect((await screen()).isSaved).toBe(false);
  expect(await page.locator("#entry-as-found-casing").inputValue()).toBe(casing);
  expect(await page.locator("#entry-as-found-wellhead").inputValue()).toBe("318");
}

/** What the screen says, and whether an event was committed, at one moment. */
function screen(): Promise<{ isSaved: boolean; isTyped: boolean; isCommitted: boolean }> {
  return page.evaluate(
    (title) => ({
      isSaved: document.querySelector(".run-said")?.textContent?.includes(title) ?? false,
      isTyped: document.querySelector("#entry-as-found-casing") !== null,
      isCommitted: window.bared.committed > 0,
    }),
    `: ${step.title}.`,
  );
}

/**
 * Whether the browser commits anything more, tried in a database beside the app's. It asks how much room there is
 * every half minute only.
 */
function hasRoom(): Promise<boolean> {
  return page.evaluate(
    () =>
      new Promise<boolean>((resolve) => {
        const opening = indexedDB.open("beside the app");
        opening.onupgradeneeded = () => opening.result.createObjectStore("any");
        opening.onerror = () => resolve(false);
        opening.onsuccess = () => {
          const trying = opening.result.transaction("any", "readwrite");
          trying.objectStore("any").put("something", "key");
          const end = (committed: boolean) => {
            opening.result.close();
            resolve(committed);
          };
          trying.oncomplete = () => end(true);
          trying.onabort = () => end(false);
        };
      }),
  );
}

/** How many events of the job hold a casing pressure of a figure. */
async function readingsOf(figure: string): Promise<number> {
  const casings = casingsIn(await eventsIn(page, JOB));
  return casings.filter((casing) => casing === Number(figure)).length;
}
