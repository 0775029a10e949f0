import { useEffect, useState } from "react";
import type { Block } from "../../jobs/report/document.ts";
import { PhotographPicture } from "../Evidence/PhotographPicture.tsx";
import { useStore } from "../storeContext.ts";

/** A photograph of the report from this tablet's store. */
export function ReportPhotograph({ of }: { readonly of: Extract<Block, { kind: "photograph" }> }) {
  const store = useStore();
  const [jpeg, setJpeg] = useState<Uint8Array<ArrayBuffer>>();
  useEffect(() => {
    let gone = false;
    store.picture(of.picture).then(
      (found) => {
        if (!gone && found) setJpeg(new Uint8Array(found.bytes));
      },
      // It was there when the report was made; the store says by itself that it does not answer now.
      () => {},
    );
    return () => {
      gone = true;
    };
  }, [store, of.picture]);
  return (
    <figure className="report-photograph">
      {jpeg && <PhotographPicture jpeg={jpeg} alt={of.caption} />}
      <figcaption>{of.caption}</figcaption>
    </figure>
  );
}
