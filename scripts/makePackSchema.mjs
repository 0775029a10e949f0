import { writeFileSync } from "node:fs";
import { ensureInstalled } from "./ensureInstalled.mjs";
import { root } from "./project.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
const { packJsonSchema } = await importTypeScript("scripts/packSchema.ts");
const file = `${root}public/pack.schema.json`;
writeFileSync(file, `${JSON.stringify(packJsonSchema(), null, 1)}\n`);
process.stdout.write(`${file} written\n`);
