import { writeFileSync } from "node:fs";
import { ensureInstalled } from "./ensureInstalled.mjs";
import { root } from "./project.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
const { demoPack } = await importTypeScript("demo-data/build.ts");
const file = `${root}demo-data/ember-mesa.json`;
writeFileSync(file, `${JSON.stringify(demoPack(), null, 1)}\n`);
process.stdout.write(`${file} written\n`);
