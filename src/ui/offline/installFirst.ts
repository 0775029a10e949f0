/**
 * Whether Latchline has to be installed before it takes a job. On iOS and iPadOS a browser's tab and the installed
 * app keep separate stores, and a tab's is emptied after a week without use: a job taken in a tab would not be in the
 * app, and not for long in the tab.
 */
export function mustBeInstalledFirst(
  { userAgent, maxTouchPoints, standalone }: Tablet = navigator as Tablet,
): boolean {
  // An iPad says that it is a Mac; no Mac has a touch screen.
  const isIos =
    /iPad|iPhone|iPod/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1);
  return isIos && standalone !== true;
}

/** What a browser says of itself; `standalone` is of iOS alone. */
interface Tablet {
  readonly userAgent: string;
  readonly maxTouchPoints: number;
  readonly standalone?: boolean;
}
