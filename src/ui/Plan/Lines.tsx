import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import { unitLabel } from "../../jobs/display.ts";
import type {
  ChoiceLine,
  PlanLine,
  PlanSection,
  QuantityLine,
  TextLine,
} from "../../jobs/planning/line.ts";
import type { PlanDraft } from "../../jobs/planning/planDraft.ts";
import { unitsOf } from "../../jobs/quantity.ts";
import type { Well } from "../../jobs/records/well.ts";

type Mine = PlanDraft["mine"][string];

interface LinesProps {
  readonly lines: readonly PlanLine[];
  /** as it is typed this moment; the lines are worked out a moment later */
  readonly mine: PlanDraft["mine"];
  readonly well: Well;
  /** the line that somebody was sent to */
  readonly sought: string | undefined;
  /** undefined: the proposal again */
  readonly onMine: (line: string, value: Mine | undefined) => void;
}

const titles: Readonly<Record<Exclude<PlanSection, "pocket">, string>> = {
  strings: "Strings",
  equipment: "Line, pressure equipment, policy",
  expected: "Expected on location",
  people: "People and pins",
  limits: "Unit, and limits of the pull run",
};

/** The proposal line by line: what is taken, where it came from, and a change in place. */
export function Lines({ lines, mine, well, sought, onMine }: LinesProps) {
  const pockets = [...new Set(lines.flatMap(({ pocket }) => pocket ?? []))];
  const of = (section: PlanSection, pocket?: string) =>
    lines.filter((line) => line.section === section && line.pocket === pocket);
  const group = (title: string, of: readonly PlanLine[]) => (
    <section key={title} className="card plan-lines">
      <h2>{title}</h2>
      {of.map((line) => (
        <Line
          key={line.key}
          line={line}
          now={mine[line.key]}
          sought={sought === line.key}
          onMine={onMine}
        />
      ))}
    </section>
  );
  return (
    <>
      {pockets.map((pocket) => {
        const number = well.mandrels.find(({ id }) => id === pocket)?.number;
        return group(`Pocket of mandrel ${number ?? "?"}`, of("pocket", pocket));
      })}
      {(Object.keys(titles) as (keyof typeof titles)[]).map((section) =>
        group(titles[section], of(section)),
      )}
    </>
  );
}

interface LineProps<L extends PlanLine> {
  readonly line: L;
  readonly now: Mine | undefined;
  readonly onMine: LinesProps["onMine"];
}

function Line({ line, now, sought, onMine }: LineProps<PlanLine> & { readonly sought: boolean }) {
  const [open, setOpen] = useState(false);
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!sought) return;
    setOpen(true);
    element.current?.scrollIntoView({ block: "center" });
  }, [sought]);
  const isOpen = line.source === "open";
  // What is asked for is asked at once.
  const asks = open || isOpen;
  const yours = line.source === "yours" || line.why.startsWith("Left open by you");
  return (
    <div
      ref={element}
      id={`plan-line-${line.key}`}
      tabIndex={-1}
      className={`plan-line${asks && line.kind === "choice" ? " is-changed" : ""}`}
    >
      <div className="plan-line-head">
        <div>
          <p className="plan-line-label">
            {line.label}
            <span className={`plan-source source-${line.source.replaceAll(" ", "-")}`}>
              {isOpen ? "open" : line.source}
            </span>
          </p>
          {line.shown !== undefined && <p className="plan-line-shown">{line.shown}</p>}
          <p className="small soft">{line.why}</p>
        </div>
        <div className="plan-line-acts">
          {!isOpen && (
            <button
              type="button"
              className="button quiet plan-act"
              aria-expanded={open}
              aria-label={`${open ? "Close" : "Change"}: ${line.label}`}
              onClick={() => setOpen(!open)}
            >
              {open ? "Close" : "Change"}
            </button>
          )}
          {yours && (
            <button
              type="button"
              className="button quiet plan-act"
              aria-label={`As proposed: ${line.label}`}
              onClick={() => onMine(line.key, undefined)}
            >
              As proposed
            </button>
          )}
        </div>
      </div>
      {asks && <Control line={line} now={now} onMine={onMine} />}
      {line.kind !== "choice" && line.problem && <p className="problem small">{line.problem}</p>}
    </div>
  );
}

function Control({ line, ...rest }: LineProps<PlanLine>) {
  switch (line.kind) {
    case "choice":
      return <Choice line={line} {...rest} />;
    case "quantity":
      return <QuantityInput line={line} {...rest} />;
    case "text":
      return <TextInput line={line} {...rest} />;
  }
}

const MOST_SHOWN = 6;
const editors: Readonly<Record<NonNullable<ChoiceLine["record"]>["kind"], string>> = {
  valves: "/edit/valves",
  strings: "/strings",
  lines: "/edit/lines",
  stacks: "/edit/stacks",
  policies: "/edit/policies",
};

function Choice({ line, now, onMine }: LineProps<ChoiceLine>) {
  const [all, setAll] = useState(false);
  const { options, key, record } = line;
  const chosen = now ? now.text || undefined : line.chosen;
  const shown = all ? options : options.filter((each, i) => i < MOST_SHOWN || each.id === chosen);
  if (options.length === 0) return null;
  return (
    <fieldset className="plan-options">
      <legend className="hidden-label">{line.label}</legend>
      {shown.map(({ id, name, says, fits }) => (
        <label key={id} className={`plan-option${fits ? "" : " unfit"}`}>
          <input
            type="radio"
            name={`plan-choice-${key}`}
            checked={id === chosen}
            onChange={() => onMine(key, { text: id })}
          />
          <span>
            <strong>{name}</strong>
            {says && <span className="small">{says}</span>}
          </span>
        </label>
      ))}
      <div className="row">
        {options.length > shown.length && (
          <button type="button" className="button quiet" onClick={() => setAll(true)}>
            Show all {options.length}
          </button>
        )}
        {chosen !== undefined && (
          <button type="button" className="button quiet" onClick={() => onMine(key, { text: "" })}>
            Leave it open
          </button>
        )}
        {chosen !== undefined && record && (
          <Link href={`${editors[record.kind]}/${chosen}?back=plan`} className="button quiet">
            Look at the record
          </Link>
        )}
      </div>
    </fieldset>
  );
}

function QuantityInput({ line, now, onMine }: LineProps<QuantityLine>) {
  const { key, label, dimension, problem } = line;
  const typed = { text: now?.text ?? line.typed.text, unit: now?.unit ?? line.typed.unit };
  const units = unitsOf(dimension);
  return (
    <div className="plan-quantity">
      <input
        aria-label={label}
        aria-invalid={problem !== undefined}
        inputMode="decimal"
        autoComplete="off"
        value={typed.text}
        onChange={(event) => onMine(key, { text: event.target.value, unit: typed.unit })}
      />
      {units.length > 1 && (
        <select
          aria-label={`Unit of ${label}`}
          value={typed.unit}
          onChange={(event) => onMine(key, { text: typed.text, unit: event.target.value })}
        >
          {units.map((unit) => (
            <option key={unit} value={unit}>
              {unitLabel(unit)}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}

function TextInput({ line, now, onMine }: LineProps<TextLine>) {
  const { key, label, offers, problem, count } = line;
  const typed = now?.text ?? line.typed;
  return (
    <div className="plan-text">
      <input
        aria-label={label}
        aria-invalid={problem !== undefined}
        inputMode={count ? "numeric" : "text"}
        autoComplete="off"
        value={typed}
        onChange={(event) => onMine(key, { text: event.target.value })}
      />
      {offers
        .filter((offer) => offer !== typed)
        .map((offer) => (
          <button
            key={offer}
            type="button"
            className="button"
            onClick={() => onMine(key, { text: offer })}
          >
            {offer}
          </button>
        ))}
    </div>
  );
}
