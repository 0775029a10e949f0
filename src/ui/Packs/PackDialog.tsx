import { useEffect, useState } from "react";
import { arrivalOf, type Named, type Preview, previewPack } from "../../jobs/pack/arrival.ts";
import { type Pack, readPack } from "../../jobs/pack/pack.ts";
import type { Library } from "../../jobs/store/library.ts";
import { useStore } from "../storeContext.ts";
import { useDialog } from "../useDialog.ts";
import { notImported } from "./notImported.ts";
import "./PackDialog.css";

interface Chosen {
  readonly file: string;
  readonly pack: Pack;
  readonly preview: Preview;
  readonly library: Library;
}

interface PackDialogProps {
  /** a pack that is there already; without it the person chooses one */
  readonly given?: File;
  readonly onClose: () => void;
}

/** Import of a pack: what it would bring is shown before anything is written, and it is all or nothing. */
export default function PackDialog({ given, onClose }: PackDialogProps) {
  const store = useStore();
  const dialog = useDialog();
  const [chosen, setChosen] = useState<Chosen>();
  const [problem, setProblem] = useState("");
  const [done, setDone] = useState("");

  const choose = async (file: File | undefined) => {
    setChosen(undefined);
    setProblem("");
    setDone("");
    if (!file) return;
    try {
      const read = readPack(await file.text());
      if (!read.ok) {
        setProblem(`${file.name}: ${read.why}`);
        return;
      }
      const [library, events] = await Promise.all([store.library(), store.allEvents()]);
      const preview = previewPack(read.pack, library, events);
      setChosen({ file: file.name, pack: read.pack, preview, library });
    } catch (error) {
      setProblem(`${file.name} could not be read: ${(error as Error).message}. Choose it again.`);
    }
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: read once, when it comes
  useEffect(() => {
    void choose(given);
  }, [given]);

  const write = async (preference: "keep mine" | "take theirs") => {
    if (!chosen) return;
    const { pack, preview, library, file } = chosen;
    try {
      const copy = { made: new Date().toISOString(), why: `before ${file} was imported` };
      await store.receive({ ...arrivalOf(pack, preview, library, preference), copy });
      setChosen(undefined);
      setDone(`${file} is imported.`);
    } catch (error) {
      setProblem(notImported(error));
    }
  };

  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="pack-title">
      <div className="pack-dialog">
        <h2 id="pack-title">Import a pack</h2>
        {!given && (
          <label>
            Pack file
            <input
              type="file"
              accept=".json,application/json"
              onChange={(event) => void choose(event.target.files?.[0])}
            />
          </label>
        )}
        {problem && (
          <p className="problem" role="alert">
            {problem}
          </p>
        )}
        {done && <p role="status">{done}</p>}
        {chosen && <Contents preview={chosen.preview} />}
        <div className="row">
          {chosen &&
            (chosen.preview.different.length === 0 ? (
              <button type="button" className="button next" onClick={() => void write("keep mine")}>
                Import {chosen.file}
              </button>
            ) : (
              <>
                <button type="button" className="button" onClick={() => void write("keep mine")}>
                  Import, keep what is here
                </button>
                <button type="button" className="button" onClick={() => void write("take theirs")}>
                  Import, take the pack's
                </button>
              </>
            ))}
          <button type="button" className="button quiet" onClick={onClose}>
            Close
          </button>
        </div>
      </div>
    </dialog>
  );
}

function Contents({ preview }: { readonly preview: Preview }) {
  const { fresh, same, different, newEvents, pictures, missingPictures } = preview;
  return (
    <div className="pack-contents">
      <Names title="New here" of={fresh} />
      <Names title="Here already, the same" of={same} />
      <Names title="Here already, and not the same" of={different} />
      <p>
        {newEvents} new {newEvents === 1 ? "event" : "events"} of the jobs' logs. Logs are joined;
        nothing of either is lost.
        {pictures > 0 &&
          ` ${pictures} ${pictures === 1 ? "picture comes" : "pictures come"} with them.`}
      </p>
      {missingPictures > 0 && (
        <p className="problem">
          {missingPictures} {missingPictures === 1 ? "picture" : "pictures"} that the logs name are
          not in the pack. Ask the tablet that took them for its pack.
        </p>
      )}
    </div>
  );
}

function Names({ title, of }: { readonly title: string; readonly of: readonly Named[] }) {
  if (of.length === 0) return null;
  return (
    <div>
      <h3>
        {title}: {of.length}
      </h3>
      <p>{of.map((each) => each.name).join(", ")}</p>
    </div>
  );
}
