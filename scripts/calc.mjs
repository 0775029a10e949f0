import { ensureInstalled } from "./ensureInstalled.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
const { calculate } = await importTypeScript("scripts/calc.ts");
process.exitCode = calculate(process.argv.slice(2));
