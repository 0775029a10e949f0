import type { Pixels } from "../../src/jobs/codes/readCode.ts";

/** What a sensor adds: quiet, and never the same twice. */
function noise(): () => number {
  let seed = 12345;
  return () => {
    seed = (seed * 1664525 + 1013904223) % 2 ** 32;
    return (seed / 2 ** 32 - 0.5) * 24;
  };
}

/**
 * A picture of a code as a camera takes it: turned by some degrees, grey where it should be black or white, a little
 * out of focus and with noise.
 *
 * @param size px of a module
 */
export function photographed(modules: readonly (readonly boolean[])[], size: number): Pixels {
  const side = modules.length;
  const width = Math.ceil(side * size * 1.2);
  const cos = Math.cos(0.09) / size;
  const sin = Math.sin(0.09) / size;
  const sharp = new Float32Array(width * width).fill(90);
  for (let y = 0, at = 0; y < width; y += 1) {
    for (let x = 0; x < width; x += 1, at += 1) {
      const dx = x + 0.5 - width / 2;
      const dy = y + 0.5 - width / 2;
      const row = modules[Math.floor(cos * dy - sin * dx + side / 2)];
      const module = row?.[Math.floor(cos * dx + sin * dy + side / 2)];
      if (module !== undefined) sharp[at] = module ? 40 : 210;
    }
  }
  const data = new Uint8ClampedArray(width * width * 4).fill(255);
  const next = noise();
  for (let at = width + 1; at < sharp.length - width - 1; at += 1) {
    let sum = 0;
    for (let row = at - width; row <= at + width; row += width) {
      sum += (sharp[row - 1] ?? 0) + (sharp[row] ?? 0) + (sharp[row + 1] ?? 0);
    }
    data.fill(sum / 9 + next(), at * 4, at * 4 + 3);
  }
  return { width, height: width, data };
}
