import { cpSync, readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { dist } from "../../scripts/build.mjs";

/** A build that differs from the present one by its page alone, as a release would by more. */
export function buildNext(folder: string): void {
  cpSync(dist, folder, { recursive: true });
  change(join(folder, "index.html"), (page) =>
    page.replace("<title>Latchline</title>", "<title>Latchline, next</title>"),
  );
  change(join(folder, "sw.js"), (worker) =>
    worker.replace(
      /"revision":"[0-9a-f]+","url":"index.html"/,
      '"revision":"next","url":"index.html"',
    ),
  );
}

/** The same, of a release that keeps more than the present one: its database is of a newer version. */
export function buildNextWithNewerStore(folder: string): void {
  buildNext(folder);
  const assets = join(folder, "assets");
  const versions = /this\.version\((\d+)\)\.stores\(\{[^}]*\}\)(?!,this\.version)/;
  const scripts = readdirSync(assets).filter((name) => name.endsWith(".js"));
  const keeper = scripts.find((name) => versions.test(readFileSync(join(assets, name), "utf8")));
  if (!keeper) throw new Error("the build has no database");
  change(join(assets, keeper), (script) =>
    script.replace(
      versions,
      (last, version) => `${last},this.version(${Number(version) + 1}).stores({later:"id"})`,
    ),
  );
  // A file with another content has another name, and so has every file that names it: browsers keep the old for good.
  const pages = ["index.html", "sw.js"].map((name) => join(folder, name));
  for (const path of [...scripts.map((name) => join(assets, name)), ...pages]) {
    const text = readFileSync(path, "utf8");
    const renamed = scripts.reduce((so, name) => so.replaceAll(name, `next-${name}`), text);
    writeFileSync(path, renamed);
  }
  for (const name of scripts) renameSync(join(assets, name), join(assets, `next-${name}`));
}

function change(path: string, by: (text: string) => string): void {
  const before = readFileSync(path, "utf8");
  const after = by(before);
  if (after === before) throw new Error(`nothing was changed in ${path}`);
  writeFileSync(path, after);
}
