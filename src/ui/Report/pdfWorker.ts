import { setPdf } from "../../jobs/report/pdf/setPdf.ts";
import { paperFonts } from "./paperFonts.ts";
import type { Asked, Said } from "./pdfClient.ts";

/** Sets one report beside the screen, so that a long one does not hold it up. */
const say = (said: Said, handedOver: Transferable[] = []) =>
  postMessage(said, { transfer: handedOver });

type Bytes = Extract<Asked, { do: "take picture" }>["bytes"];
const wanted = new Map<string, (bytes: Bytes) => void>();

const pictures = (hash: string) =>
  new Promise<Bytes>((resolve) => {
    wanted.set(hash, resolve);
    say({ is: "picture wanted", hash });
  });

async function set({ document, paper }: Extract<Asked, { do: "set" }>): Promise<void> {
  const bytes = await setPdf(document, {
    paper,
    pictures,
    fonts: await paperFonts(),
    onProgress: (progress) => say({ is: "progress", progress }),
  });
  say({ is: "done", bytes }, [bytes.buffer]);
}

self.onmessage = async ({ data }: MessageEvent<Asked>) => {
  if (data.do === "take picture") {
    wanted.get(data.hash)?.(data.bytes);
    wanted.delete(data.hash);
    return;
  }
  try {
    await set(data);
  } catch (error) {
    say({ is: "failed", why: error instanceof Error ? error.message : String(error) });
  }
};
