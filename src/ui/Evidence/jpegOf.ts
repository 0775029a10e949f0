import { largestPicture, type TakenPicture } from "../../jobs/photographs.ts";
import { noPicture } from "./noPicture.ts";
import { smallEnough } from "./smallEnough.ts";

/** The picture, or why there is none and what to do. */
type ReadPicture = { readonly picture: TakenPicture } | { readonly why: string };

/**
 * A picture file as a JPEG small enough to keep, the right way up. It is drawn and written anew, so that nothing of
 * the file but the picture itself goes with it: where and with what it was taken (EXIF, location) stays behind.
 */
export async function jpegOf(file: File): Promise<ReadPicture> {
  let content: ArrayBuffer;
  try {
    content = await file.arrayBuffer();
  } catch {
    return {
      why: `${file.name} could not be read from where it lies. Copy it onto this tablet, then choose it again.`,
    };
  }
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(new Blob([content], { type: file.type }), {
      // A camera held upright writes the picture lying and notes which way up it goes.
      imageOrientation: "from-image",
    });
  } catch {
    return { why: noPicture(file.name, new Uint8Array(content)) };
  }
  try {
    const { blob, width, height } = await smallEnough(
      (side, quality) => written(bitmap, side, quality),
      Math.min(largestPicture.side, Math.max(bitmap.width, bitmap.height)),
      largestPicture.bytes,
    );
    const bytes = new Uint8Array(await blob.arrayBuffer());
    return { picture: { bytes, type: "image/jpeg", width, height } };
  } catch {
    return {
      why: `${file.name} could not be made smaller: the tablet is short of memory. Close other apps, then choose it again.`,
    };
  } finally {
    bitmap.close();
  }
}

async function written(bitmap: ImageBitmap, side: number, quality: number) {
  const scale = side / Math.max(bitmap.width, bitmap.height);
  const canvas = document.createElement("canvas");
  const width = Math.max(1, Math.round(bitmap.width * scale));
  const height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d");
  if (!context) throw new Error("the browser has no room for a drawing of this size");
  // A JPEG knows nothing of see-through: without this such places turn black.
  context.fillStyle = "white";
  context.fillRect(0, 0, width, height);
  // Stamped figures break up where every second pixel is dropped.
  context.imageSmoothingQuality = "high";
  context.drawImage(bitmap, 0, 0, width, height);
  const blob = await new Promise<Blob | null>((resolve) =>
    canvas.toBlob(resolve, "image/jpeg", quality),
  );
  if (!blob) throw new Error("the browser wrote no picture");
  return { blob, size: blob.size, width, height };
}
