import { useEffect, useState } from "react";

/**
 * Keeps the screen on while it is wanted, where the browser can.
 *
 * @returns whether it is kept on
 */
export function useAwake(wanted: boolean): boolean {
  const [isKept, setKept] = useState(false);
  useEffect(() => {
    if (!wanted) return;
    let over = false;
    let lock: WakeLockSentinel | undefined;
    const ask = async () => {
      if (document.hidden) return;
      // Safari before 16.4 has none.
      const wakeLock: WakeLock | undefined = navigator.wakeLock;
      const got = await wakeLock?.request("screen").catch(() => undefined);
      if (over) void got?.release();
      else {
        lock = got;
        setKept(got !== undefined);
      }
    };
    // The browser lets go of it whenever the page goes out of sight.
    document.addEventListener("visibilitychange", ask);
    void ask();
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
      setKept(false);
    };
  }, [wanted]);
  return isKept;
}
