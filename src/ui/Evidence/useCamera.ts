import { type RefObject, useEffect, useState } from "react";

export type CameraState =
  | { readonly is: "opening" | "open" }
  /** `why` is for the person, with the way out */
  | { readonly is: "closed"; readonly why: string };

const TYPE_IT = "or type what stands on the tag.";

const refusals: Readonly<Record<string, string>> = {
  NotAllowedError:
    "The camera is not allowed for this page. Allow it in the browser's settings for this page",
  NotFoundError: "No camera was found. Connect one",
  NotReadableError: "The camera did not start: another app may be using it. Close that app",
};

const whyNot = (error: unknown) =>
  (error instanceof DOMException && refusals[error.name]) ||
  `The camera did not start (${error}). Open it again`;

const stop = (stream: MediaStream | undefined) => {
  for (const track of stream?.getTracks() ?? []) track.stop();
};

/**
 * The rear camera on a video element, from when this is first rendered. It is closed when the part goes, when the page
 * goes out of sight, and when the tablet takes it away; `reopen` asks for it anew.
 *
 * @param otherwise what else the person can do, to end the sentence that says why there is no picture
 */
export function useCamera(
  video: RefObject<HTMLVideoElement | null>,
  otherwise = TYPE_IT,
): {
  readonly camera: CameraState;
  reopen(): void;
} {
  const [camera, setCamera] = useState<CameraState>({ is: "opening" });
  const [asked, setAsked] = useState(1);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the count is how often the camera was asked for
  useEffect(() => {
    let stream: MediaStream | undefined;
    let over = false;
    const leave = () => {
      over = true;
      stop(stream);
      if (video.current) video.current.srcObject = null;
    };
    const close = (why: string) => {
      if (over) return;
      leave();
      setCamera({ is: "closed", why });
    };
    const open = async () => {
      // Without https a page has no media devices, whatever the tablet has.
      const devices: MediaDevices | undefined = navigator.mediaDevices;
      if (!devices) {
        close(`A page may use the camera only over https. Open this one so, ${otherwise}`);
        return;
      }
      const got = await devices.getUserMedia({
        audio: false,
        // Narrow bars want more than the 640 px that some browsers give unasked.
        video: { facingMode: { ideal: "environment" }, width: { ideal: 1920 } },
      });
      // It may have been closed again while the person was being asked.
      if (over || !video.current) {
        stop(got);
        return;
      }
      stream = got;
      for (const track of got.getTracks()) {
        track.addEventListener("ended", () =>
          close(`The camera was taken away. Open it again, ${otherwise}`),
        );
      }
      video.current.srcObject = got;
      setCamera({ is: "open" });
    };
    const outOfSight = () => {
      if (document.hidden) close("The camera was closed while this page was out of sight.");
    };
    document.addEventListener("visibilitychange", outOfSight);
    open().catch((error: unknown) => close(`${whyNot(error)}, ${otherwise}`));
    return () => {
      document.removeEventListener("visibilitychange", outOfSight);
      leave();
    };
  }, [video, otherwise, asked]);
  return {
    camera,
    reopen: () => {
      setCamera({ is: "opening" });
      setAsked((times) => times + 1);
    },
  };
}
