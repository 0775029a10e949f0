import { useEffect, useState } from "react";

/** The present instant, renewed every few seconds: ages of readings count on while nobody types. */
export function useNow(seconds = 15): string {
  const [now, setNow] = useState(() => new Date().toISOString());
  useEffect(() => {
    const timer = setInterval(() => setNow(new Date().toISOString()), seconds * 1000);
    const wake = () => setNow(new Date().toISOString());
    document.addEventListener("visibilitychange", wake);
    return () => {
      clearInterval(timer);
      document.removeEventListener("visibilitychange", wake);
    };
  }, [seconds]);
  return now;
}
