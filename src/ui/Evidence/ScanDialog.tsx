import { useEffect, useId, useRef } from "react";
import { useDialog } from "../useDialog.ts";
import type { Reach } from "./reach.ts";
import { type CameraState, useCamera } from "./useCamera.ts";
import { type Codes, useCodes } from "./useCodes.ts";
import "./reach.css";
import "./ScanDialog.css";

interface ScanDialogProps {
  /** what the code gives, as in "Scan the serial" */
  readonly what: string;
  readonly reach: Reach;
  readonly onRead: (text: string) => void;
  readonly onClose: () => void;
}

/** The camera looks for a code, and what it read stands there large until the person takes it: nothing else does. */
export default function ScanDialog({ what, reach, onRead, onClose }: ScanDialogProps) {
  const title = useId();
  const dialog = useDialog();
  const video = useRef<HTMLVideoElement>(null);
  const { camera, reopen } = useCamera(video);
  const isOpen = camera.is === "open";
  const { found, again } = useCodes(video, isOpen);
  const isStill = isOpen && found.is !== "looking";
  useEffect(() => {
    if (!isOpen || !video.current) return;
    // The picture that was read stands still, so that it can be seen whose tag it was.
    if (isStill) video.current.pause();
    else video.current.play().catch(ignoreLeaving);
  }, [isOpen, isStill]);
  // Closed and not just taken off the page: the browser then gives the focus back to the button beside the field.
  const close = () => dialog.current?.close();
  const take = (code: string) => {
    onRead(code);
    close();
  };
  const codes = isOpen && found.is === "read" ? found.codes : [];
  return (
    <dialog
      ref={dialog}
      className="scan"
      data-reach={reach}
      aria-labelledby={title}
      onClose={onClose}
    >
      <h2 id={title}>Scan the {what}</h2>
      <video
        ref={video}
        className="scan-picture"
        hidden={camera.is === "closed"}
        muted
        playsInline
        aria-label="What the camera sees"
      />
      <p role="status" className={camera.is === "closed" ? "problem" : undefined}>
        {wordsOf(camera, found, what)}
      </p>
      {codes.map((code) => (
        <div key={code} className="scan-code">
          <p className="scan-text">{code}</p>
          <button type="button" className="button next" onClick={() => take(code)}>
            Take {code}
          </button>
        </div>
      ))}
      <div className="scan-acts">
        {camera.is === "closed" && (
          <button type="button" className="button" onClick={reopen}>
            Open the camera again
          </button>
        )}
        {isStill && (
          <button type="button" className="button" onClick={again}>
            Read again
          </button>
        )}
        <button type="button" className="button" onClick={close}>
          Type it instead
        </button>
      </div>
    </dialog>
  );
}

/** Playing was begun and the dialog closed before it did: there is nothing to do about it. */
const ignoreLeaving = () => {};

function wordsOf(camera: CameraState, found: Codes, what: string): string {
  if (camera.is === "closed") return camera.why;
  if (camera.is === "opening")
    return "Opening the camera. It may ask whether this page is allowed to.";
  if (found.is === "unable") {
    return "The browser does not read codes from this camera. Read again, or type what stands on the tag.";
  }
  if (found.is === "looking") return "Hold the tag so that its code lies across the whole picture.";
  const [code, ...others] = found.codes;
  return others.length === 0
    ? `Read: ${code}. Compare it with the tag before you take it.`
    : `${found.codes.length} codes are on the picture. Take the one that is the ${what}.`;
}
