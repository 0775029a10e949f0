import { makeBackup } from "../../jobs/pack/backup.ts";
import type { Store } from "../../jobs/store/store.ts";
import { writeWhole } from "../Packs/writeWhole.ts";
import { changeBackup } from "./backupState.ts";

/**
 * The backup that writes itself: a file that a person chose once, written again after entries. Only some browsers
 * let a page do that; elsewhere packs are saved by hand.
 */

/** The parts of the File System Access API that TypeScript's library leaves out. */
interface BackupFile extends FileSystemFileHandle {
  queryPermission(wanted: { mode: "readwrite" }): Promise<PermissionState>;
  requestPermission(wanted: { mode: "readwrite" }): Promise<PermissionState>;
}
interface Picker {
  showSaveFilePicker?(options: object): Promise<BackupFile>;
}

/** A little after an entry, so that several at once are one backup. */
const SOON_MS = 2_000;
/** Not more often than this, and not for more than a tenth of the time. */
const REST_MS = 15_000;
const REST_TIMES = 10;

let wanted = false;
let underWay: Promise<void> | undefined;
let restsUntil = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Something was written: the backup follows soon, if there is one. */
export function backUpSoon(store: Store): void {
  wanted = true;
  if (underWay || timer !== undefined) return;
  timer = setTimeout(
    () => {
      timer = undefined;
      void backUpNow(store);
    },
    Math.max(SOON_MS, restsUntil - Date.now()),
  );
}

/** Writes the backup; whoever asks while that is under way waits for it. */
export async function backUpNow(store: Store): Promise<void> {
  underWay ??= writeKept(store).finally(() => {
    underWay = undefined;
    if (wanted) backUpSoon(store);
  });
  await underWay;
}

async function writeKept(store: Store): Promise<void> {
  const file = (await store.backupFile().catch(() => undefined)) as BackupFile | undefined;
  wanted = false;
  if (!file) return;
  const { name } = file;
  if ((await file.queryPermission({ mode: "readwrite" })) !== "granted") {
    changeBackup({ is: "lapsed", name });
    return;
  }
  const start = Date.now();
  try {
    changeBackup({ is: "writing", name });
    const at = new Date().toISOString();
    const { text, exported } = await makeBackup(store, at);
    await writeWhole(file, text);
    await store.markExported(exported);
    changeBackup({ is: "written", name, at });
  } catch (error) {
    changeBackup({ is: "failed", name, why: String((error as Error).message ?? error) });
  }
  restsUntil = Date.now() + Math.max(REST_MS, REST_TIMES * (Date.now() - start));
}

export const canKeepBackupFile = (): boolean =>
  (window as unknown as Picker).showSaveFilePicker !== undefined;

/** A person says where backups go; only a tap may ask. */
export async function chooseBackupFile(store: Store): Promise<void> {
  const picker = window as unknown as Picker;
  let file: BackupFile | undefined;
  try {
    file = await picker.showSaveFilePicker?.({
      suggestedName: "latchline-backup.json",
      types: [{ description: "Latchline backup", accept: { "application/json": [".json"] } }],
    });
  } catch (error) {
    // The person closed the picker.
    if ((error as Error).name === "AbortError") return;
    throw error;
  }
  if (!file) return;
  await store.keepBackupFile(file);
  await backUpNow(store);
}

/** A person lets the page write again; only a tap may ask. */
export async function resumeBackups(store: Store): Promise<void> {
  const file = (await store.backupFile()) as BackupFile | undefined;
  if (!file) return;
  await file.requestPermission({ mode: "readwrite" });
  await backUpNow(store);
}
