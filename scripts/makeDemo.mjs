import { writeFileSync } from "node:fs";
import { root } from "./project.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

const { demoPack } = await importTypeScript("demo-data/build.ts");
const file = `${root}demo-data/ember-mesa.json`;
writeFileSync(file, `${JSON.stringify(demoPack(), null, 1)}\n`);
process.stdout.write(`${file} written\n`);
