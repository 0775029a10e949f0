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
  const out = `${cacheFolder}${file.replaceAll("/", "-").replace(/\.ts$/, ".mjs")}`;
  await build({
    input: root + file,
    platform: "node",
    external: (id) => /^(node:|@?[a-z])/i.test(id) && !id.startsWith(root),
    output: { file: out, format: "esm" },
    logLevel: "warn",
  });
  return import(pathToFileURL(out).href);
}
