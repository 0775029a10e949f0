import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
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
  if (major < 20 || (major === 20 && minor < 19)) {
    process.stderr.write(
      `Latchline needs Node 20.19 or later; this is ${process.version}. Get a newer one from nodejs.org or your system's packages.\n`,
    );
    process.exit(1);
  }
  const hash = wanted();
  if (installed() === hash) return;
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
