import { useEffect, useRef, useState } from "react";
import { useLocation, useSearch } from "wouter";
import { type LibraryKind, libraryKinds } from "../../jobs/library/entry.ts";
import { blankRecord, copiedRecord } from "../../jobs/library/newRecord.ts";
import {
  keepRecordDraft,
  keptRecordDraft,
  type RecordDraft,
} from "../../jobs/library/recordDraft.ts";
import type { Library } from "../../jobs/store/library.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { type KeptBy, notSavedYet, useBegun } from "../keptDraft.ts";
import { placeOf } from "../Library/placeOf.ts";
import { useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import type { Draft } from "./draft.ts";
import { RecordForm, singular } from "./RecordForm.tsx";
import "./RecordEditor.css";

export function NewRecord({ kind }: { readonly kind: string }) {
  const known = libraryKinds.find((each) => each === kind);
  const from = new URLSearchParams(useSearch()).get("from") ?? undefined;
  if (!known) return <Nowhere what="kind of record" />;
  return <NewOf key={`${known} ${from}`} kind={known} from={from} />;
}

interface NewOfProps {
  readonly kind: LibraryKind;
  /** the record it is begun from, by its id */
  readonly from: string | undefined;
}

/** A new record, and what was typed of one before and not saved. */
function NewOf({ kind, from }: NewOfProps) {
  const library = useLibrary({ records: from === undefined ? {} : { [kind]: [from] } });
  const kept = useBegun(kind, async (store) => ({ draft: await keptRecordDraft(store, kind) }));
  if (!library || !kept) return <main className="page" aria-busy="true" />;
  const pattern = library[kind].find(({ id }) => id === from);
  const fresh = (): RecordDraft => {
    const id = crypto.randomUUID();
    return pattern
      ? { record: copiedRecord(kind, pattern as never, id, () => crypto.randomUUID()), from }
      : { record: blankRecord(kind, id) };
  };
  const begun = { kept: kept.draft, from: pattern && from, fresh };
  return <Begun kind={kind} library={library} {...begun} />;
}

interface BegunProps {
  readonly kind: LibraryKind;
  readonly kept: RecordDraft | undefined;
  readonly from: string | undefined;
  readonly fresh: () => RecordDraft;
  readonly library: Library;
}

function Begun({ kind, kept, from, fresh, library }: BegunProps) {
  const store = useStore();
  const [, navigate] = useLocation();
  const [held, setHeld] = useState(() => kept ?? fresh());
  const [goesOn, setGoesOn] = useState(kept !== undefined);
  const [keptBy, setKeptBy] = useState<KeptBy>();
  const isSaved = useRef(false);
  const typed = useRef(false);

  useEffect(() => {
    // What nobody has typed into is not kept: it is begun anew as it was.
    if (!typed.current || isSaved.current) return;
    setKeptBy(undefined);
    keepRecordDraft(store, kind, held).then(
      () => setKeptBy("tablet"),
      () => setKeptBy("screen"),
    );
  }, [store, kind, held]);

  const startOver = () => {
    typed.current = false;
    setGoesOn(false);
    setKeptBy(undefined);
    setHeld(fresh());
    void keepRecordDraft(store, kind, undefined).catch(() => {});
  };
  const another = goesOn && kept?.from !== from;
  return (
    <>
      <TopBar title={`New ${singular[kind]}`} />
      <main className="page">
        {goesOn && (
          <section className="card editor-begun">
            <p>
              A new {singular[kind]} was begun on this tablet and not saved. It goes on where it
              stood.
            </p>
            <HoldButton
              label={another ? "Begin with the other one instead" : "Throw it away and begin anew"}
              consequence="What was typed of the one that was begun is gone."
              aside
              onHeld={startOver}
            />
          </section>
        )}
        <RecordForm
          // Problems of the one before are not those of the next.
          key={String(held.record.id)}
          kind={kind}
          library={library}
          draft={held.record as Draft}
          isNew
          onTyped={(to) => {
            typed.current = true;
            setHeld((before) => ({ ...before, record: to(before.record as Draft) }));
          }}
          onSaved={async ({ id }) => {
            isSaved.current = true;
            // The record is kept; a draft that stays behind would only be offered once more.
            await keepRecordDraft(store, kind, undefined).catch(() => {});
            navigate(placeOf({ kind, id }), { replace: true, state: { saved: true } });
          }}
        >
          <span className="small">{keptBy && notSavedYet(keptBy)}</span>
        </RecordForm>
      </main>
    </>
  );
}
