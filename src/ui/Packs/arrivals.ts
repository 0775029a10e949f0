import { useSyncExternalStore } from "react";

/** Files that came to the app by themselves and wait to be looked at: dropped, opened with it, or shared. */
let waiting: readonly File[] = [];
const listeners = new Set<() => void>();

function change(files: readonly File[]) {
  waiting = files;
  for (const listener of listeners) listener();
}

/** They come after those that wait. */
export const arrive = (files: readonly File[]) => {
  if (files.length > 0) change([...waiting, ...files]);
};

/** Somebody lets go of these now: they are what is wanted, in the place of whatever waits. */
export const arriveInstead = (files: readonly File[]) => change(files);

/** The first one has been looked at. */
export const leave = () => change(waiting.slice(1));

export const useArrivals = (): readonly File[] =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => waiting,
  );

/** The part of the File Handling API that TypeScript's library leaves out. */
interface Launched {
  readonly files: readonly FileSystemFileHandle[];
}
interface LaunchQueue {
  setConsumer(consumer: (launched: Launched) => void): void;
}

/** Files that the system opens with the installed app. */
export function takeLaunched(onProblem: (says: string) => void): void {
  const { launchQueue } = window as unknown as { readonly launchQueue?: LaunchQueue };
  launchQueue?.setConsumer(({ files }) => {
    Promise.all(files.map((handle) => handle.getFile())).then(arrive, (error: Error) =>
      onProblem(`The file that was opened could not be read: ${error.message}. Import it here.`),
    );
  });
}
