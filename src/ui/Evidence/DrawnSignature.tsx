import { pathOf, type Strokes, signatureFrame } from "../../jobs/signature.ts";
import "./DrawnSignature.css";

interface DrawnSignatureProps {
  readonly strokes: Strokes;
  /** whose it is */
  readonly name: string;
}

/** A signature as it was drawn, as large as the place it stands in is wide. */
export function DrawnSignature({ strokes, name }: DrawnSignatureProps) {
  return (
    <svg
      className="drawn-signature"
      viewBox={`0 0 ${signatureFrame.width} ${signatureFrame.height}`}
      role="img"
      aria-label={`Signature of ${name}`}
    >
      <path className="signature-line" d={pathOf(strokes)} />
    </svg>
  );
}
