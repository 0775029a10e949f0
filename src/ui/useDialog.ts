import { type RefObject, useEffect, useRef } from "react";

/** Opens a native dialog as modal when it appears; the browser keeps focus inside and gives it back. */
export function useDialog(): RefObject<HTMLDialogElement | null> {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (element && !element.open) element.showModal();
  }, []);
  return dialog;
}
