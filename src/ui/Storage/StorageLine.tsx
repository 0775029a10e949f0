import { Link } from "wouter";
import { useAppState } from "../offline/updates.ts";
import { useBackup } from "./backupState.ts";
import "./Storage.css";
import { inWords, isNearlyFull } from "./room.ts";
import { useGone, useOnlyHere, useRoom } from "./useEvidence.ts";

/** How what is entered is kept, in one line; and what somebody has to do about it, when there is something. */
export function StorageLine() {
  const { kept, problem, mayBeCleared } = useAppState();
  const backup = useBackup();
  const room = useRoom();
  const gone = useGone();
  const count = useOnlyHere().reduce((sum, each) => sum + each.count, 0);
  return (
    <>
      <p className="small soft" role="status">
        {problem ??
          (kept
            ? "Kept on this tablet: works without network."
            : "Being kept on this tablet. Stay on the network until it says so.")}{" "}
        {mayBeCleared && "Not promised to be kept when the tablet runs full. "}
        {count > 0 &&
          `${count} ${count === 1 ? "entry is" : "entries are"} on this tablet only, in no pack or backup. `}
        {backup.is === "written" && `Backup in ${backup.name}. `}
        <Link href="/storage" className="storage-link">
          Storage
        </Link>
      </p>
      {room && isNearlyFull(room) && (
        <p className="problem">
          This tablet's storage is nearly full: {inWords(room.used)} of {inWords(room.quota)} used.
          Save packs of closed jobs, then remove those jobs under{" "}
          <Link href="/storage">Storage</Link>.
        </p>
      )}
      {backup.is === "failed" && (
        <p className="problem" role="alert">
          The backup was not written to {backup.name}: {backup.why}. Everything is still on this
          tablet. See <Link href="/storage">Storage</Link>.
        </p>
      )}
      {backup.is === "lapsed" && (
        <p className="problem">
          Backups to {backup.name} have stopped: the browser wants to be asked again. One tap under{" "}
          <Link href="/storage">Storage</Link>.
        </p>
      )}
      {gone.length > 0 && (
        <p className="problem" role="alert">
          {gone.map(({ held }) => held.name).join("; ")}: held by this tablet before and not whole
          here now. See <Link href="/storage">Storage</Link>.
        </p>
      )}
    </>
  );
}
