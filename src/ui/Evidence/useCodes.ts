import { type RefObject, useEffect, useState } from "react";
import { openDetector, textOfCode } from "./barcodes.ts";

/** ms between two looks: quick enough for a hand that cannot keep still, and the tablet stays cool. */
const PAUSE = 150;
/** Looks that may fail one after the other: the first ones find no picture yet. */
const PATIENCE = 20;

export type Codes =
  | { readonly is: "looking" }
  /** at least one, each once */
  | { readonly is: "read"; readonly codes: readonly string[] }
  | { readonly is: "unable" };

/**
 * The codes in a video's picture. A picture counts when two looks one after the other read the same in it: some codes
 * (Code 39) carry no check digit, and one blurred picture may read as another serial.
 *
 * @param isOpen whether there is a picture to look at; what was read is forgotten when it opens anew, or with `again`
 */
export function useCodes(
  video: RefObject<HTMLVideoElement | null>,
  isOpen: boolean,
): { readonly found: Codes; again(): void } {
  const [found, setFound] = useState<Codes>({ is: "looking" });
  const [time, setTime] = useState(1);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the count is how often it was asked to look
  useEffect(() => {
    if (!isOpen) return;
    setFound({ is: "looking" });
    let over = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let failures = 0;
    let before = "";
    const detector = openDetector();
    const look = async () => {
      try {
        const source = video.current;
        const seen = source ? await (await detector)?.detect(source) : undefined;
        if (over) return;
        if (!seen) throw new Error("nothing to look with");
        failures = 0;
        const read = [...new Set(seen.map(({ rawValue }) => textOfCode(rawValue)))]
          .filter((text) => text !== "")
          .sort();
        const now = JSON.stringify(read);
        if (read.length > 0 && now === before) {
          setFound({ is: "read", codes: read });
          return;
        }
        before = now;
      } catch {
        if (over) return;
        before = "";
        failures += 1;
        if (failures > PATIENCE) {
          setFound({ is: "unable" });
          return;
        }
      }
      timer = setTimeout(() => void look(), PAUSE);
    };
    void look();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [video, isOpen, time]);
  return { found, again: () => setTime((times) => times + 1) };
}
