import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import { root } from "./project.mjs";

/** Where a Chromium may be, in the order they are tried. */
const PLACES = [
  process.env.CHROME_PATH,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome-stable",
  "/usr/bin/google-chrome",
  "/snap/bin/chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

function isThere(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

async function find() {
  const { chromium } = await import("playwright-core");
  return [...PLACES, chromium.executablePath()].find((path) => path && isThere(path));
}

function run(command, args) {
  process.stderr.write(`> ${command} ${args.join(" ")}\n`);
  return spawnSync(command, args, { cwd: root, stdio: ["ignore", 2, 2] }).status === 0;
}

/**
 * Finds a Chromium for the browser tests, or installs one: from Debian's packages as root, otherwise the
 * one that playwright-core brings.
 *
 * @returns {Promise<string>} its path
 * @throws an error that says how to get one, when neither works
 */
export async function ensureChromium() {
  const found = await find();
  if (found) return found;
  const isRoot = process.platform === "linux" && process.getuid?.() === 0;
  if (isRoot && isThere("/usr/bin/apt-get")) {
    run("apt-get", ["update", "-qq"]);
    run("apt-get", ["install", "-y", "-qq", "chromium"]);
  } else {
    run(process.execPath, ["node_modules/playwright-core/cli.js", "install", "chromium"]);
  }
  const installed = await find();
  if (installed) return installed;
  throw new Error(
    "No Chromium was found and none could be installed. Install one (Debian: apt-get install -y chromium as root; elsewhere Chrome or Chromium from its maker), or set CHROME_PATH to one, then run npm test again. One that was downloaded but does not start lacks system libraries: node node_modules/playwright-core/cli.js install-deps chromium.",
  );
}
