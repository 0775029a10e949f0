import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "vite";
import { root } from "../../scripts/project.mjs";

/**
 * Builds a page for a part alone into a folder, to be served under the policy of the app.
 *
 * @param entry its module, from the project's root
 * @param project folder of the project, for whoever is not run from there
 */
export async function buildOwnPage(
  entry: string,
  title: string,
  folder: string,
  project = root,
): Promise<void> {
  await build({
    root: project,
    configFile: false,
    publicDir: false,
    logLevel: "warn",
    build: {
      outDir: folder,
      emptyOutDir: true,
      manifest: true,
      target: "es2022",
      // As the app is built: the policy allows no data addresses.
      assetsInlineLimit: 0,
      rollupOptions: { input: entry },
    },
  });
  const manifest = JSON.parse(readFileSync(join(folder, ".vite/manifest.json"), "utf8"));
  const { file, css = [] } = manifest[entry];
  const styles = css.map((each: string) => `<link rel="stylesheet" href="/${each}">`);
  writeFileSync(
    join(folder, "index.html"),
    `<!doctype html><html lang="en" data-skin="paper"><head><meta name="viewport" content="width=device-width">
    <title>${title}</title>${styles.join("")}</head><body><script type="module" src="/${file}"></script></body></html>`,
  );
}
