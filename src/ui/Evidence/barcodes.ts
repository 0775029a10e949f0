/** Reading codes with what the browser brings (Shape Detection API), which TypeScript does not know yet. */

/** Codes that tags and boxes of the trade carry; of these, those that the browser reads. */
const wanted = ["code_128", "code_39", "data_matrix", "qr_code", "ean_13"];

export interface BarcodeDetector {
  detect(source: HTMLVideoElement): Promise<readonly { readonly rawValue: string }[]>;
}

interface BarcodeDetectorClass {
  new (options: { readonly formats: readonly string[] }): BarcodeDetector;
  getSupportedFormats(): Promise<readonly string[]>;
}

const detectorOf = () =>
  (globalThis as { readonly BarcodeDetector?: BarcodeDetectorClass }).BarcodeDetector;

/** Opens a detector, where there is one that reads any of the codes that are asked for. */
export async function openDetector(of = wanted): Promise<BarcodeDetector | undefined> {
  const Detector = detectorOf();
  if (!Detector) return undefined;
  const supported = await Detector.getSupportedFormats();
  const formats = of.filter((format) => supported.includes(format));
  return formats.length > 0 ? new Detector({ formats }) : undefined;
}

/** Whether codes can be read here: a detector that reads them, and a camera that a page may ask for. */
export async function canScan(): Promise<boolean> {
  // Without https there are no media devices, whatever the tablet has.
  const devices: MediaDevices | undefined = navigator.mediaDevices;
  if (!devices || !detectorOf()) return false;
  try {
    const [detector, all] = await Promise.all([openDetector(), devices.enumerateDevices()]);
    return detector !== undefined && all.some(({ kind }) => kind === "videoinput");
  } catch {
    return false;
  }
}

/** A code's text for a field of one line: what cannot be seen in it (separators of fields, ends of lines) is a space. */
export const textOfCode = (raw: string) =>
  raw
    .replace(/[\p{Cc}\p{Cf}\s]+/gu, " ")
    .trim()
    .slice(0, 400);
