import { ensureInstalled } from "./ensureInstalled.mjs";
import { root } from "./project.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
const only = process.argv[2];
if (only !== "browser") await importTypeScript("tests/bench/bench.ts");

// In the browser as on a tablet: the production build, its own database.
const { dist, ensureBuilt } = await import("./build.mjs");
const { ensureChromium } = await import("./chromium.mjs");
await ensureBuilt();
process.env.LATCHLINE_CHROMIUM = await ensureChromium();
const { benchRunSheet } = await importTypeScript("tests/bench/runSheetBench.ts");
console.table(await benchRunSheet(dist));
const { benchManyWells } = await importTypeScript("tests/bench/manyWellsBench.ts");
console.table(await benchManyWells(dist));
const { benchReportOnScreen } = await importTypeScript("tests/bench/reportBench.ts");
console.table(await benchReportOnScreen(root));
