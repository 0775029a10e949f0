import {
  type PointerEvent,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from "react";
import {
  mostStrokes,
  pointAt,
  type Stroke,
  type Strokes,
  signatureFrame,
  withStroke,
} from "../../jobs/signature.ts";

interface LiveStroke {
  readonly pointer: number;
  readonly kind: string;
  readonly points: [number, number][];
}

interface Drawing {
  /** the stroke that is being drawn, as far as it is */
  readonly live: Stroke;
  /** Ends a stroke that is still being drawn and hands it on. Gives the strokes that stand then. */
  flush(): Strokes;
  /** what is drawn on, whose box is the frame */
  readonly surface: RefObject<SVGSVGElement | null>;
  readonly handlers: {
    onPointerDown(event: PointerEvent<SVGSVGElement>): void;
    onPointerMove(event: PointerEvent<SVGSVGElement>): void;
    onPointerUp(event: PointerEvent<SVGSVGElement>): void;
    onPointerCancel(event: PointerEvent<SVGSVGElement>): void;
    onLostPointerCapture(event: PointerEvent<SVGSVGElement>): void;
  };
}

/**
 * Strokes drawn with finger, pen or mouse. Only the surface is rendered while one is drawn; the caller has it when it
 * ends: when the finger leaves, when anything else is pressed, when the page goes out of sight, when the pad goes.
 */
export function useDrawing(value: Strokes, onChange: (strokes: Strokes) => void): Drawing {
  const surface = useRef<SVGSVGElement>(null);
  const stroke = useRef<LiveStroke>(undefined);
  const [live, setLive] = useState<Stroke>([]);
  const given = useRef({ value, onChange });
  useLayoutEffect(() => {
    given.current = { value, onChange };
  }, [value, onChange]);

  const end = useRef((): Strokes => {
    const { current } = stroke;
    const before = given.current.value;
    if (!current) return before;
    stroke.current = undefined;
    setLive([]);
    const after = withStroke(before, current.points);
    // Who asks again before the caller has rendered gets the same answer.
    given.current = { ...given.current, value: after };
    given.current.onChange(after);
    return after;
  });

  useEffect(() => {
    const flush = end.current;
    const elsewhere = (event: Event) => {
      // Another finger on the surface itself is a palm; see below.
      if (!surface.current?.contains(event.target as Node)) flush();
    };
    const outOfSight = () => document.hidden && flush();
    window.addEventListener("pointerdown", elsewhere, true);
    window.addEventListener("keydown", flush, true);
    document.addEventListener("visibilitychange", outOfSight);
    return () => {
      window.removeEventListener("pointerdown", elsewhere, true);
      window.removeEventListener("keydown", flush, true);
      document.removeEventListener("visibilitychange", outOfSight);
      flush();
    };
  }, []);

  const isOwn = (event: PointerEvent) => event.pointerId === stroke.current?.pointer;
  const finish = (event: PointerEvent) => {
    if (isOwn(event)) end.current();
  };
  return {
    live,
    flush: end.current,
    surface,
    handlers: {
      onPointerDown: (event) => {
        if (event.button !== 0 || given.current.value.length >= mostStrokes) return;
        // One stroke at a time. But a hand comes down before its pen does: what the palm drew goes.
        const { current } = stroke;
        if (current && !(event.pointerType === "pen" && current.kind === "touch")) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        const points = [placeOf(event, event.currentTarget)];
        stroke.current = { pointer: event.pointerId, kind: event.pointerType, points };
        setLive(points);
      },
      onPointerMove: (event) => {
        const { current } = stroke;
        if (!current || !isOwn(event)) return;
        const box = event.currentTarget;
        // What a fast pen did between two frames; empty in browsers that do not tell.
        const moves = event.nativeEvent.getCoalescedEvents?.() ?? [];
        for (const move of moves.length > 0 ? moves : [event]) {
          const place = placeOf(move, box);
          const last = current.points.at(-1);
          if (place[0] !== last?.[0] || place[1] !== last[1]) current.points.push(place);
        }
        setLive([...current.points]);
      },
      onPointerUp: finish,
      // The system took the finger away, for a gesture of its own: what was drawn until then was drawn.
      onPointerCancel: finish,
      onLostPointerCapture: finish,
    },
  };
}

function placeOf(
  { clientX, clientY }: { readonly clientX: number; readonly clientY: number },
  surface: Element,
): [number, number] {
  const { left, top, width, height } = surface.getBoundingClientRect();
  return pointAt(
    ((clientX - left) / width) * signatureFrame.width,
    ((clientY - top) / height) * signatureFrame.height,
  );
}
