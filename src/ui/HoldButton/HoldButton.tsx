import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import "./HoldButton.css";

const HOLD_MS = 1000;

interface HoldButtonProps {
  /** what pressing does, as a verb */
  readonly label: string;
  /** what follows from it, in words: it stands under the label */
  readonly consequence: string;
  readonly disabled?: boolean;
  /** final, but not what comes next */
  readonly aside?: boolean;
  readonly onHeld: () => void;
}

/** A final act: pressed and held for a second, with its consequence in words. No dialog asks again. */
export function HoldButton({
  label,
  consequence,
  disabled = false,
  aside = false,
  onHeld,
}: HoldButtonProps) {
  const [holding, setHolding] = useState(false);
  const [short, setShort] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);
  const begin = () => {
    if (disabled || holding) return;
    setHolding(true);
    setShort(false);
    timer.current = setTimeout(() => {
      setHolding(false);
      onHeld();
    }, HOLD_MS);
  };
  const end = () => {
    if (!holding) return;
    clearTimeout(timer.current);
    setHolding(false);
    setShort(true);
  };
  const press = (event: PointerEvent<HTMLButtonElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    begin();
  };
  const isKey = (event: KeyboardEvent) => event.key === "Enter" || event.key === " ";
  return (
    <button
      type="button"
      className={`hold-button${aside ? " aside" : ""}${holding ? " holding" : ""}`}
      disabled={disabled}
      onPointerDown={press}
      onPointerUp={end}
      onPointerCancel={end}
      onLostPointerCapture={end}
      onBlur={end}
      onKeyDown={(event) => {
        if (!isKey(event)) return;
        event.preventDefault();
        if (!event.repeat) begin();
      }}
      onKeyUp={(event) => isKey(event) && end()}
      onContextMenu={(event) => event.preventDefault()}
    >
      <span className="hold-label">{label}</span>
      <span className="hold-consequence">{consequence}</span>
      <span className="hold-hint" aria-live="polite">
        {holding
          ? "Keep holding…"
          : short
            ? "Held too short. Press and hold for a second."
            : "Press and hold"}
      </span>
    </button>
  );
}
