import { lazy, Suspense, useEffect, useState } from "react";
import { canScan } from "./barcodes.ts";
import type { Reach } from "./reach.ts";
import "./reach.css";

const ScanDialog = lazy(() => import("./ScanDialog.tsx"));

interface ScanSerialProps {
  /** what the code gives, as in "Scan the serial" */
  readonly what: string;
  readonly reach?: Reach;
  /** what the person took, after seeing it */
  readonly onRead: (text: string) => void;
}

/** A button beside a field that stays to be typed in; it is there where the browser reads codes and has a camera. */
export default function ScanSerial({ what, reach = "office", onRead }: ScanSerialProps) {
  const [can, setCan] = useState(false);
  const [open, setOpen] = useState(false);
  useEffect(() => {
    let gone = false;
    void canScan().then((found) => !gone && setCan(found));
    return () => {
      gone = true;
    };
  }, []);
  if (!can) return null;
  return (
    <div data-reach={reach}>
      <button type="button" className="button" onClick={() => setOpen(true)}>
        Scan the {what}
      </button>
      {open && (
        <Suspense>
          <ScanDialog what={what} reach={reach} onRead={onRead} onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </div>
  );
}
