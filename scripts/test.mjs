import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { ensureInstalled } from "./ensureInstalled.mjs";
import { cacheFolder, root } from "./project.mjs";

ensureInstalled();

let passed = 0;
let failed = 0;

function report(name, problems) {
  if (problems.length === 0) {
    passed += 1;
    process.stdout.write(`ok      ${name}\n`);
    return;
  }
  failed += 1;
  process.stdout.write(`FAILED  ${name}\n${problems.map((each) => `        ${each}\n`).join("")}`);
}

/** Runs a tool of this project; what it says is shown when it fails. */
function tool(name, file, args, env = {}) {
  const result = spawnSync(process.execPath, [`${root}node_modules/${file}`, ...args], {
    cwd: root,
    encoding: "utf8",
    env: { ...process.env, ...env },
  });
  report(name, result.status === 0 ? [] : `${result.stdout}${result.stderr}`.trimEnd().split("\n"));
}

/** Runs a Vitest project and counts its tests one by one. */
function tests(project, env = {}) {
  const file = `${cacheFolder}${project}.json`;
  rmSync(file, { force: true });
  const result = spawnSync(
    process.execPath,
    [
      `${root}node_modules/vitest/vitest.mjs`,
      "run",
      "--project",
      project,
      "--reporter=dot",
      "--reporter=json",
      `--outputFile.json=${file}`,
    ],
    { cwd: root, stdio: ["ignore", 1, 1], env: { ...process.env, ...env } },
  );
  const counts = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : undefined;
  passed += counts?.numPassedTests ?? 0;
  // A file that cannot be loaded fails without a test of its own; a test that was switched off did not pass.
  const lost =
    (counts?.numFailedTests ?? 0) + (counts?.numPendingTests ?? 0) + (counts?.numTodoTests ?? 0);
  failed += lost === 0 && result.status !== 0 ? 1 : lost;
}

async function main() {
  const { importProblems } = await import("./importRules.mjs");
  const { ensureBuilt } = await import("./build.mjs");
  const { runSheetBytes } = await import("./bundleSize.mjs");
  const { ensureChromium } = await import("./chromium.mjs");

  tool("types", "typescript/bin/tsc", ["-p", "."]);
  tool("types of the service worker", "typescript/bin/tsc", ["-p", "src/ui/serviceWorker"]);
  tool("lint and format", "@biomejs/biome/bin/biome", [
    "ci",
    "--error-on-warnings",
    "--colors=off",
    ".",
  ]);
  tool("nothing unused", "knip/bin/knip.js", []);
  report("imports run ui → jobs → calc", await importProblems());
  tests("unit");

  try {
    await ensureBuilt();
    report("production build", []);
  } catch (error) {
    report("production build", [String(error)]);
    return;
  }
  const { bytes, limit } = runSheetBytes();
  report(
    `run sheet loads ${(bytes / 1000).toFixed(1)} kB of JavaScript, gzipped`,
    bytes <= limit ? [] : [`more than ${limit / 1000} kB`],
  );
  try {
    tests("browser", { LATCHLINE_CHROMIUM: await ensureChromium() });
  } catch (error) {
    report("browser tests", [error.message]);
  }
}

await main();
process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exitCode = failed === 0 ? 0 : 1;
