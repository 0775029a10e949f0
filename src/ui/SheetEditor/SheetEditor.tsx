import { useLayoutEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { Well } from "../../jobs/records/well.ts";
import {
  type Arranged,
  arranged,
  type Line,
  leftOut,
  movedBy,
  type Tried,
  takenBack,
  takenIn,
  takenOut,
  written,
} from "../../jobs/sheet/arrange.ts";
import { nextPocket, withoutPocket } from "../../jobs/sheet/furtherPockets.ts";
import { emptyStep, typedStep } from "../../jobs/sheet/ownStep.ts";
import type { Sheet } from "../../jobs/sheet/sheet.ts";
import { unchangedSheet } from "../../jobs/sheet/sheetOf.ts";
import { type SheetDraft, withWanted } from "../../jobs/sheetDraft.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { notSavedYet } from "../keptDraft.ts";
import { useSettings } from "../settings.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { type PlannedJob, usePlannedJob } from "../usePlannedJob.ts";
import { FurtherPockets } from "./FurtherPockets.tsx";
import { Overtaken, toOvertaken } from "./Overtaken.tsx";
import { OwnStepForm } from "./OwnStepForm.tsx";
import { SheetLine } from "./SheetLine.tsx";
import { type SheetInHand, useBegunSheet, useSheetDraft } from "./useSheetDraft.ts";
import { WorkChoice } from "./WorkChoice.tsx";
import "./SheetEditor.css";

export default function SheetEditor({ id }: { readonly id: string }) {
  const live = usePlannedJob(id);
  if (live === "missing") return <Nowhere what="job" />;
  return <Begun live={live} />;
}

/** Opens with what was changed before and not saved. */
function Begun({ live }: { readonly live: PlannedJob | undefined }) {
  const begun = useBegunSheet(live?.record);
  if (!live || !begun) return <main className="page" aria-busy="true" />;
  return <EditorOf key={live.id} live={live} begun={begun} />;
}

interface EditorProps {
  readonly live: PlannedJob;
  readonly begun: SheetDraft;
}

/** The run sheet of one job as the planner wants it, before it is issued. */
function EditorOf({ live, begun }: EditorProps) {
  const draft = useSheetDraft(live.record, begun);
  const { well } = live.draft;
  const [said, setSaid] = useState(draft.unsaved ? "Opened with changes from before." : "");
  const { units } = useSettings();
  const job = withWanted(live.record, draft.wanted);
  const sheet = unchangedSheet(job, well);
  const seen = arranged(sheet, draft.wanted.changes);
  const save = async () => {
    setSaid("");
    if (await draft.save()) setSaid("Saved.");
  };
  const putBack = () => {
    draft.putBack();
    setSaid("Put back as saved.");
  };
  return (
    <>
      <TopBar title={`Run sheet, ${well?.name ?? "no well"}`} />
      <main className="page sheet-editor">
        <div className="sheet-about">
          <p className="sheet-lead">{sheet.title}</p>
          <Reach live={live} />
          {draft.overtaken && (
            <Overtaken
              live={live}
              draft={draft}
              onTaken={() => setSaid("Your changes are on the job as it is now.")}
              onPutBack={putBack}
            />
          )}
          <WorkChoice
            wanted={draft.wanted}
            sleeve={mandrelOf(well, live.record.mandrel)?.orientingSleeve}
            onChange={(to) => {
              draft.change(to);
              setSaid("");
            }}
          />
          <FurtherPockets
            pockets={draft.wanted.also}
            typed={draft.typed}
            next={nextPocket(job, well)}
            well={well}
            units={units}
            onChange={(also, typed) => {
              draft.change({ also }, typed);
              setSaid("");
            }}
            onTakeOut={(place) => {
              const { also, changes } = draft.wanted;
              draft.change({
                also: also.toSpliced(place, 1),
                changes: withoutPocket(changes, place),
              });
              setSaid("The pocket is taken out.");
            }}
          />
          <Strays seen={seen} draft={draft} />
          {draft.unsaved && !draft.overtaken && (
            <HoldButton
              label="Put back as saved"
              consequence="Every change since then is gone."
              aside
              onHeld={putBack}
            />
          )}
        </div>
        <Lines sheet={sheet} seen={seen} draft={draft} onSaid={setSaid} />
        {(draft.unsaved || draft.writing || said || draft.problem) && (
          <Saving draft={draft} said={said} onSave={() => void save()} job={live.id} />
        )}
      </main>
    </>
  );
}

const mandrelOf = (well: Well | undefined, id: string) =>
  well?.mandrels.find((mandrel) => mandrel.id === id);

/** Whom a change still reaches. */
function Reach({ live: { state } }: { readonly live: PlannedJob }) {
  if (state.stage === "draft") return null;
  const began = state.stage !== "issued";
  return (
    <p className="caution">
      <span aria-hidden="true">!</span>
      <span>
        {began
          ? `The run has begun. The crew works on revision ${state.revision}; what is changed here does not reach it.`
          : `Revision ${state.revision} is issued. What is changed here reaches the crew with the next revision, issued from the brief.`}
      </span>
    </p>
  );
}

interface PartProps {
  readonly seen: Arranged;
  readonly draft: SheetInHand;
}

/** Changes that the sheet for this work has no place for. */
function Strays({ seen, draft }: PartProps) {
  const { changes } = draft.wanted;
  if (seen.strays.length === 0) return null;
  return (
    <section aria-labelledby="strays">
      <h2 id="strays">Changes without a place</h2>
      <ul className="sheet-strays">
        {seen.strays.map(({ at, says }) => (
          <li key={`${at} ${says}`}>
            <p className="problem" role="alert">
              {says}
            </p>
            <button
              type="button"
              className="button"
              onClick={() => draft.change({ changes: takenBack(changes, at) })}
            >
              Take it back
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface LinesProps extends PartProps {
  readonly sheet: Sheet;
  readonly onSaid: (said: string) => void;
}

/** Phases and their items in the order they will be worked. */
function Lines({ sheet, seen, draft, onSaid }: LinesProps) {
  const [open, setOpen] = useState<string>();
  const [refused, setRefused] = useState<{ readonly line: string; readonly why: string }>();
  const { changes } = draft.wanted;
  const { writing } = draft;
  const list = useRef<HTMLDivElement>(null);
  // Moved, a row is taken out and put in again: whoever works by keyboard goes on where they were.
  const justMoved = useRef<{ readonly line: string; readonly way: string }>(undefined);
  useLayoutEffect(() => {
    const { line, way } = justMoved.current ?? {};
    if (line === undefined) return;
    justMoved.current = undefined;
    const row = list.current?.querySelector(`[data-line="${line}"]`);
    const button = (name: string) =>
      row?.querySelector<HTMLElement>(`button[aria-label^="${name}"]:enabled`);
    (button(`Move ${way}`) ?? button("Move"))?.focus({ preventScroll: true });
    row?.scrollIntoView({ block: "nearest" });
  });
  const all = seen.phases.flatMap(({ lines }) => lines);
  // Where the line behind which it was begun is on the sheet no more, it goes on at the end.
  const writingAt = all.some(({ id }) => id === writing?.after) ? writing?.after : all.at(-1)?.id;
  const place = (after: string) => {
    const line = all.find(({ id }) => id === after);
    return line ? titleOf(line) : "";
  };
  const attempt = (line: Line, tried: Tried, saying: string): boolean => {
    if (!tried.ok) {
      setRefused({ line: line.id, why: tried.why });
      onSaid("");
      return false;
    }
    draft.change({ changes: tried.changes });
    setRefused(undefined);
    onSaid(saying);
    return true;
  };
  const row = (line: Line) => {
    const title = titleOf(line);
    return (
      <SheetLine
        key={line.id}
        line={line}
        first={line === all[0]}
        last={line === all.at(-1)}
        open={open === line.id}
        refused={refused?.line === line.id ? refused.why : undefined}
        onOpen={() => {
          setOpen(open === line.id ? undefined : line.id);
          setRefused(undefined);
        }}
        onMove={(by) => {
          const way = by < 0 ? "up" : "down";
          if (attempt(line, movedBy(sheet, changes, line.id, by), `${title} moved ${way}.`)) {
            justMoved.current = { line: line.id, way };
          }
        }}
        onLeaveOut={() => attempt(line, leftOut(sheet, changes, line.id), `${title} is left out.`)}
        onTakeIn={() => {
          draft.change({ changes: takenIn(changes, line.id) });
          onSaid(`${title} is back.`);
        }}
        onTakeBack={() => draft.change({ changes: takenBack(changes, line.id) })}
        onAddAfter={() => draft.write({ after: line.id, step: emptyStep })}
        onRewrite={() => {
          if (line.item.type === "step") {
            draft.write({ after: line.id, step: typedStep(line.item.step) });
          }
        }}
        onTakeOut={() => {
          draft.change({ changes: takenOut(sheet, changes, line.id) });
          onSaid(`${title} is taken out.`);
        }}
      >
        {writing && writingAt === line.id && (
          <OwnStepForm
            typed={writing.step}
            after={place(line.id)}
            changes={changes}
            onType={(step) => draft.write({ ...writing, step })}
            onGiveUp={() => draft.write(undefined)}
            onWritten={(step) => {
              const tried = written(sheet, changes, step, line.id);
              if (attempt(line, tried, `${step.title} is on the sheet.`)) {
                draft.write(undefined);
                setOpen(step.id);
              }
            }}
          />
        )}
      </SheetLine>
    );
  };
  return (
    <div className="sheet-phases" ref={list}>
      {seen.phases.map(({ id, title, lines }) => (
        <section key={id} aria-labelledby={`phase-${id}`}>
          <h2 id={`phase-${id}`}>{title}</h2>
          <ol>{lines.map(row)}</ol>
        </section>
      ))}
    </div>
  );
}

const titleOf = ({ item }: Line) => (item.type === "step" ? item.step.title : item.hold.title);

interface SavingProps {
  readonly draft: SheetInHand;
  readonly said: string;
  readonly job: string;
  readonly onSave: () => void;
}

function Saving({ draft, said, job, onSave }: SavingProps) {
  return (
    <section className="sheet-save" aria-label="Saving">
      <div>
        <p role="status">
          {said} {(draft.unsaved || draft.writing) && notSavedYet(draft.keptBy)}
          {draft.writing && " A step is being written and not put in yet."}
        </p>
        {draft.problem && (
          <p className="problem" role="alert">
            {draft.problem}
          </p>
        )}
      </div>
      {draft.overtaken ? (
        <button type="button" className="button next" onClick={toOvertaken}>
          Saved by somebody else: choose
        </button>
      ) : draft.unsaved ? (
        <button type="button" className="button next" disabled={draft.saving} onClick={onSave}>
          {draft.saving ? "Saving…" : "Save the run sheet"}
        </button>
      ) : (
        <Link href={`/jobs/${job}`} className="button next">
          To the brief
        </Link>
      )}
    </section>
  );
}
