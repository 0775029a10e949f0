import encodeQR from "qr";
import { type Grain, grains } from "./cut.ts";

/** Light modules around a code, without which it may not be found (ISO/IEC 18004). */
const QUIET = 4;

/** A frame as the modules of its code, row by row with the quiet zone around: true is dark. */
export function modulesOf(frame: string, grain: Grain): readonly (readonly boolean[])[] {
  const { version } = grains[grain];
  return encodeQR(frame, "raw", {
    version,
    ecc: "medium",
    encoding: "alphanumeric",
    border: QUIET,
  });
}

/** The dark modules as the path of a drawing in which a module is 1 x 1. */
export function darkPath(modules: readonly (readonly boolean[])[]): string {
  let path = "";
  for (const [y, row] of modules.entries()) {
    for (let x = 0; x < row.length; x += 1) {
      if (!row[x]) continue;
      let end = x;
      while (row[end]) end += 1;
      path += `M${x} ${y}h${end - x}v1H${x}z`;
      x = end;
    }
  }
  return path;
}
