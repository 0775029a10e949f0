import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { root } from "./project.mjs";

export const dist = `${root}dist`;
/** Inside the build, so that whoever builds anew takes it away. */
const MARK = `${dist}/.vite/sources`;
const SOURCES = [
  "src",
  "public",
  "demo-data",
  "index.html",
  "vite.config.ts",
  "package-lock.json",
  "scripts",
];

/** A hash of everything the build depends on. */
function sources() {
  const hash = createHash("sha256");
  for (const source of SOURCES) {
    const path = root + source;
    const files = /\./.test(source)
      ? [""]
      : readdirSync(path, { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile())
          .map((entry) => `${entry.parentPath}/${entry.name}`.slice(path.length))
          .sort();
    for (const file of files) hash.update(source + file).update(readFileSync(path + file));
  }
  return hash.digest("hex");
}

/** Builds for production unless the build that is there was made from these very sources. */
export async function ensureBuilt() {
  const wanted = sources();
  const built = existsSync(MARK) ? readFileSync(MARK, "utf8") : "";
  if (built === wanted && existsSync(`${dist}/index.html`)) return;
  const { build } = await import("vite");
  // Whoever has another NODE_ENV set would get a build for developers, whose service worker keeps nothing.
  process.env.NODE_ENV = "production";
  await build({ root, logLevel: "warn" });
  writeFileSync(MARK, wanted);
}
