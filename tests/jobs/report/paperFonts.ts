import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { FontFiles } from "../../../src/jobs/report/pdf/fonts.ts";

// Found as a package is: from wherever this file was bundled to.
const { resolve } = createRequire(import.meta.url);
const read = (path: string) => readFileSync(resolve(path));
const atkinson = (subset: string, weight: number) => ({
  bytes: read(
    `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${subset}-${weight}-normal.woff`,
  ),
});
const rest = { bytes: read("dejavu-fonts-ttf/ttf/DejaVuSans.ttf"), scale: 0.92 };

/** The fonts that the app sets with, from where the build takes them. */
export const paperFonts: FontFiles = {
  regular: [atkinson("latin", 400), atkinson("latin-ext", 400), rest],
  bold: [atkinson("latin", 700), atkinson("latin-ext", 700), rest],
};
