import type { Pixels } from "../../jobs/codes/readCode.ts";
import { openDetector } from "../Evidence/barcodes.ts";

/** Looks at a video's picture, one look at a time. */
export interface CodeReader {
  /** The texts of the codes in the picture as it is now; it fails while there is no picture. */
  read(video: HTMLVideoElement): Promise<readonly string[]>;
  close(): void;
}

/**
 * The browser's own reader, where it has one for these codes. Their text is plain letters and digits that carry a
 * checksum: there is nothing that it could give back otherwise.
 */
export async function browserReader(): Promise<CodeReader | undefined> {
  const detector = await openDetector(["qr_code"]);
  return (
    detector && {
      read: async (video) => (await detector.detect(video)).map(({ rawValue }) => rawValue),
      close: () => {},
    }
  );
}

/** px a side; a larger picture is read no better and takes longer */
const LARGEST = 1080;

/** The reader that comes along, in a worker. It looks at the square in the middle, which is what the screen shows. */
export function ownReader(): CodeReader {
  const worker = new Worker(new URL("./decoder.ts", import.meta.url), { type: "module" });
  const canvas = document.createElement("canvas");
  const context = canvas.getContext("2d", { willReadFrequently: true });
  return {
    read: (video) =>
      new Promise((resolve, reject) => {
        const side = Math.min(video.videoWidth, video.videoHeight);
        if (!context || side === 0 || video.readyState < video.HAVE_CURRENT_DATA) {
          reject(new Error("no picture"));
          return;
        }
        const size = Math.min(side, LARGEST);
        canvas.width = size;
        canvas.height = size;
        const [x, y] = [(video.videoWidth - side) / 2, (video.videoHeight - side) / 2];
        context.drawImage(video, x, y, side, side, 0, 0, size, size);
        const { data } = context.getImageData(0, 0, size, size);
        worker.onmessage = ({ data: text }: MessageEvent<string | undefined>) =>
          resolve(text === undefined ? [] : [text]);
        worker.onerror = ({ message }) => reject(new Error(message));
        const picture: Pixels = { width: size, height: size, data };
        worker.postMessage(picture, [data.buffer]);
      }),
    close: () => worker.terminate(),
  };
}
