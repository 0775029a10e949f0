import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { cacheFolder, root } from "./project.mjs";

const MARK = `${cacheFolder}installed`;

/** A hash of what an installation depends on: the lock file and the Node it was made with. */
function wanted() {
  const lock = readFileSync(`${root}package-lock.json`);
  return createHash("sha256").update(lock).update(process.version).digest("hex");
}

function installed() {
  try {
    return readFileSync(MARK, "utf8");
  } catch {
    return undefined;
  }
}

/**
 * Installs the packages of the lock file unless they are there already. What npm says goes to
 * standard error, so that standard output stays the caller's. Ends the process when it fails.
 */
export function ensureInstalled() {
  const [major, minor] = process.versions.node.split(".").map(Number);
  // The even lines are those that are kept up, and those that the packages here are made for.
  const fits =
    (major === 20 && minor >= 19) ||
    (major === 22 && minor >= 12) ||
    (major >= 24 && major % 2 === 0);
  if (!fits) {
    process.stderr.write(
      `Latchline needs Node 20.19 or later of the long-kept lines (20, 22, 24...); this is ${process.version}. Get one from nodejs.org or your system's packages.\n`,
    );
    process.exit(1);
  }
  const hash = wanted();
  if (installed() === hash) return;
  const release = onlyOne();
  try {
    // Another command may have installed while this one waited for its turn.
    if (installed() !== hash) install(hash);
  } finally {
    release();
  }
}

/** Waits until no other command installs into this folder, and keeps others waiting until it is released. */
function onlyOne() {
  const id = createHash("sha256").update(root).digest("hex").slice(0, 16);
  const lock = join(tmpdir(), `latchline-installing-${id}`);
  for (;;) {
    try {
      writeFileSync(lock, String(process.pid), { flag: "wx" });
      return () => rmSync(lock, { force: true });
    } catch (error) {
      if (error.code !== "EEXIST") throw error;
      if (isRunning(lock)) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 500);
      else rmSync(lock, { force: true });
    }
  }
}

/** Whether the command that took the lock is still there. */
function isRunning(lock) {
  try {
    process.kill(Number(readFileSync(lock, "utf8")), 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}

function install(hash) {
  process.stderr.write("Installing packages (npm ci)...\n");
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  const result = spawnSync(npm, ["ci", "--no-audit", "--no-fund"], {
    cwd: root,
    stdio: ["ignore", 2, 2],
    shell: process.platform === "win32",
  });
  if (result.status !== 0) {
    process.stderr.write(
      "Packages could not be installed (see npm's own words above). Check the network, then run the command again.\n",
    );
    process.exit(1);
  }
  mkdirSync(cacheFolder, { recursive: true });
  writeFileSync(MARK, hash);
}
