import type { Page } from "playwright-core";

/** A JPEG as the page's own browser writes it: the left half white, the right half black. */
export async function jpeg(page: Page, width: number, height: number): Promise<Buffer> {
  const base64 = await page.evaluate(
    ([w, h]) => {
      const canvas = document.createElement("canvas");
      canvas.width = w;
      canvas.height = h;
      const context = canvas.getContext("2d");
      if (!context) throw new Error("nothing to draw on");
      context.fillStyle = "white";
      context.fillRect(0, 0, w / 2, h);
      return canvas.toDataURL("image/jpeg", 0.9).replace(/^data:[^,]*,/, "");
    },
    [width, height] as const,
  );
  return Buffer.from(base64, "base64");
}
