import { longestJpeg } from "../../jobs/photographs.ts";

/** px on the longer side at most: a fishing neck can still be told on it, and six of them travel in a pack. */
const LONGEST_SIDE = 1280;
const BEST = 0.8;
/** Below this the blocks of the JPEG show; a smaller picture is then the better one. */
const WORST = 0.5;

/** The picture in base64, or why there is none and what to do. */
export type ReadPicture = { readonly jpeg: string } | { readonly why: string };

/**
 * A picture file as a JPEG that fits a record. It is drawn and written anew, so that nothing of the file but the
 * picture itself goes with it: where and with what it was taken (EXIF, location) stays behind.
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
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(new Blob([content], { type: file.type }));
  } catch {
    return {
      why: `${file.name} is not a picture that this tablet can show. Take the photograph with the camera here, or choose a JPEG or PNG.`,
    };
  }
  try {
    return { jpeg: await shrunk(picture) };
  } catch {
    return {
      why: `${file.name} could not be made smaller: the tablet is short of memory. Close other apps, then choose it again.`,
    };
  } finally {
    picture.close();
  }
}

/** Rougher first, then smaller, until it fits: it does at the latest when it is a few pixels. */
async function shrunk(picture: ImageBitmap): Promise<string> {
  let side = LONGEST_SIDE;
  let quality = BEST;
  for (;;) {
    const jpeg = await written(picture, side, quality);
    if (jpeg.length <= longestJpeg) return jpeg;
    if (quality > WORST) quality -= 0.1;
    else side *= 0.8;
  }
}

async function written(picture: ImageBitmap, side: number, quality: number): Promise<string> {
  const scale = Math.min(1, side / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const context = canvas.getContext("2d");
  if (!context) throw new Error("the browser has no room for a drawing of this size");
  // A JPEG knows nothing of see-through: without this such places turn black.
  context.fillStyle = "white";
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((resolve) =>
    canvas.toBlob(resolve, "image/jpeg", quality),
  );
  if (!blob) throw new Error("the browser wrote no picture");
  return inBase64(blob);
}

function inBase64(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^data:[^,]*,/, ""));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}
