import { useEffect, useRef, useState } from "react";
import { createRoot } from "react-dom/client";
import type { Strokes } from "../../../src/jobs/signature.ts";
import { DrawnSignature } from "../../../src/ui/Evidence/DrawnSignature.tsx";
import SignaturePad, { type SignaturePadHandle } from "../../../src/ui/Evidence/SignaturePad.tsx";
import "../../../src/ui/look/tokens.css";
import "../../../src/ui/look/base.css";

declare global {
  interface Window {
    commit: () => void;
    /** where the finger was last, px from the left */
    heardAt?: number;
  }
}

/** A screen that keeps what is signed on it, for the tests: it shows what it holds and what it committed. */
function Signing() {
  const [strokes, setStrokes] = useState<Strokes>([]);
  const [committed, setCommitted] = useState<Strokes>();
  const [shown, setShown] = useState(true);
  const pad = useRef<SignaturePadHandle>(null);
  const commit = () => setCommitted(pad.current?.flush() ?? strokes);
  // As a timer or a released hold commits: nothing is pressed at that moment.
  useEffect(() => {
    window.commit = commit;
  });
  return (
    <main className="page">
      {shown && (
        <SignaturePad
          ref={pad}
          label="R. Tamsin, for the release"
          value={strokes}
          optional
          reach="glove"
          onChange={setStrokes}
        />
      )}
      <div className="row">
        <button type="button" className="button" onClick={commit}>
          Commit
        </button>
        <button type="button" className="button" onClick={() => setShown(!shown)}>
          Put the pad away or back
        </button>
      </div>
      <output id="held">{JSON.stringify(strokes)}</output>
      {committed && <DrawnSignature strokes={committed} name="R. Tamsin" />}
      <output id="committed">{JSON.stringify(committed ?? null)}</output>
    </main>
  );
}

const place = document.createElement("div");
document.body.append(place);
createRoot(place).render(<Signing />);
