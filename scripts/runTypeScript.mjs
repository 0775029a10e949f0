import { createHash } from "node:crypto";
import { existsSync, mkdirSync, renameSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { cacheFolder, root } from "./project.mjs";

/**
 * Imports a TypeScript module of this project under plain Node: its own files are bundled to one
 * (some 50 ms), packages stay where they are.
 *
 * @param {string} file path from the project's root
 * @returns the module
 */
export async function importTypeScript(file) {
  const { build } = await import("rolldown");
  const { output } = await build({
    input: root + file,
    platform: "node",
    external: (id) => /^(node:|@?[a-z])/i.test(id) && !id.startsWith(root),
    output: { format: "esm" },
    write: false,
    logLevel: "warn",
  });
  const { code } = output[0];
  // Named by what is in it and put in place whole, so that calls at the same time do not meet half a file.
  const name = createHash("sha256").update(code).digest("hex").slice(0, 16);
  const out = `${cacheFolder}${name}.mjs`;
  if (!existsSync(out)) {
    mkdirSync(cacheFolder, { recursive: true });
    const own = `${out}.${process.pid}`;
    writeFileSync(own, code);
    renameSync(own, out);
  }
  return import(pathToFileURL(out).href);
}
