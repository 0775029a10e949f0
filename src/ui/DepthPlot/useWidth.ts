import { useCallback, useState } from "react";

/** Width of an element in pixels, followed from when it stands on the page; undefined until then. */
export function useWidth() {
  const [width, setWidth] = useState<number>();
  const of = useCallback((element: HTMLElement | null) => {
    if (!element) return;
    const measure = () => setWidth(element.clientWidth);
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [of, width] as const;
}
