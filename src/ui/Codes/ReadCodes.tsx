import { lazy, Suspense, useCallback, useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import { type Added, Gathering } from "../../jobs/codes/gathering.ts";
import { useCamera } from "../Evidence/useCamera.ts";
import { InstallFirst } from "../offline/InstallFirst.tsx";
import { mustBeInstalledFirst } from "../offline/installFirst.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { Gathered } from "./Gathered.tsx";
import { useAwake } from "./useAwake.ts";
import { useLooking } from "./useLooking.ts";

const PackDialog = lazy(() => import("../Packs/PackDialog.tsx"));

const OTHERWISE = "or bring the job over as a pack: a file by cable, card or network.";

/** Reads a job off another tablet's screen and hands it to the same import as any pack. */
export function ReadCodes() {
  const [file, setFile] = useState<File>();
  const [isImporting, setImporting] = useState(false);
  const [times, setTimes] = useState(1);
  const take = useCallback((read: File) => {
    setFile(read);
    setImporting(true);
  }, []);
  const again = () => {
    setFile(undefined);
    setTimes(times + 1);
  };
  return (
    <>
      <TopBar title="Read codes" />
      <main className="page codes-page">
        {mustBeInstalledFirst() ? (
          <InstallFirst />
        ) : file ? (
          <section className="codes-all-read">
            <p role="status">All codes were read, and their checksum holds.</p>
            <div className="row">
              <button type="button" className="button next" onClick={() => setImporting(true)}>
                Look at what they bring
              </button>
              <button type="button" className="button" onClick={again}>
                Read another job
              </button>
              <Link href="/" className="button">
                Back to the board
              </Link>
            </div>
          </section>
        ) : (
          <Reading key={times} onRead={take} onAgain={again} />
        )}
        {file && isImporting && (
          <Suspense>
            <PackDialog given={file} onClose={() => setImporting(false)} />
          </Suspense>
        )}
      </main>
    </>
  );
}

interface ReadingProps {
  readonly onRead: (file: File) => void;
  /** asks to forget what was read and begin with whatever comes next */
  readonly onAgain: () => void;
}

interface Progress {
  readonly name: string;
  readonly count: number;
  readonly missing: readonly number[];
}

function Reading({ onRead, onAgain }: ReadingProps) {
  const video = useRef<HTMLVideoElement>(null);
  const { camera, reopen } = useCamera(video, OTHERWISE);
  const isOpen = camera.is === "open";
  const [gathering] = useState(() => new Gathering());
  const [progress, setProgress] = useState<Progress>();
  const [last, setLast] = useState<Added>();
  useAwake(isOpen);
  useEffect(() => {
    if (isOpen) video.current?.play().catch(ignoreLeaving);
  }, [isOpen]);
  const onCode = useCallback(
    (code: string) => {
      const added = gathering.add(code);
      setLast((before) => (before && alike(before, added) ? before : added));
      if (added.is !== "new" && added.is !== "spoilt") return;
      const { name, count, missing, text } = gathering;
      setProgress(name !== undefined && count !== undefined ? { name, count, missing } : undefined);
      if (text !== undefined) {
        onRead(new File([text], `codes ${name}.json`, { type: "application/json" }));
      }
    },
    [gathering, onRead],
  );
  const isStuck = useStuck(isOpen, progress?.missing.length);
  const isUnable = useLooking(video, isOpen, onCode);
  return (
    <section className="codes-reading">
      <div className="codes-seen" hidden={camera.is === "closed"}>
        <video ref={video} muted playsInline aria-label="What the camera sees" />
      </div>
      <div className="codes-controls">
        {camera.is === "closed" ? (
          <>
            <p className="problem" role="status">
              {camera.why}
              {progress && " What was read already is kept on this screen."}
            </p>
            <button type="button" className="button next" onClick={reopen}>
              Open the camera again
            </button>
          </>
        ) : (
          <p className="codes-lead" role="status">
            {camera.is === "opening"
              ? "Opening the camera. It may ask whether this page is allowed to."
              : "Hold the camera so that the code on the other tablet fills the square, and keep it still."}
          </p>
        )}
        {isUnable && (
          <p className="problem" role="alert">
            The camera's picture cannot be read here. Open this screen again, {OTHERWISE}
          </p>
        )}
        {progress && (
          <>
            <p>Transfer {progress.name}. It is the one if the other screen shows the same.</p>
            <Gathered count={progress.count} missing={progress.missing} />
          </>
        )}
        <Heard last={last} onAgain={onAgain} />
        {isStuck && (
          <p role="status">
            Nothing new for a while. Come nearer, hold straight and out of the glare; on the other
            tablet play slower, choose coarse codes, or show only those that are missing.
          </p>
        )}
        {!progress && (
          <p>
            On the other tablet open the job's brief, then its codes. No network and no cable are
            needed.
          </p>
        )}
        <Link href="/" className="button">
          Back to the board
        </Link>
      </div>
    </section>
  );
}

/** ms without a new code after which a hand wants advice */
const A_WHILE = 8000;

/** Whether the camera has been open for a while and what is missing stayed the same. */
function useStuck(isOpen: boolean, missing: number | undefined): boolean {
  const [isStuck, setStuck] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the while begins anew with each new code
  useEffect(() => {
    if (!isOpen) return;
    const timer = setTimeout(() => setStuck(true), A_WHILE);
    return () => {
      clearTimeout(timer);
      setStuck(false);
    };
  }, [isOpen, missing]);
  return isStuck;
}

/** Playing was begun and the screen left before it did: there is nothing to do about it. */
const ignoreLeaving = () => {};

const alike = (one: Added, other: Added) =>
  one.is === other.is && JSON.stringify(one) === JSON.stringify(other);

interface HeardProps {
  readonly last: Added | undefined;
  readonly onAgain: () => void;
}

/** What is wrong with the code that was read last. */
function Heard({ last, onAgain }: HeardProps) {
  switch (last?.is) {
    case "foreign":
      return (
        <p role="status">The code in the picture is not one of Latchline's. It is left out.</p>
      );
    case "damaged":
      return <p role="status">A code was read badly and left out. It comes round again.</p>;
    case "newer":
      return (
        <p className="problem" role="alert">
          These codes are made by a newer Latchline. Update this tablet, {OTHERWISE}
        </p>
      );
    case "spoilt":
      return (
        <p className="problem" role="alert">
          {last.why}
        </p>
      );
    case "other transfer":
      return (
        <>
          <p className="problem" role="alert">
            The code in the picture is of another transfer, {last.name}. It is left out.
          </p>
          <button type="button" className="button" onClick={onAgain}>
            Forget what was read, begin with {last.name}
          </button>
        </>
      );
    default:
      return null;
  }
}
