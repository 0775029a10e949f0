import type { ReactNode } from "react";
import type { Line } from "../../jobs/sheet/arrange.ts";
import { Ring } from "../Ring/Ring.tsx";

interface SheetLineProps {
  readonly line: Line;
  readonly first: boolean;
  readonly last: boolean;
  readonly open: boolean;
  /** why what was asked of this line was not done */
  readonly refused: string | undefined;
  readonly onOpen: () => void;
  readonly onMove: (by: -1 | 1) => void;
  readonly onLeaveOut: () => void;
  readonly onTakeIn: () => void;
  readonly onTakeBack: () => void;
  readonly onAddAfter: () => void;
  readonly onRewrite: () => void;
  readonly onTakeOut: () => void;
  /** the step that is being written behind it */
  readonly children: ReactNode;
}

/** One item as a row: what it is, what was changed of it, and, opened, what it asks and what can be done with it. */
export function SheetLine(props: SheetLineProps) {
  const { line, open, refused, onOpen, children } = props;
  const { item, leftOut, moved, own, problems } = line;
  const isHold = item.type === "hold";
  const title = isHold ? item.hold.title : item.step.title;
  const marks = [
    isHold && "hold point",
    own && "your own",
    moved && "moved",
    leftOut && "left out",
  ].filter((mark) => mark !== false);
  return (
    <li
      data-line={line.id}
      className={`sheet-line${isHold ? " hold" : ""}${leftOut ? " left-out" : ""}${open ? " open" : ""}`}
    >
      <button type="button" className="sheet-line-open" aria-expanded={open} onClick={onOpen}>
        <span className="sheet-line-mark">
          {isHold ? (
            <Ring shape="locked" size={24} silent />
          ) : (
            <span className="sheet-line-tick" aria-hidden="true" />
          )}
        </span>
        <span className="sheet-line-title">{title}</span>
        {marks.length > 0 && <span className="sheet-line-marks small">{marks.join(", ")}</span>}
      </button>
      {[...problems, ...(refused ? [refused] : [])].map((says) => (
        <p key={says} className="problem" role="alert">
          {says}
        </p>
      ))}
      {open && (
        <div className="sheet-line-inside">
          <Inside line={line} />
          <Acts {...props} title={title} />
        </div>
      )}
      {children}
    </li>
  );
}

/** What the item asks of the crew. */
function Inside({ line: { item } }: { readonly line: Line }) {
  if (item.type === "hold") {
    return (
      <>
        <p>{item.hold.purpose}</p>
        <ul className="sheet-line-asks small">
          {item.hold.conditions.map((condition) => (
            <li key={condition.id}>{condition.text}</li>
          ))}
        </ul>
      </>
    );
  }
  const { step } = item;
  return (
    <>
      <p>{step.instruction}</p>
      {step.caution && (
        <p className="caution">
          <span aria-hidden="true">!</span>
          <span>{step.caution}</span>
        </p>
      )}
      {step.fields.length > 0 && (
        <ul className="sheet-line-asks small">
          {step.fields.map((field) => (
            <li key={field.id}>{field.label}</li>
          ))}
        </ul>
      )}
    </>
  );
}

function Acts(props: SheetLineProps & { readonly title: string }) {
  const { line, title, first, last, onMove } = props;
  const button = (name: string, act: () => void, disabled = false) => (
    <button
      type="button"
      className="button"
      aria-label={`${name}: ${title}`}
      disabled={disabled}
      onClick={act}
    >
      {name}
    </button>
  );
  // A hold point has them as well: asked for, the reason why not is said.
  return (
    <div className="sheet-line-acts">
      {button("Move up", () => onMove(-1), first)}
      {button("Move down", () => onMove(1), last)}
      {line.own && button("Change", props.onRewrite)}
      {line.own && button("Take out", props.onTakeOut)}
      {!line.own && !line.leftOut && button("Leave out", props.onLeaveOut)}
      {line.leftOut && button("Take back", props.onTakeIn)}
      {line.problems.length > 0 && button("Take the change back", props.onTakeBack)}
      {button("Add a step after it", props.onAddAfter)}
    </div>
  );
}
