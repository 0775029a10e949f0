import { useEffect, useLayoutEffect, useRef } from "react";
import { catalogPartOf } from "../../jobs/catalog/catalog.ts";
import { asEntered } from "../../jobs/display.ts";
import type { Tool } from "../../jobs/records/equipment.ts";
import { isLengthOpen } from "../../jobs/results/stringInStack.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";

interface ToolRowProps {
  readonly tool: Tool;
  /** counted from 1, top down */
  readonly place: number;
  readonly of: number;
  readonly tooLarge: boolean;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly onMove: (by: -1 | 1) => void;
  readonly onSwap: () => void;
  readonly onAddBelow: () => void;
  readonly onTakeOut: () => void;
}

/** One tool as a large row; what can be done with it opens under it. */
export function ToolRow(props: ToolRowProps) {
  const { tool, place, of, tooLarge, open, onOpen, onMove } = props;
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    // What opens below the edge of the screen, or under the bar there, would look as if nothing happened.
    if (open) row.current?.scrollIntoView({ block: "nearest" });
  }, [open]);
  const stood = useRef<number>(undefined);
  const move = (by: -1 | 1) => {
    stood.current = row.current?.getBoundingClientRect().top;
    onMove(by);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: the place is what has changed when the row has moved
  useLayoutEffect(() => {
    const { current: was } = stood;
    stood.current = undefined;
    if (was === undefined || !row.current) return;
    // The page goes along with the row: a second tap meets the same button, and not the one that came in its place.
    scrollBy({ top: row.current.getBoundingClientRect().top - was, behavior: "instant" });
  }, [place]);
  const length = tool.lengthExtended
    ? `${asEntered(tool.length)}, ${asEntered(tool.lengthExtended)} extended`
    : `${asEntered(tool.length)}${isLengthOpen(tool) ? ", extended not known" : ""}`;
  return (
    <li ref={row} className={`tool-row${open ? " open" : ""}`}>
      <button type="button" className="tool-row-open" aria-expanded={open} onClick={onOpen}>
        <span className="tool-row-place">{place}</span>
        <span className="tool-row-name">
          {tool.name}
          {tooLarge && <strong className="tool-row-wrong"> too large</strong>}
        </span>
        <span className="tool-row-figures figure">
          <span>{length}</span>
          <span>{asEntered(tool.outsideDiameter)}</span>
          <span>{asEntered(tool.weight)}</span>
        </span>
      </button>
      {open && (
        <div className="tool-row-acts">
          {catalogPartOf(tool) && (
            <p className="small">Figures as in the catalog, not measured on this part yet.</p>
          )}
          <button type="button" className="button" onClick={props.onSwap}>
            Swap
          </button>
          <button type="button" className="button" onClick={props.onAddBelow}>
            Add below
          </button>
          <button type="button" className="button" disabled={place === 1} onClick={() => move(-1)}>
            Move up
          </button>
          <button type="button" className="button" disabled={place === of} onClick={() => move(1)}>
            Move down
          </button>
          <HoldButton
            label="Take out"
            consequence="It leaves the string, its figures with it."
            aside
            onHeld={props.onTakeOut}
          />
        </div>
      )}
    </li>
  );
}
