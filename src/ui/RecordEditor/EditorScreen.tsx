import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import { keepTyped, keptTyped } from "../../jobs/library/recordDraft.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import { type Library, recordKinds } from "../../jobs/store/library.ts";
import type { Wanted } from "../../jobs/store/narrowed.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { Removal } from "../Library/Removal.tsx";
import { ValveStanding } from "../Library/ValveStanding.tsx";
import { useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import type { Draft } from "./draft.ts";
import { type EditedKind, isEdited } from "./fields.ts";
import { NewRecord } from "./NewRecord.tsx";
import { RecordForm, singular } from "./RecordForm.tsx";
import "./RecordEditor.css";

interface EditorProps {
  readonly kind: string;
  /** without one, a new record is begun */
  readonly id?: string;
}

/** What a record's editor shows beside it: a job chooses among strings, lines and the like. */
function wantedFor(kind: EditedKind | undefined, id: string): Wanted {
  if (kind === undefined) return {};
  return kind === "jobs"
    ? { jobs: [id], whole: ["strings", "lines", "stacks", "policies"] }
    : { records: { [kind]: [id] } };
}

export default function EditorScreen({ kind, id }: EditorProps) {
  return id === undefined ? <NewRecord kind={kind} /> : <EditorFor kind={kind} id={id} />;
}

function EditorFor({ kind, id }: Required<EditorProps>) {
  const known = recordKinds.filter(isEdited).find((each) => each === kind);
  const library = useLibrary(wantedFor(known, id));
  const kept = useKept(kind, id);
  if (!library || !kept) return <main className="page" aria-busy="true" />;
  const record = known && library[known].find((each) => each.id === id);
  if (!known || !record) return <Nowhere what="record" />;
  const begun = { kind: known, library, record, kept: kept.typed };
  return <Editor key={`${known} ${id}`} {...begun} />;
}

/** What was typed into the record here and not saved; undefined until that is read. */
function useKept(kind: string, id: string) {
  const store = useStore();
  const [kept, setKept] = useState<{ readonly of: string; readonly typed: Draft | undefined }>();
  const of = `${kind} ${id}`;
  useEffect(() => {
    let isCurrent = true;
    void keptTyped(store, kind, id).then((typed) => {
      if (isCurrent) setKept({ of: `${kind} ${id}`, typed });
    });
    return () => {
      isCurrent = false;
    };
  }, [store, kind, id]);
  return kept?.of === of ? kept : undefined;
}

interface EditorOfProps {
  readonly kind: EditedKind;
  readonly library: Library;
  readonly record: Library[EditedKind][number];
  /** what was typed before and not saved */
  readonly kept: Draft | undefined;
}

function Editor({ kind, library, record, kept }: EditorOfProps) {
  const store = useStore();
  const asSaved = () => structuredClone(record) as unknown as Draft;
  const [draft, setDraft] = useState<Draft>(() => kept ?? asSaved());
  const [goesOn, setGoesOn] = useState(kept !== undefined);
  const [keptBy, setKeptBy] = useState<"tablet" | "screen">();
  const typed = useRef(false);
  useEffect(() => {
    if (!typed.current) return;
    setKeptBy(undefined);
    keepTyped(store, kind, record.id, draft).then(
      () => typed.current && setKeptBy("tablet"),
      () => typed.current && setKeptBy("screen"),
    );
  }, [store, kind, record.id, draft]);
  /** Nothing typed is left that is not saved. */
  const settled = () => {
    typed.current = false;
    setGoesOn(false);
    setKeptBy(undefined);
    return keepTyped(store, kind, record.id, undefined).catch(() => {});
  };
  const name = "serial" in record ? record.serial : "name" in record ? record.name : record.id;
  return (
    <>
      <TopBar title={`${singular[kind]} ${name}`} />
      <main className="page">
        {goesOn && (
          <section className="card editor-begun">
            <p>Entries made here before are not saved yet. They go on where they stood.</p>
            <HoldButton
              label="Throw them away"
              consequence="What was entered is gone; the record stays as it was saved."
              aside
              onHeld={() => {
                setDraft(asSaved());
                void settled();
              }}
            />
          </section>
        )}
        {kind === "valves" && <ValveStanding valve={record as Valve} />}
        <RecordForm
          kind={kind}
          library={library}
          draft={draft}
          isNew={false}
          saying={history.state?.saved === true ? "Saved." : ""}
          onTyped={(to) => {
            typed.current = true;
            setDraft(to);
          }}
          onSaved={({ revision }) => {
            // What was typed while it was written stays typed.
            setDraft((now) => ({ ...now, revision }));
            return settled();
          }}
        >
          <span className="small">
            {keptBy === "tablet" && "Not saved yet: kept on this tablet as a draft."}
            {keptBy === "screen" &&
              "Not saved yet, and the tablet does not take the draft: only this screen holds it."}
          </span>
          {kind !== "jobs" && (
            <Link href={`/new/${kind}?from=${record.id}`} className="button quiet">
              Begin a new one from this
            </Link>
          )}
        </RecordForm>
        {kind !== "jobs" && <Removal kind={kind} id={record.id} name={name} />}
      </main>
    </>
  );
}
