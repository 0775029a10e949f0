import { spawnSync } from "node:child_process";
import { ensureInstalled } from "./ensureInstalled.mjs";
import { root } from "./project.mjs";

ensureInstalled();
const { ensureBuilt } = await import("./build.mjs");
const { ensureChromium } = await import("./chromium.mjs");

/** How often, unless the command line says another number. */
const MANY = "100";
const [cuts = MANY] = process.argv.slice(2);
if (!/^[1-9]\d*$/.test(cuts)) {
  process.stderr.write(
    `"${cuts}" is no number of power cuts: give 1 or more, or nothing for ${MANY}.\n`,
  );
  process.exit(2);
}

await ensureBuilt();
const result = spawnSync(
  process.execPath,
  [
    `${root}node_modules/vitest/vitest.mjs`,
    "run",
    "--project",
    "browser",
    "tests/browser/powerCut.test.ts",
  ],
  {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, LATCHLINE_CUTS: cuts, LATCHLINE_CHROMIUM: await ensureChromium() },
  },
);
process.exitCode = result.status ?? 1;
