import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { dist } from "../../scripts/build.mjs";
import { serve } from "../../scripts/serve.mjs";

/** The production build behind a server that can be stopped and started again at the same address. */
export class Site {
  address = "";
  private server: Server | undefined;
  private folder = dist;

  async start(folder = this.folder): Promise<void> {
    this.folder = folder;
    const port = this.address ? Number(new URL(this.address).port) : 0;
    const { server, address } = await serve(folder, port);
    if (this.address && address !== this.address) throw new Error(`${this.address} was taken`);
    this.server = server;
    this.address = address;
  }

  /** Really gone: nothing answers at the address any more. */
  async stop(): Promise<void> {
    const { server } = this;
    this.server = undefined;
    if (!server) return;
    const closed = new Promise((resolve) => server.close(resolve));
    server.closeAllConnections();
    await closed;
  }
}

const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--remote-debugging-port=0",
];

/** A tablet: a Chromium with a profile of its own, that can be killed and opened again. */
export class TabletBrowser {
  private readonly flags: readonly string[];
  private readonly profile = mkdtempSync(join(tmpdir(), "latchline-profile-"));
  private process: ChildProcess | undefined;
  private browser: Browser | undefined;
  /** every address any page asked for */
  readonly requests: string[] = [];

  /** @param flags of Chromium, besides those that every tablet has */
  constructor(flags: readonly string[] = []) {
    this.flags = [...FLAGS, ...flags, `--user-data-dir=${this.profile}`];
  }

  async open(url: string, size = { width: 1280, height: 800 }): Promise<Page> {
    const executable = process.env.LATCHLINE_CHROMIUM;
    if (!executable) throw new Error("run the browser tests through npm test: it finds a Chromium");
    const child = spawn(executable, [...this.flags, "about:blank"], {
      stdio: ["ignore", "ignore", "pipe"],
      detached: true,
    });
    this.process = child;
    const endpoint = await debuggingAddress(child);
    this.browser = await chromium.connectOverCDP(endpoint);
    const [context] = this.browser.contexts();
    if (!context) throw new Error("Chromium has no context");
    context.on("request", (request) => this.requests.push(request.url()));
    const page = context.pages()[0] ?? (await context.newPage());
    await page.setViewportSize(size);
    await page.goto(url);
    return page;
  }

  /** The battery falls out: no process of the browser gets to say goodbye. */
  async kill(): Promise<void> {
    const { process: child } = this;
    if (child?.pid === undefined) return;
    const gone = new Promise((resolve) => child.once("exit", resolve));
    process.kill(-child.pid, "SIGKILL");
    await gone;
    this.process = undefined;
  }

  async dispose(): Promise<void> {
    await this.browser?.close().catch(() => {});
    await this.kill();
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

function debuggingAddress(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    child.stderr?.on("data", (data) => {
      said += String(data);
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (found?.[1]) resolve(found[1]);
    });
    child.once("exit", (code) => reject(new Error(`Chromium ended with ${code}: ${said}`)));
  });
}

/** Waits until the app is wholly kept on the tablet and its service worker is in control. */
export async function keptOffline(page: Page): Promise<void> {
  await page.getByText("Kept on this tablet: works without network.").waitFor();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

/** Says who holds the tablet. */
export async function sign(page: Page, name: string, role: string): Promise<void> {
  await page.locator(".who").click();
  await page.getByLabel("Name", { exact: true }).fill(name);
  await page.getByRole("radio", { name: new RegExp(`^${role}`) }).check();
  await page.getByRole("button", { name: `Sign as ${name}, ${role}` }).click();
}

/** Signs with a wave on the last pad of the page. */
export async function drawSignature(page: Page): Promise<void> {
  const pad = page.locator(".signature-surface").last();
  await pad.scrollIntoViewIfNeeded();
  const box = await pad.boundingBox();
  if (!box) throw new Error("no pad");
  await page.mouse.move(box.x + 40, box.y + 60);
  await page.mouse.down();
  for (const [x, y] of [
    [120, 20],
    [180, 100],
    [240, 30],
    [320, 90],
  ] as const)
    await page.mouse.move(box.x + x, box.y + y, { steps: 5 });
  await page.mouse.up();
}

/** Presses and holds, as a thumb does. */
export async function pressAndHold(page: Page, name: string): Promise<void> {
  const button = page.getByRole("button", { name });
  await button.waitFor();
  await button.evaluate((element) => {
    element.scrollIntoView({ block: "center" });
  });
  const box = await button.boundingBox();
  if (!box) throw new Error(`no button ${name}`);
  await page.mouse.move(box.x + box.width / 2, box.y + Math.min(box.height / 2, 40));
  await page.mouse.down();
  await page.waitForTimeout(1150);
  await page.mouse.up();
}

/** The photographs of a string as the tablet's store holds them, in base64. */
export function storedPhotographs(page: Page, id: string): Promise<string[]> {
  return page.evaluate(async (key) => {
    const [{ name = "" } = {}] = await indexedDB.databases();
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await done(indexedDB.open(name));
    const record = await done(database.transaction("strings").objectStore("strings").get(key));
    database.close();
    return ((record as { photographs?: { jpeg: string }[] }).photographs ?? []).map(
      ({ jpeg }) => jpeg,
    );
  }, id);
}
