import { type RefObject, useEffect, useState } from "react";
import { browserReader, type CodeReader, ownReader } from "./codeReader.ts";

/** ms between two looks; codes change some four times a second. */
const PAUSE = 30;
/** Looks that may fail one after the other: the first ones find no picture yet. */
const PATIENCE = 60;

/**
 * Looks at a video's picture over and over and hands on each code in it. The browser's own reader looks first; where
 * it fails, the one that comes along goes on.
 *
 * @param onCode the same function as long as it is the same transfer
 * @returns whether the picture cannot be read at all
 */
export function useLooking(
  video: RefObject<HTMLVideoElement | null>,
  isOpen: boolean,
  onCode: (text: string) => void,
): boolean {
  const [isUnable, setUnable] = useState(false);
  useEffect(() => {
    if (!isOpen) return;
    setUnable(false);
    let over = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let reader: CodeReader | undefined;
    let isOwn = false;
    let failures = 0;
    const own = () => {
      isOwn = true;
      return ownReader();
    };
    const look = async () => {
      try {
        reader ??= (await browserReader().catch(() => undefined)) ?? (over ? undefined : own());
        const codes = video.current && reader ? await reader.read(video.current) : undefined;
        if (over) {
          reader?.close();
          return;
        }
        if (!codes) throw new Error("nothing to look at");
        failures = 0;
        for (const code of codes) onCode(code);
      } catch {
        if (over) return;
        failures += 1;
        if (failures > PATIENCE) {
          if (isOwn) {
            setUnable(true);
            return;
          }
          failures = 0;
          reader = own();
        }
      }
      timer = setTimeout(() => void look(), PAUSE);
    };
    void look();
    return () => {
      over = true;
      clearTimeout(timer);
      reader?.close();
    };
  }, [video, isOpen, onCode]);
  return isUnable;
}
