import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { dist } from "./build.mjs";

/** What a crew's tablet has to load before the run sheet stands, JavaScript, gzipped. */
const LIMIT = 250_000;

/**
 * Bytes of JavaScript on the run sheet's path: the entry and everything it imports statically.
 *
 * @returns {{ bytes: number, limit: number }}
 */
export function runSheetBytes() {
  const manifest = JSON.parse(readFileSync(`${dist}/.vite/manifest.json`, "utf8"));
  const seen = new Set();
  const visit = (key) => {
    if (seen.has(key)) return 0;
    seen.add(key);
    const chunk = manifest[key];
    const own = gzipSync(readFileSync(`${dist}/${chunk.file}`)).length;
    return (chunk.imports ?? []).reduce((sum, next) => sum + visit(next), own);
  };
  return { bytes: visit("index.html"), limit: LIMIT };
}
