import { useState } from "react";
import { Link, useLocation } from "wouter";
import { kindNames, type LibraryKind } from "../../jobs/library/entry.ts";
import { type Namer, namersOf } from "../../jobs/library/removal.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { placeOf } from "./placeOf.ts";
import { useLibraryIndex } from "./useLibraryIndex.ts";
import "./Library.css";

/** As many as are read; the rest is counted. */
const MOST = 12;

interface RemovalProps {
  readonly kind: LibraryKind;
  readonly id: string;
  readonly name: string;
}

/** A record leaves the library once nothing names it any more. */
export function Removal({ kind, id, name }: RemovalProps) {
  const store = useStore();
  const index = useLibraryIndex();
  const [, navigate] = useLocation();
  const [namers, setNamers] = useState<readonly Namer[]>();
  const [looking, setLooking] = useState(false);
  const [problem, setProblem] = useState("");

  const lookUp = async () => {
    const [library, { places }] = await Promise.all([
      store.recordsFor({
        jobs: "all",
        ...(kind === "tools" && { whole: ["strings"] }),
        ...(kind === "wells" && { investigationsOf: [id] }),
      }),
      index.upToDate(),
    ]);
    const found = namersOf(kind, id, library, places);
    setNamers(found);
    return found;
  };
  const tried = async (work: () => Promise<unknown>) => {
    setLooking(true);
    setProblem("");
    try {
      await work();
    } catch (error) {
      setProblem(notSaved(error));
    }
    setLooking(false);
  };
  const remove = () =>
    tried(async () => {
      // Something may name it since it was looked up.
      if ((await lookUp()).length > 0) return;
      await store.remove({ [kind]: [id] });
      navigate(`/library/${kind}`, { replace: true });
    });

  return (
    <section className="removal" aria-live="polite">
      {namers === undefined && (
        <button
          type="button"
          className="button quiet"
          disabled={looking}
          onClick={() => void tried(lookUp)}
        >
          {looking ? "Looking what names it…" : "Take it out of the library"}
        </button>
      )}
      {namers?.length === 0 && (
        <HoldButton
          label={`Take ${name} out of the library`}
          consequence={`Nothing names this ${kindNames[kind].one}. Its record is gone; what logs of jobs say of it stays.`}
          aside
          disabled={looking}
          onHeld={() => void remove()}
        />
      )}
      {namers && namers.length > 0 && (
        <div className="problem">
          <p>{name} cannot be taken out of the library: it is named by</p>
          <ul>
            {namers.slice(0, MOST).map((namer) => (
              <li key={`${namer.kind} ${namer.id} ${namer.says}`}>
                <Link href={leadsTo(namer)}>{namer.says}</Link>
              </li>
            ))}
            {namers.length > MOST && <li>and {namers.length - MOST} more</li>}
          </ul>
        </div>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}

function leadsTo(namer: Namer): string {
  if (namer.kind === "jobs") return placeOf(namer);
  if (namer.kind === "investigations") return `/wells/${namer.well}/fault`;
  return `/edit/${namer.kind}/${namer.id}`;
}
