import { type RefObject, useLayoutEffect, useState } from "react";

/** Width of an element in pixels, followed; undefined until it stands on the page. */
export function useWidth(of: RefObject<HTMLElement | null>): number | undefined {
  const [width, setWidth] = useState<number>();
  useLayoutEffect(() => {
    const element = of.current;
    if (!element) return;
    const measure = () => setWidth(element.clientWidth);
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [of]);
  return width;
}
