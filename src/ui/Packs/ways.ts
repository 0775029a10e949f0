import { handOver } from "./handOver.ts";
import { writeWhole } from "./writeWhole.ts";

/** The ways in which a file leaves the tablet. */
export type Way = "download" | "share" | "file";

/** The parts of the File System Access API that TypeScript's library leaves out. */
interface Picker {
  showSaveFilePicker?(options: object): Promise<FileSystemFileHandle>;
}

export function waysHere(): Way[] {
  const probe = sharedFile({ name: "latchline.json", text: "{}" });
  const shares = navigator.canShare?.({ files: [probe] }) ?? false;
  const picks = (window as unknown as Picker).showSaveFilePicker !== undefined;
  return [
    "download",
    ...(shares ? (["share"] as const) : []),
    ...(picks ? (["file"] as const) : []),
  ];
}

interface Leaving {
  readonly name: string;
  readonly text: string;
}

/**
 * Hands a file over.
 *
 * @returns what the browser's promise says of it, in words; undefined when the person thought better of it
 */
export async function leaveBy(way: Way, file: Leaving): Promise<string | undefined> {
  try {
    switch (way) {
      case "download":
        handOver(file.name, file.text);
        return `${file.name} handed to the browser's downloads.`;
      case "share": {
        const shared = sharedFile(file);
        await navigator.share({ files: [shared], title: shared.name });
        return `${shared.name} handed to the share sheet. See there that it arrived.`;
      }
      case "file": {
        const chosen = await (window as unknown as Picker).showSaveFilePicker?.({
          suggestedName: file.name,
          types: [{ description: "Latchline pack", accept: { "application/json": [".json"] } }],
        });
        if (!chosen) return undefined;
        const bytes = await writeWhole(chosen, file.text);
        return `${chosen.name} is written, ${bytes.toLocaleString()} bytes.`;
      }
    }
  } catch (error) {
    if ((error as Error).name === "AbortError") return undefined;
    throw error;
  }
}

/** Browsers let a page share plain text, and no file that ends in .json (MDN, Navigator.share, shareable file types). */
function sharedFile({ name, text }: Leaving): File {
  return new File([text], `${name}.txt`, { type: "text/plain" });
}
