import { ensureInstalled } from "./ensureInstalled.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
const args = process.argv.slice(2);
if (args[0] === "brief") {
  const { calculateBrief } = await importTypeScript("scripts/brief.ts");
  process.exitCode = calculateBrief(args);
} else {
  const { calculate } = await importTypeScript("scripts/calc.ts");
  process.exitCode = calculate(args);
}
