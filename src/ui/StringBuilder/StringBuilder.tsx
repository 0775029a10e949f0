import { useMemo, useState } from "react";
import { Link, useSearch } from "wouter";
import type { CatalogTool } from "../../jobs/catalog/catalog.ts";
import { writer } from "../../jobs/display.ts";
import type { Tool, ToolString } from "../../jobs/records/equipment.ts";
import type { Library } from "../../jobs/store/library.ts";
import type { StringDraft } from "../../jobs/stringDraft.ts";
import { fitsOf, isTooLarge, verdictsOf, worstOf } from "../../jobs/stringFit.ts";
import { fitInShort } from "../../jobs/stringFitWords.ts";
import { isOver, keepsOld, standingsOf } from "../../jobs/stringJobs.ts";
import { inserted, moved, swapped, takenOut } from "../../jobs/toolString.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { notSavedYet } from "../keptDraft.ts";
import { useSettings } from "../settings.ts";
import { useAllEvents, useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { CatalogDialog } from "./CatalogDialog.tsx";
import { CopyForJob, useNamedJob } from "./CopyForJob.tsx";
import { Photographs } from "./Photographs.tsx";
import { StringFits } from "./StringFits.tsx";
import { StringPicture } from "./StringPicture.tsx";
import { ToolRow } from "./ToolRow.tsx";
import { useKeptDraft, useStringDraft } from "./useStringDraft.ts";
import "./StringBuilder.css";

export default function StringBuilder({ id }: { readonly id: string }) {
  const library = useLibrary({ jobs: "all", records: { strings: [id] } });
  const record = library?.strings.find((each) => each.id === id);
  const begun = useKeptDraft(record);
  if (library && !record) return <Nowhere what="tool string" />;
  if (!library || !record || !begun) return <main className="page" aria-busy="true" />;
  return <Builder key={id} record={record} library={library} begun={begun} />;
}

/** Where a part of the catalog goes. */
interface Choosing {
  readonly index: number;
  /** the tool that it takes the place of */
  readonly inPlaceOf?: Tool;
}

interface BuilderProps {
  readonly record: ToolString;
  readonly library: Library;
  readonly begun: StringDraft;
}

/** A string put together for gloves: the tools top down, what it comes to, and whether it fits. */
function Builder({ record, library, begun }: BuilderProps) {
  const { units } = useSettings();
  const write = useMemo(() => writer(units), [units]);
  const draft = useStringDraft(record, begun);
  const { string, change } = draft;
  const { tools } = string;
  const [open, setOpen] = useState<string>();
  const [choosing, setChoosing] = useState<Choosing>();
  const [said, setSaid] = useState("");
  const events = useAllEvents();
  const standings = useMemo(
    () => standingsOf(record, library, events ?? []),
    [record, library, events],
  );
  const fits = fitsOf(string, library, new Set(standings.filter(isOver).map(({ job }) => job.id)));
  const job = useNamedJob(library);
  const fromPlan = new URLSearchParams(useSearch()).get("back") === "plan";

  const act = (next: readonly Tool[], saying: string) => {
    change(() => ({ tools: next }));
    setSaid(saying);
  };
  const choose = ({ part }: CatalogTool) => {
    if (!choosing) return;
    const { index, inPlaceOf } = choosing;
    const chosen: Tool = { ...part, id: crypto.randomUUID() };
    act(
      inPlaceOf ? swapped(tools, index, chosen) : inserted(tools, index, chosen),
      inPlaceOf ? `${inPlaceOf.name} swapped for ${part.name}.` : `${part.name} added.`,
    );
    setOpen(undefined);
    setChoosing(undefined);
  };
  // Its first words are only read out where the region that says them was there before.
  const nothingToSay = !draft.unsaved && !said && !draft.problem;
  const save = async () => {
    setSaid("");
    if (await draft.save()) setSaid("Saved.");
  };

  return (
    <>
      <TopBar title={`String ${string.name}`} />
      <main className="page string-builder">
        <div className="string-cell-fits">
          <StringFits string={string} fits={fits} writer={write} />
        </div>
        <section aria-labelledby="string-tools" className="string-tools">
          <h2 id="string-tools">Tools, top down</h2>
          <ol>
            {tools.map((tool, index) => (
              <ToolRow
                key={tool.id}
                tool={tool}
                place={index + 1}
                of={tools.length}
                tooLarge={isTooLarge(tool, worstOf(fits, "bore"))}
                open={open === tool.id}
                onOpen={() => setOpen(open === tool.id ? undefined : tool.id)}
                onMove={(by) =>
                  act(
                    moved(tools, index, by),
                    `${tool.name} is now at place ${index + 1 + by} of ${tools.length}.`,
                  )
                }
                onSwap={() => setChoosing({ index, inPlaceOf: tool })}
                onAddBelow={() => setChoosing({ index: index + 1 })}
                onTakeOut={() => {
                  act(takenOut(tools, index), `${tool.name} taken out.`);
                  setOpen(undefined);
                }}
              />
            ))}
          </ol>
          <button
            type="button"
            className="button string-add"
            onClick={() => setChoosing({ index: tools.length })}
          >
            Add a tool at the bottom
          </button>
          {draft.unsaved ? (
            // The editor would save another revision under the changes that are begun here.
            <p className="small">Save first to change the tools' figures.</p>
          ) : (
            <Link href={`/edit/strings/${string.id}`} className="button quiet">
              Change the tools' figures
            </Link>
          )}
          {fromPlan && (
            <Link href="/plan" className="button">
              Back to the plan
            </Link>
          )}
          {job && (
            <CopyForJob string={string} job={job} library={library} onTaken={draft.putBack} />
          )}
          {draft.unsaved && (
            <HoldButton
              label="Put back as saved"
              consequence="Every change since then is gone."
              aside
              onHeld={() => {
                void draft.putBack();
                setSaid("Put back as saved.");
              }}
            />
          )}
        </section>
        <div className="string-cell-picture">
          <StringPicture string={string} fits={fits} writer={write} />
        </div>
        <Photographs
          string={string}
          unsaved={draft.unsaved}
          onAdd={(photograph) => {
            change(({ photographs }) => ({ photographs: [...photographs, photograph] }));
            setSaid("Photograph added.");
          }}
          onTakeOut={(index) => {
            change(({ photographs }) => ({ photographs: photographs.toSpliced(index, 1) }));
            setSaid(`Photograph ${index + 1} taken out.`);
          }}
        />
        <section className={`string-save${nothingToSay ? " empty" : ""}`} aria-label="Saving">
          <div className="string-standing">
            {draft.unsaved && <Standing fits={fits} write={write} />}
            {draft.unsaved &&
              keepsOld(record, standings).map((says) => (
                <p key={says} className="small">
                  {says}
                </p>
              ))}
            <p role="status">
              {said} {draft.unsaved && notSavedYet(draft.keptBy)}
              {tools.length === 0 && " A string has at least one tool: add one."}
            </p>
            {(draft.problem || draft.outdated) && (
              <p className="problem" role="alert">
                {draft.problem ||
                  "Somebody saved this string since you began, and yours cannot be saved over theirs. Note what you changed, put the string back as saved, and change it again."}
              </p>
            )}
          </div>
          {draft.unsaved && (
            <button
              type="button"
              className="button next"
              disabled={draft.saving || draft.outdated || tools.length === 0}
              onClick={() => void save()}
            >
              {draft.saving ? "Saving…" : "Save the string"}
            </button>
          )}
        </section>
      </main>
      {choosing && (
        <CatalogDialog
          inPlaceOf={choosing.inPlaceOf}
          onChoose={choose}
          onClose={() => setChoosing(undefined)}
        />
      )}
    </>
  );
}

interface StandingProps {
  readonly fits: ReturnType<typeof fitsOf>;
  readonly write: ReturnType<typeof writer>;
}

/** What does not fit, in a few words, where the thumb is: the verdict itself may be scrolled away. */
function Standing({ fits, write }: StandingProps) {
  const wrong = verdictsOf(fits)
    .filter(({ state }) => state === "does not fit")
    .map(({ aspect, fit }) => fitInShort(fit, aspect, write));
  if (wrong.length === 0) return null;
  return <p className="string-wrong">It does not fit: {wrong.join("; ")}.</p>;
}
