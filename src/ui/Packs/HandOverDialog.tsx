import { useEffect, useState } from "react";
import { createPortal } from "react-dom";
import { type PackOf, type Prepared, preparePack } from "../../jobs/pack/prepared.ts";
import { useStore } from "../storeContext.ts";
import { useDialog } from "../useDialog.ts";
import { inSize } from "./inSize.ts";
import { LockFields } from "./LockFields.tsx";
import { leaveBy, type Way, waysHere } from "./ways.ts";
import "./Packs.css";

export interface HandOverProps {
  readonly of: PackOf;
  readonly onClose: () => void;
}

const wayWords: Readonly<Record<Way, string>> = {
  download: "Download",
  share: "Share…",
  file: "Save in a folder…",
};

/** Hands a pack over: by download, share sheet or into a folder, locked with a passphrase if it is wanted. */
export function HandOverDialog({ of, onClose }: HandOverProps) {
  const store = useStore();
  const dialog = useDialog();
  const [prepared, setPrepared] = useState<Prepared>();
  const [locking, setLocking] = useState(false);
  const [locked, setLocked] = useState<string>();
  const [said, setSaid] = useState("");
  const [problem, setProblem] = useState("");
  const [leaving, setLeaving] = useState(false);
  const [wholeDay, setWholeDay] = useState<string>();
  const job = "job" in of ? of.job : undefined;
  const day = "day" in of ? of.day : wholeDay;

  // Made before it is asked for: a browser opens its share sheet and its pickers only right after a tap.
  useEffect(() => {
    let current = true;
    const wanted: PackOf = day === undefined ? { job: job ?? "" } : { day };
    preparePack(store, wanted, new Date().toISOString()).then(
      (pack) => current && setPrepared(pack),
      (error: Error) => current && setProblem(`The pack could not be made: ${error.message}.`),
    );
    return () => {
      current = false;
    };
  }, [store, job, day]);

  const take = (whole: string | undefined) => {
    setPrepared(undefined);
    setLocked(undefined);
    setSaid("");
    setProblem("");
    setWholeDay(whole);
  };

  /** That it left is known only to remind of what did not: the file is out all the same. */
  const noted = (pack: Prepared) =>
    store
      .markExported(pack.exported)
      .catch((error: Error) =>
        setProblem(
          `The file is out, but this tablet could not note that: ${error.message}. It will go on saying that the log was never saved.`,
        ),
      );

  const leave = async (way: Way, pack: Prepared) => {
    setSaid("");
    setProblem("");
    setLeaving(true);
    try {
      const done = await leaveBy(way, { name: pack.name, text: locked ?? pack.text });
      setSaid(
        done ?? "Nothing was handed over: you closed the choice. Choose again when you are ready.",
      );
      if (done) await noted(pack);
    } catch (error) {
      setProblem(
        `Not handed over: ${(error as Error).message}. Everything is still on this tablet. Try another way.`,
      );
    }
    setLeaving(false);
  };

  const ready = prepared && (!locking || locked !== undefined);
  return createPortal(
    <dialog ref={dialog} onClose={onClose} aria-labelledby="hand-over-title">
      <div className="pack-dialog">
        <h2 id="hand-over-title">
          {day === undefined ? "Hand over this job" : `Hand over the day, ${day}`}
        </h2>
        {!prepared && !problem && <p role="status">The pack is being put together…</p>}
        {prepared && (
          <>
            {job !== undefined && prepared.jobsOfDay > 1 && (
              <fieldset className="row">
                <legend className="hidden-label">What goes into the file</legend>
                <label className="pack-check">
                  <input
                    type="radio"
                    name="pack-of"
                    checked={day === undefined}
                    onChange={() => take(undefined)}
                  />
                  This job
                </label>
                <label className="pack-check">
                  <input
                    type="radio"
                    name="pack-of"
                    checked={day !== undefined}
                    onChange={() => take(prepared.day)}
                  />
                  All {prepared.jobsOfDay} jobs of {prepared.day}
                </label>
              </fieldset>
            )}
            <p className="pack-wrap">
              <strong>{prepared.name}</strong>, {inSize(locked?.length ?? prepared.text.length)}:{" "}
              {contents(prepared)}. Everything another tablet needs to work without network.
            </p>
            <LockFields
              text={prepared.text}
              locking={locking}
              locked={locked !== undefined}
              onLocking={(wants) => {
                setLocking(wants);
                setLocked(undefined);
                setSaid("");
              }}
              onLocked={setLocked}
            />
          </>
        )}
        {problem && (
          <p className="problem pack-wrap" role="alert">
            {problem}
          </p>
        )}
        {said && (
          <p className="pack-wrap" role="status">
            {said}
          </p>
        )}
        <div className="row">
          {ready &&
            waysHere().map((way) => (
              <button
                key={way}
                type="button"
                className={way === "download" ? "button next" : "button"}
                disabled={leaving}
                onClick={() => void leave(way, prepared)}
              >
                {wayWords[way]}
              </button>
            ))}
          <button type="button" className="button quiet" onClick={onClose}>
            Close
          </button>
        </div>
      </div>
    </dialog>,
    document.body,
  );
}

function contents({ jobs, records, events, pictures }: Prepared): string {
  const count = (number: number, one: string) => `${number} ${one}${number === 1 ? "" : "s"}`;
  return [
    count(jobs, "job"),
    count(records, "record"),
    `${count(events, "event")} of the logs`,
    count(pictures, "picture"),
  ].join(", ");
}
