import { useMemo, useState } from "react";
import { Link } from "wouter";
import type { CatalogTool } from "../../jobs/catalog/catalog.ts";
import { writer } from "../../jobs/display.ts";
import type { Tool, ToolString } from "../../jobs/records/equipment.ts";
import type { Library } from "../../jobs/store/library.ts";
import { fitsOf, isTooLarge, verdictsOf, worstOf } from "../../jobs/stringFit.ts";
import { fitInShort } from "../../jobs/stringFitWords.ts";
import { inserted, moved, swapped, takenOut } from "../../jobs/toolString.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useSettings } from "../settings.ts";
import { useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { CatalogDialog } from "./CatalogDialog.tsx";
import { Photographs } from "./Photographs.tsx";
import { StringFits } from "./StringFits.tsx";
import { StringPicture } from "./StringPicture.tsx";
import { ToolRow } from "./ToolRow.tsx";
import { useStringDraft } from "./useStringDraft.ts";
import "./StringBuilder.css";

export default function StringBuilder({ id }: { readonly id: string }) {
  const library = useLibrary();
  if (!library) return <main className="page" aria-busy="true" />;
  const record = library.strings.find((each) => each.id === id);
  return record ? (
    <Builder key={id} record={record} library={library} />
  ) : (
    <Nowhere what="tool string" />
  );
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
}

/** A string put together for gloves: the tools top down, what it comes to, and whether it fits. */
function Builder({ record, library }: BuilderProps) {
  const { units } = useSettings();
  const write = useMemo(() => writer(units), [units]);
  const draft = useStringDraft(record);
  const { string, change } = draft;
  const { tools } = string;
  const [open, setOpen] = useState<string>();
  const [choosing, setChoosing] = useState<Choosing>();
  const [said, setSaid] = useState("");
  const fits = fitsOf(string, library);

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
          <Link href={`/edit/strings/${string.id}`} className="button quiet">
            Change the tools' figures
          </Link>
          {draft.unsaved && (
            <HoldButton
              label="Put back as saved"
              consequence="Every change since then is gone."
              aside
              onHeld={() => {
                draft.putBack();
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
        {(draft.unsaved || said || draft.problem) && (
          <section className="string-save" aria-label="Saving">
            <div className="string-standing">
              <Standing fits={fits} write={write} />
              <p role="status">
                {said} {draft.unsaved && "Not saved yet: kept on this screen."}
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
        )}
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
