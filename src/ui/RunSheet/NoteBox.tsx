import { format } from "date-fns";
import { useState } from "react";
import { addNote } from "../../jobs/commands/run.ts";
import { type LiveJob, useAct } from "../useJob.ts";
import { useHalfTyped } from "./useHalfTyped.ts";

interface NoteBoxProps {
  readonly live: LiveJob;
  /** step, hold point or contingency it belongs to */
  readonly step: string;
}

/** Remarks of a step, those made and the next: signed and kept like everything else. */
export function NoteBox({ live, step }: NoteBoxProps) {
  const own = live.state.notes.filter((note) => note.step === step);
  return (
    <>
      {own.length > 0 && (
        <ul className="notes-kept" aria-label="Notes">
          {own.map(({ event, text }) => (
            <li key={event.hash}>
              {text}{" "}
              <span className="small soft">
                {format(new Date(event.at), "d MMM HH:mm")}, {event.actor.name}
              </span>
            </li>
          ))}
        </ul>
      )}
      {live.state.stage !== "approved" && <NextNote job={live.id} step={step} />}
    </>
  );
}

function NextNote({ job, step }: { readonly job: string; readonly step: string }) {
  const act = useAct(job);
  const draft = `${step}, note`;
  const kept = useHalfTyped(job, draft, {});
  const text = kept.fields.note?.text ?? "";
  const [asked, setAsked] = useState<boolean>();
  const [said, setSaid] = useState("");
  const [problem, setProblem] = useState("");
  // What was half typed when the tablet went dark is in sight again, until somebody puts it away.
  if (!(asked ?? text !== "")) {
    return (
      <div className="row">
        <button type="button" className="button quiet" onClick={() => setAsked(true)}>
          Add a note
        </button>
        {said && <span role="status">{said}</span>}
      </div>
    );
  }
  const keep = async () => {
    const done = await act((situation) => addNote(situation, text, step), {
      recorded: { job, step: draft },
    });
    setSaid(done.ok ? "Note saved." : "");
    setProblem(done.ok ? "" : done.why);
    if (!done.ok) return;
    kept.recorded();
    setAsked(undefined);
  };
  return (
    <div className="note-box">
      <label>
        Note
        <textarea
          rows={3}
          value={text}
          onChange={(event) => kept.change("note", { text: event.target.value })}
        />
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="row">
        <button type="button" className="button" onClick={() => void keep()}>
          Save the note
        </button>
        <button type="button" className="button quiet" onClick={() => setAsked(false)}>
          No note
        </button>
      </div>
    </div>
  );
}
