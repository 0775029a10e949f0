import { useState } from "react";
import { makeBackup } from "../../jobs/pack/backup.ts";
import { handOver } from "../Packs/handOver.ts";
import { useStore } from "../storeContext.ts";
import { canKeepBackupFile, chooseBackupFile, resumeBackups } from "./backupFile.ts";
import { type BackupState, useBackup } from "./backupState.ts";

/** The backup that writes itself where the browser allows it, and one by hand everywhere. */
export function BackupSection() {
  const store = useStore();
  const backup = useBackup();
  const [said, setSaid] = useState("");
  const trying = (work: () => Promise<string>) => {
    setSaid("");
    work().then(setSaid, (error: unknown) =>
      setSaid(`The backup could not be made: ${(error as Error).message}.`),
    );
  };
  const byHand = async () => {
    const at = new Date().toISOString();
    const { text, exported } = await makeBackup(store, at);
    const name = `latchline-backup-${at.slice(0, 16).replace(":", "")}.json`;
    handOver(name, text);
    await store.markExported(exported);
    return `${name} handed to the browser's downloads.`;
  };
  return (
    <section aria-labelledby="storage-backup">
      <h2 id="storage-backup">Backup of everything on this tablet</h2>
      <p className={backup.is === "failed" || backup.is === "lapsed" ? "problem" : undefined}>
        {inWords(backup)}
      </p>
      <div className="row">
        {backup.is === "lapsed" && (
          <button
            type="button"
            className="button next"
            onClick={() => trying(() => resumeBackups(store).then(() => ""))}
          >
            Go on with the backups
          </button>
        )}
        {canKeepBackupFile() && (
          <button
            type="button"
            className="button"
            onClick={() => trying(() => chooseBackupFile(store).then(() => ""))}
          >
            {backup.is === "none" ? "Choose a file for backups" : "Choose another file"}
          </button>
        )}
        <button type="button" className="button" onClick={() => trying(byHand)}>
          Save a backup now
        </button>
      </div>
      {!canKeepBackupFile() && (
        <p className="small">
          This browser does not let a page write a file by itself: save a backup by hand, after each
          phase of a job at the latest.
        </p>
      )}
      {said && <p role="status">{said}</p>}
    </section>
  );
}

function inWords(backup: BackupState): string {
  switch (backup.is) {
    case "none":
      return "No file was chosen for backups that write themselves.";
    case "writing":
      return `Being written to ${backup.name}.`;
    case "written":
      return `Written to ${backup.name}, ${new Date(backup.at).toLocaleString()}. It follows every entry within half a minute.`;
    case "lapsed":
      return `Backups to ${backup.name} have stopped: the browser wants to be asked again before it writes there.`;
    case "failed":
      return `Not written to ${backup.name}: ${backup.why}. Everything is still on this tablet. Make room, or choose another file.`;
  }
}
