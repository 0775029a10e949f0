import { writeFileSync } from "node:fs";
import { ensureInstalled } from "./ensureInstalled.mjs";
import { root } from "./project.mjs";
import { importTypeScript } from "./runTypeScript.mjs";

ensureInstalled();
const { packJsonSchema } = await importTypeScript("scripts/packSchema.ts");
const { recordJsonSchema } = await importTypeScript("scripts/recordSchema.ts");
for (const [name, schema] of [
  ["pack", packJsonSchema()],
  ["record", recordJsonSchema()],
]) {
  const file = `${root}public/${name}.schema.json`;
  writeFileSync(file, `${JSON.stringify(schema, null, 1)}\n`);
  process.stdout.write(`${file} written\n`);
}
