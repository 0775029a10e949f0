import { useState } from "react";
import { type Compared, compared, type Held } from "../../jobs/store/held.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { changeSettings } from "../settings.ts";
import { useStore } from "../storeContext.ts";
import { BringIn } from "./BringIn.tsx";
import { BrokenLogs } from "./BrokenLogs.tsx";
import { ComparedList } from "./ComparedList.tsx";
import { rememberOnly, writeHeld } from "./marker.ts";
import "./Storage.css";

interface EmptiedProps {
  /** what the tablet held when it was last known */
  readonly held: Held;
  readonly onDone: () => void;
}

/** The store is empty and was not always: what is gone, and the way back. Nothing starts afresh by itself. */
export default function Emptied({ held, onDone }: EmptiedProps) {
  const store = useStore();
  const [files, setFiles] = useState<readonly string[]>([]);
  const [broken, setBroken] = useState<readonly string[]>([]);
  const [found, setFound] = useState<readonly Compared[]>();

  const look = async (file: string, notWhole: readonly string[]) => {
    setFiles([...files, file]);
    setBroken([...broken, ...notWhole]);
    setFound(compared(held, await store.recordsFor({ jobs: "all" }), await store.allEvents()));
  };
  const isWhole = found?.every(({ is }) => is === "the same" || is === "further") ?? false;
  const goOn = async () => {
    if (isWhole) await rememberOnly(store);
    changeSettings({ demonstrated: true });
    onDone();
  };
  const startEmpty = () => {
    writeHeld({ at: new Date().toISOString(), jobs: [] });
    changeSettings({ demonstrated: true });
    onDone();
  };

  if (!found) {
    const gone = held.jobs.map((job): Compared => ({ held: job, is: "not here", missing: 0 }));
    return (
      <main className="page storage">
        <h1>This tablet's store is empty, and it was not before</h1>
        <p role="alert">
          The browser has lost or cleared what Latchline kept here. Last known at{" "}
          {new Date(held.at).toLocaleString()}, it held:
        </p>
        <ComparedList of={gone} />
        <p>
          If there is a backup or a pack, bring it in now. It is checked whole before anything of it
          is written.
        </p>
        <div className="row">
          <BringIn
            label="Bring in the backup"
            next
            onBrought={(...brought) => void look(...brought)}
          />
        </div>
        <HoldButton
          label="Start with an empty tablet"
          consequence="The jobs named above are given up on this tablet. Their packs can still be imported later."
          aside
          onHeld={startEmpty}
        />
      </main>
    );
  }
  return (
    <main className="page storage">
      <h1>Brought in</h1>
      <p role="status">
        {files.join(", ")} {files.length === 1 ? "is" : "are"} written. Beside what this tablet held
        before:
      </p>
      <ComparedList of={found} />
      <BrokenLogs says={broken} />
      <div className="row">
        <button
          type="button"
          className={isWhole ? "button next" : "button"}
          onClick={() => void goOn()}
        >
          Go to the board
        </button>
        {!isWhole && (
          <BringIn
            label="Bring in another file"
            next
            onBrought={(...brought) => void look(...brought)}
          />
        )}
      </div>
      {!isWhole && (
        <p className="small">What is missing stays on the board as a reminder until it is here.</p>
      )}
    </main>
  );
}
