import { type Ref, useId, useImperativeHandle } from "react";
import {
  isSignature,
  mostStrokes,
  pathOf,
  type Strokes,
  signatureFrame,
  signatureRule,
} from "../../jobs/signature.ts";
import type { Reach } from "./reach.ts";
import { useDrawing } from "./useDrawing.ts";
import "./DrawnSignature.css";
import "./reach.css";
import "./SignaturePad.css";

export interface SignaturePadHandle {
  /** Ends a stroke that is still being drawn. @returns the strokes that stand then: what to commit */
  flush(): Strokes;
}

interface SignaturePadProps {
  readonly ref?: Ref<SignaturePadHandle>;
  /** who signs, for what: "R. Tamsin, for the release" */
  readonly label: string;
  readonly value: Strokes;
  /**
   * The name that is typed beside the pad counts without a drawing. Where it does not, who has only a keyboard cannot
   * sign.
   */
  readonly optional?: boolean;
  readonly reach?: Reach;
  /** at the end of every stroke, and when one is taken back */
  readonly onChange: (strokes: Strokes) => void;
}

/** A pad to sign on with a gloved finger or a pen. The strokes are the caller's, so that they outlive the pad. */
export default function SignaturePad({
  ref,
  label,
  value,
  optional = false,
  reach = "office",
  onChange,
}: SignaturePadProps) {
  const id = useId();
  const { live, flush, surface, handlers } = useDrawing(value, onChange);
  useImperativeHandle(ref, () => ({ flush }), [flush]);
  const drawing = live.length > 0;
  const empty = value.length === 0;
  const says = drawing ? "" : wordsOf(value, optional);
  return (
    <fieldset className="signature-pad" data-reach={reach} aria-describedby={`${id}-says`}>
      <legend>
        Signature: {label}
        {optional && <span className="soft"> (may stay empty)</span>}
      </legend>
      <div className="signature-frame">
        <svg
          ref={surface}
          className="signature-surface"
          viewBox={`0 0 ${signatureFrame.width} ${signatureFrame.height}`}
          role="img"
          aria-label={empty ? "Empty pad" : `Drawn in ${strokesInWords(value.length)}`}
          {...handlers}
        >
          <path className="signature-rule" d={`M24 152H${signatureFrame.width - 24}`} />
          <path className="signature-line" d={pathOf(drawing ? [...value, [...live]] : value)} />
        </svg>
      </div>
      <p id={`${id}-says`} className="signature-says" role="status">
        {says}
      </p>
      <div className="signature-acts">
        <button
          type="button"
          className="button"
          disabled={empty}
          onClick={() => onChange(flush().slice(0, -1))}
        >
          Take back the last stroke
        </button>
        <button type="button" className="button" disabled={empty} onClick={() => onChange([])}>
          Clear the pad
        </button>
      </div>
    </fieldset>
  );
}

const strokesInWords = (count: number) => (count === 1 ? "one stroke" : `${count} strokes`);

function wordsOf(value: Strokes, optional: boolean): string {
  if (value.length >= mostStrokes) {
    return `The pad holds ${mostStrokes} strokes and no more: take some back, or clear it.`;
  }
  if (value.length > 0) {
    return isSignature(value)
      ? `Drawn in ${strokesInWords(value.length)}.`
      : `Not a signature yet. ${signatureRule}`;
  }
  return optional
    ? "Draw with a finger or a pen. The name that is typed counts without it."
    : "Draw with a finger or a pen.";
}
