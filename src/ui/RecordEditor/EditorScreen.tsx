import canonicalize from "canonicalize";
import { useRef, useState } from "react";
import { Link } from "wouter";
import { keepChangedRecord, keptChangedRecord } from "../../jobs/library/recordDraft.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import { type Library, recordKinds } from "../../jobs/store/library.ts";
import type { Wanted } from "../../jobs/store/narrowed.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { notSavedYet, useBegun, useKeeping } from "../keptDraft.ts";
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
  if (!library) return <main className="page" aria-busy="true" />;
  const record = known && library[known].find((each) => each.id === id);
  if (!known || !record) return <Nowhere what="record" />;
  return <Begun key={`${known} ${id}`} kind={known} library={library} record={record} />;
}

/** Waits for what was changed of the record here before and not saved. */
function Begun(props: Omit<EditorOfProps, "kept">) {
  const { kind, record } = props;
  const begun = useBegun(record.id, async (store) => ({
    kept: (await keptChangedRecord(store, kind, record.id)) as Draft | undefined,
  }));
  if (!begun) return <main className="page" aria-busy="true" />;
  return <Editor {...props} kept={begun.kept} />;
}

interface EditorOfProps {
  readonly kind: EditedKind;
  readonly library: Library;
  readonly record: Library[EditedKind][number];
  /** as it was left here, not saved */
  readonly kept: Draft | undefined;
}

const asDraft = (record: EditorOfProps["record"]) => structuredClone(record) as unknown as Draft;

/** Alike but for the revision, which counts on with each save. */
const alike = (a: Draft, b: Draft) =>
  canonicalize({ ...a, revision: 0 }) === canonicalize({ ...b, revision: 0 });

function Editor({ kind, library, record, kept }: EditorOfProps) {
  const store = useStore();
  const [begun] = useState<Draft>(() => kept ?? asDraft(record));
  const [draft, setDraft] = useState(begun);
  const [goesOn, setGoesOn] = useState(kept !== undefined);
  const [timesPutBack, setTimesPutBack] = useState(0);
  /** With this there is nothing to lose. */
  const saved = useRef<Draft>(asDraft(record));
  const isChanged = !alike(draft, saved.current);
  const keptBy = useKeeping(draft, begun, (of, changed) =>
    keepChangedRecord(store, kind, record.id, alike(of, saved.current) ? undefined : of, changed),
  );
  const putBack = () => {
    saved.current = asDraft(record);
    setDraft(saved.current);
    setGoesOn(false);
    setTimesPutBack((times) => times + 1);
  };
  const name = "serial" in record ? record.serial : "name" in record ? record.name : record.id;
  return (
    <>
      <TopBar title={`${singular[kind]} ${name}`} />
      <main className="page">
        {kind === "valves" && <ValveStanding valve={record as Valve} />}
        {goesOn && (
          <section className="card editor-begun">
            <p>
              {draft.revision === record.revision
                ? "This record was changed on this tablet and not saved. It goes on where it stood."
                : "This record was changed on this tablet and not saved, and somebody saved it since: yours cannot be saved onto theirs. Note what you need of it, put it back as saved, and change that."}
            </p>
            <HoldButton
              label="Put back as saved"
              consequence="What was changed here and not saved is gone."
              aside
              onHeld={putBack}
            />
          </section>
        )}
        <RecordForm
          // What was said of the one before is not said of what is put back.
          key={timesPutBack}
          kind={kind}
          library={library}
          draft={draft}
          isNew={false}
          saying={history.state?.saved === true ? "Saved." : ""}
          onTyped={setDraft}
          // What was typed while it was written stays typed.
          onSaved={({ revision }) => {
            saved.current = draft;
            setGoesOn(false);
            setDraft((typed) => ({ ...typed, revision }));
          }}
        >
          {isChanged && <span className="small">{notSavedYet(keptBy)}</span>}
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
