import { type FormEvent, type ReactNode, useEffect, useRef, useState } from "react";
import { Link, useSearch } from "wouter";
import { hereAlready } from "../../jobs/library/duplicates.ts";
import type { Entry } from "../../jobs/library/entry.ts";
import { inOtherPockets, outOfPockets } from "../../jobs/library/pocketChanges.ts";
import { entriesOf } from "../../jobs/library/search.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { Library, RecordTypes } from "../../jobs/store/library.ts";
import { Outdated } from "../../jobs/store/store.ts";
import { placeOf } from "../Library/placeOf.ts";
import { useLibraryIndex } from "../Library/useLibraryIndex.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { check, type Draft, withAt } from "./draft.ts";
import { SectionFields } from "./Fields.tsx";
import { type EditedKind, sections } from "./fields.ts";
import { LineLibrary } from "./LineLibrary.tsx";
import { PartLibrary } from "./PartLibrary.tsx";
import { backTo } from "./place.ts";

export const singular: Readonly<Record<EditedKind, string>> = {
  wells: "well",
  valves: "valve",
  tools: "tool",
  strings: "tool string",
  lines: "line",
  stacks: "pressure equipment",
  policies: "policy",
  jobs: "job",
};

interface RecordFormProps {
  readonly kind: EditedKind;
  readonly library: Library;
  /** as it is typed now */
  readonly draft: Draft;
  readonly isNew: boolean;
  readonly onTyped: (to: (before: Draft) => Draft) => void;
  /** settles when what follows on the write is done; the record is durable by then */
  readonly onSaved: (record: RecordTypes[EditedKind]) => Promise<void> | void;
  /** what it says at first */
  readonly saying?: string;
  readonly children?: ReactNode;
}

/** What was said of a field is not said of what is typed into it now. */
const without = (problems: Readonly<Record<string, string>>, path: string) =>
  Object.fromEntries(
    Object.entries(problems).filter(([of]) => of !== path && !of.startsWith(`${path}.`)),
  );

const outInWords = (serial: string) =>
  `${serial} is in no pocket now and counts as in stock: if it was pulled or scrapped, say so in its record.`;

/** Goes to a field; of a list that is empty, to the button that begins it. */
function showField(form: HTMLElement, path: string): void {
  const quoted = CSS.escape(path);
  const found =
    form.querySelector<HTMLElement>(`[data-path="${quoted}"]`) ??
    form.querySelector<HTMLElement>(`[data-list="${quoted}"]`);
  found?.closest("details")?.setAttribute("open", "");
  found?.scrollIntoView({ block: "center" });
  found?.focus({ preventScroll: true });
}

/** A record field by field; saved when the store has it durably, and not called so before. */
export function RecordForm(props: RecordFormProps) {
  const { kind, library, draft, isNew, onTyped, onSaved, saying = "", children } = props;
  const store = useStore();
  const index = useLibraryIndex();
  const form = useRef<HTMLFormElement>(null);
  const [problems, setProblems] = useState<Readonly<Record<string, string>>>({});
  const [here, setHere] = useState<Entry>();
  const [said, setSaid] = useState(saying);
  const [saving, setSaving] = useState(false);
  const search = useSearch();
  const back = backTo(search);
  // What a plan lacks is one field of many: it is where the planner's hand is.
  useEffect(() => {
    const field = new URLSearchParams(search).get("at");
    if (field !== null && form.current) showField(form.current, field);
  }, [search]);

  const change = (to: (before: Draft) => Draft) => {
    onTyped(to);
    setSaid("");
    setHere(undefined);
  };
  const refuse = (found: Readonly<Record<string, string>>) => {
    setProblems(found);
    setSaid("");
    const [first] = Object.keys(found);
    form.current?.querySelector<HTMLElement>(`[data-path="${first}"]`)?.focus();
  };

  const save = async (event: FormEvent) => {
    event.preventDefault();
    const checked = check(kind, draft);
    if (!checked.ok) {
      setHere(undefined);
      refuse(checked.problems);
      return;
    }
    setProblems({});
    setSaving(true);
    const record = {
      ...checked.record,
      revision: isNew ? 1 : checked.record.revision + 1,
    };
    try {
      const view = kind === "jobs" ? undefined : await index.upToDate();
      const found =
        view && kind !== "jobs" ? hereAlready(view.shelves, kind, record as Draft) : undefined;
      const well = kind === "wells" ? (record as Well) : undefined;
      const taken = view && well ? inOtherPockets(well, view.places) : {};
      setHere(found?.entry);
      if (found) {
        refuse({
          [found.field]: `${found.entry.name} is in the library already: ${found.entry.says}.`,
        });
      } else if (Object.keys(taken).length > 0) {
        refuse(taken);
      } else {
        const out =
          view && well ? outOfPockets(well, view.places, entriesOf(view.shelves.valves)) : [];
        await store.put(kind, record as never);
        await onSaved(record);
        setSaid(["Saved.", ...out.map(outInWords)].join(" "));
      }
    } catch (error) {
      setProblems({ "": error instanceof Outdated ? error.message : notSaved(error) });
    }
    setSaving(false);
  };

  const count = Object.keys(problems).length;
  return (
    <form ref={form} className="editor" onSubmit={(event) => void save(event)} noValidate>
      {kind === "lines" && (
        <LineLibrary onTake={(figures) => change((before) => ({ ...before, ...figures }))} />
      )}
      {kind === "strings" && (
        <PartLibrary
          onTake={(part) =>
            change((before) => ({
              ...before,
              tools: [...((before.tools as unknown[] | undefined) ?? []), part],
            }))
          }
        />
      )}
      {sections[kind].map((section) => (
        <SectionFields
          key={section.title}
          section={section}
          draft={draft}
          problems={problems}
          library={library}
          onChange={(path, value) => {
            change((before) => withAt(before, path, value));
            setProblems((before) => without(before, path));
          }}
        />
      ))}
      <div className="editor-actions">
        {count > 0 && (
          <p className="problem" role="alert">
            {problems[""] ??
              `${count === 1 ? "One entry" : `${count} entries`} cannot be kept as entered: ${Object.values(problems)[0]}`}
            {here && (
              <>
                {" "}
                <Link href={placeOf(here)}>Open {here.name}</Link>
              </>
            )}
          </p>
        )}
        {said && <p role="status">{said}</p>}
        <div className="row">
          <button
            type="submit"
            className={back && said ? "button" : "button next"}
            disabled={saving}
          >
            {saving ? "Saving…" : `Save the ${singular[kind]}`}
          </button>
          {back ? (
            <Link href={back.href} className={said ? "button next" : "button"}>
              {back.says}
            </Link>
          ) : (
            <button type="button" className="button quiet" onClick={() => history.back()}>
              Back
            </button>
          )}
          {children}
        </div>
      </div>
    </form>
  );
}
