import { useCallback, useEffect, useState } from "react";
import { arrivalOf, type Preference, type Preview, previewPack } from "../../jobs/pack/arrival.ts";
import { shownName } from "../../jobs/pack/fileNames.ts";
import { type LockedPack, readPackFile } from "../../jobs/pack/locked.ts";
import { MOST_CHARACTERS, type Pack, tooLarge } from "../../jobs/pack/pack.ts";
import type { Library } from "../../jobs/store/library.ts";
import { useStore } from "../storeContext.ts";
import { useDialog } from "../useDialog.ts";
import { notImported } from "./notImported.ts";
import { OpenLocked } from "./OpenLocked.tsx";
import { PackPreview } from "./PackPreview.tsx";
import "./Packs.css";

/** Where a file is on its way in. */
type Stage =
  | { readonly is: "none" }
  | { readonly is: "reading"; readonly file: string }
  | { readonly is: "locked"; readonly file: string; readonly locked: LockedPack }
  | {
      readonly is: "read";
      readonly file: string;
      readonly pack: Pack;
      readonly preview: Preview;
      readonly library: Library;
    }
  | { readonly is: "imported"; readonly file: string };

interface PackDialogProps {
  /** came by itself: dropped, opened or shared */
  readonly given: File | undefined;
  readonly onClose: () => void;
}

/** Import of a pack: what it would bring is shown before anything is written, and it is all or nothing. */
export default function PackDialog({ given, onClose }: PackDialogProps) {
  const store = useStore();
  const dialog = useDialog();
  const [stage, setStage] = useState<Stage>({ is: "none" });
  const [choices, setChoices] = useState<ReadonlyMap<string, Preference>>(new Map());
  const [problem, setProblem] = useState("");
  const [writing, setWriting] = useState(false);

  const look = useCallback(
    async (file: string, pack: Pack) => {
      const [library, events] = await Promise.all([store.library(), store.allEvents()]);
      const preview = previewPack(pack, library, events);
      setChoices(new Map());
      setProblem("");
      setStage({ is: "read", file, pack, preview, library });
    },
    [store],
  );

  const choose = useCallback(
    async (chosen: File | undefined) => {
      setStage({ is: "none" });
      setProblem("");
      if (!chosen) return;
      const file = shownName(chosen.name);
      const refuse = (why: string) => {
        setStage({ is: "none" });
        setProblem(`${file}: ${why}`);
      };
      // No text has more characters than bytes four times over, and a locked pack less than twice those of an open one.
      const huge = tooLarge(chosen.size, MOST_CHARACTERS * 4);
      if (huge) return refuse(huge);
      setStage({ is: "reading", file });
      try {
        const read = readPackFile(await chosen.text());
        if (read.ok === "locked") setStage({ is: "locked", file, locked: read.locked });
        else if (read.ok) await look(file, read.pack);
        else refuse(read.why);
      } catch (error) {
        refuse(`it could not be read: ${(error as Error).message}. Choose it again.`);
      }
    },
    [look],
  );
  useEffect(() => {
    if (given) void choose(given);
  }, [given, choose]);

  const write = async () => {
    if (stage.is !== "read" || writing) return;
    const { file, pack, preview, library } = stage;
    setWriting(true);
    try {
      const copy = { made: new Date().toISOString(), why: `before ${file} was imported` };
      const arrival = arrivalOf(
        pack,
        preview,
        library,
        ({ kind, id }) => choices.get(`${kind} ${id}`) ?? "keep mine",
      );
      await store.receive({ ...arrival, copy });
      setStage({ is: "imported", file });
      setProblem("");
    } catch (error) {
      setProblem(notImported(error));
    }
    setWriting(false);
  };

  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="pack-title">
      <div className="pack-dialog">
        <h2 id="pack-title">Import a pack</h2>
        <label>
          Pack file
          <input
            type="file"
            accept=".json,.txt,application/json,text/plain"
            onChange={(event) => void choose(event.target.files?.[0])}
          />
        </label>
        {stage.is === "none" && !problem && (
          <p className="small soft">Or drop it here. Nothing is written before you say so.</p>
        )}
        {stage.is === "reading" && (
          <p className="pack-wrap" role="status">
            Reading and checking {stage.file}…
          </p>
        )}
        {problem && (
          <p className="problem pack-wrap" role="alert">
            {problem}
          </p>
        )}
        {stage.is === "locked" && (
          <OpenLocked
            key={stage.file}
            file={stage.file}
            locked={stage.locked}
            onOpened={(pack) => look(stage.file, pack)}
          />
        )}
        {stage.is === "imported" && (
          <p className="pack-wrap" role="status">
            {stage.file} is imported. What was here before is put aside under Storage.
          </p>
        )}
        {stage.is === "read" && (
          <PackPreview
            file={stage.file}
            preview={stage.preview}
            choices={choices}
            onChoices={(next) => setChoices(next)}
          />
        )}
        <div className="row">
          {stage.is === "read" && stage.preview.clashes.length === 0 && (
            <button
              type="button"
              className="button next pack-wrap"
              disabled={writing}
              onClick={() => void write()}
            >
              Import {stage.file}
            </button>
          )}
          <button type="button" className="button quiet" onClick={onClose}>
            Close
          </button>
        </div>
      </div>
    </dialog>
  );
}
