import { useEffect, useState } from "react";
import type { Copy } from "../../jobs/store/store.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { askToKeepStored, useAppState } from "../offline/updates.ts";
import { SavePack } from "../Packs/SavePack.tsx";
import { useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { BackupSection } from "./BackupSection.tsx";
import { BringIn } from "./BringIn.tsx";
import { BrokenLogs } from "./BrokenLogs.tsx";
import { ComparedList } from "./ComparedList.tsx";
import { rememberOnly } from "./marker.ts";
import { RemoveClosed } from "./RemoveClosed.tsx";
import { inWords, isNearlyFull } from "./room.ts";
import { saveCopy } from "./saveCopy.ts";
import { useGone, useOnlyHere, useRoom } from "./useEvidence.ts";
import "./Storage.css";

/** Where what is entered lies, what of it lies nowhere else, and the ways to have it twice. */
export default function StorageScreen() {
  return (
    <>
      <TopBar title="Storage" />
      <main className="page storage">
        <Gone />
        <OnlyHereSection />
        <BackupSection />
        <RoomSection />
        <RemoveClosed />
        <BringInSection />
      </main>
    </>
  );
}

function Gone() {
  const store = useStore();
  const gone = useGone();
  const [forgotten, setForgotten] = useState(false);
  if (gone.length === 0 || forgotten) return null;
  const forget = async () => {
    await rememberOnly(store);
    setForgotten(true);
  };
  return (
    <section aria-labelledby="storage-gone">
      <h2 id="storage-gone">Held before and not whole now</h2>
      <ComparedList of={gone} />
      <HoldButton
        label="Give up what is missing"
        consequence="This tablet stops reminding of it. A pack or backup that has it can still be brought in."
        aside
        onHeld={() => void forget()}
      />
    </section>
  );
}

function OnlyHereSection() {
  const jobs = useOnlyHere();
  return (
    <section aria-labelledby="storage-only">
      <h2 id="storage-only">On this tablet only</h2>
      {jobs.length === 0 ? (
        <p>Nothing: all that was entered here has left in a pack or a backup.</p>
      ) : (
        <ul className="storage-jobs">
          {jobs.map(({ job, name, count, since }) => (
            <li key={job} className="row">
              <span>
                <strong>{name}</strong>: {count} {count === 1 ? "entry" : "entries"}
                {since
                  ? ` since a file was saved ${new Date(since).toLocaleString()}.`
                  : ", never saved in a file."}
              </span>
              <SavePack job={job} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function RoomSection() {
  const { mayBeCleared } = useAppState();
  const room = useRoom();
  const [asked, setAsked] = useState(false);
  const ask = async () => {
    await askToKeepStored();
    setAsked(true);
  };
  return (
    <section aria-labelledby="storage-room">
      <h2 id="storage-room">Room on this tablet</h2>
      {room && (
        <p className={isNearlyFull(room) ? "problem" : undefined}>
          {inWords(room.used)} of {inWords(room.quota)} used.
          {isNearlyFull(room) &&
            " Nearly full: save packs of closed jobs, then remove those jobs below."}
        </p>
      )}
      {mayBeCleared ? (
        <>
          <p>
            The browser has not promised to keep what is entered here when the tablet runs full.
            Installed from the browser's menu, an app is mostly promised it.
          </p>
          <div className="row">
            <button type="button" className="button" onClick={() => void ask()}>
              Ask the browser to keep it
            </button>
            {asked && <span role="status">The browser said no. Save packs, keep a backup.</span>}
          </div>
        </>
      ) : (
        <p>The browser has promised to keep what is entered here.</p>
      )}
    </section>
  );
}

function BringInSection() {
  const store = useStore();
  const [brought, setBrought] = useState("");
  const [broken, setBroken] = useState<readonly string[]>([]);
  const [copies, setCopies] = useState<readonly Copy[]>([]);
  const [problem, setProblem] = useState("");
  // Read again when something was brought in: a copy was put aside then.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `brought` is the sign for it
  useEffect(() => {
    store.copies().then(setCopies, () => {});
  }, [store, brought]);
  const save = async (copy: Copy) => {
    try {
      setProblem("");
      await saveCopy(store, copy);
    } catch (error) {
      setProblem(`The copy could not be saved: ${(error as Error).message}.`);
    }
  };
  return (
    <section aria-labelledby="storage-bring">
      <h2 id="storage-bring">Bring in a backup</h2>
      <p>
        Logs are joined and nothing of either is lost; a record that is here and differs stays as it
        is here. What is here now is put aside first.
      </p>
      <div className="row">
        <BringIn
          label="Choose a backup"
          onBrought={(file, notWhole) => {
            setBrought(`${file} is brought in, ${new Date().toLocaleString()}.`);
            setBroken(notWhole);
          }}
        />
        {brought && <span role="status">{brought}</span>}
      </div>
      <BrokenLogs says={broken} />
      {copies.length > 0 && (
        <>
          <h3>Put aside on this tablet</h3>
          <ul className="storage-copies">
            {copies.map((copy) => (
              <li key={copy.made} className="row">
                <span>
                  {new Date(copy.made).toLocaleString()}, {copy.why}: {copy.records.jobs.length}{" "}
                  jobs, {copy.events.length} events
                </span>
                <button type="button" className="button" onClick={() => void save(copy)}>
                  Save this copy as a file
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}
