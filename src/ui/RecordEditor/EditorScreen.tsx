import { useState } from "react";
import { Link } from "wouter";
import type { Valve } from "../../jobs/records/valve.ts";
import { type Library, recordKinds } from "../../jobs/store/library.ts";
import type { Wanted } from "../../jobs/store/narrowed.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { Removal } from "../Library/Removal.tsx";
import { ValveStanding } from "../Library/ValveStanding.tsx";
import { useLibrary } from "../storeContext.ts";
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
  return <Editor key={`${known} ${id}`} kind={known} library={library} record={record} />;
}

interface EditorOfProps {
  readonly kind: EditedKind;
  readonly library: Library;
  readonly record: Library[EditedKind][number];
}

function Editor({ kind, library, record }: EditorOfProps) {
  const [draft, setDraft] = useState<Draft>(() => structuredClone(record) as unknown as Draft);
  const name = "serial" in record ? record.serial : "name" in record ? record.name : record.id;
  return (
    <>
      <TopBar title={`${singular[kind]} ${name}`} />
      <main className="page">
        {kind === "valves" && <ValveStanding valve={record as Valve} />}
        <RecordForm
          kind={kind}
          library={library}
          draft={draft}
          isNew={false}
          saying={history.state?.saved === true ? "Saved." : ""}
          onTyped={setDraft}
          // What was typed while it was written stays typed.
          onSaved={({ revision }) => setDraft((typed) => ({ ...typed, revision }))}
        >
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
