import { useState } from "react";
import { addNote } from "../../jobs/commands/run.ts";
import { useAct } from "../useJob.ts";

interface NoteBoxProps {
  readonly job: string;
  readonly step: string;
}

/** A remark at any step, signed and kept like everything else. */
export function NoteBox({ job, step }: NoteBoxProps) {
  const act = useAct(job);
  const [open, setOpen] = useState(false);
  const [text, setText] = useState("");
  const [said, setSaid] = useState("");
  if (!open) {
    return (
      <div className="row">
        <button type="button" className="button quiet" onClick={() => setOpen(true)}>
          Add a note
        </button>
        {said && <span role="status">{said}</span>}
      </div>
    );
  }
  const keep = async () => {
    const done = await act((situation) => addNote(situation, text, step));
    setSaid(done.ok ? "Note saved." : done.why);
    if (!done.ok) return;
    setText("");
    setOpen(false);
  };
  return (
    <div className="note-box">
      <label>
        Note
        <textarea rows={3} value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      {said && <p role="status">{said}</p>}
      <div className="row">
        <button type="button" className="button" onClick={() => void keep()}>
          Save the note
        </button>
        <button type="button" className="button quiet" onClick={() => setOpen(false)}>
          No note
        </button>
      </div>
    </div>
  );
}
