import { format, parseISO } from "date-fns";
import { useState } from "react";
import { withComplaint } from "../../jobs/diagnosis/changeInvestigation.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import { useKeeping } from "../keptDraft.ts";
import { useStore } from "../storeContext.ts";
import { keepWords } from "./evidenceDrafts.ts";
import type { Changing } from "./useChange.ts";

interface ComplaintProps {
  readonly investigation: Investigation;
  readonly kept: string;
  readonly changing: Changing;
}

/** What made somebody look, as it was said when the investigation was opened, or better since. */
export function Complaint({ investigation, kept, changing }: ComplaintProps) {
  const store = useStore();
  const { id, complaint, openedBy, opened: at } = investigation;
  const [typing, setTyping] = useState(kept !== "");
  const [words, setWords] = useState(kept === "" ? (complaint ?? "") : kept);
  useKeeping(words, words, (now, changed) => keepWords(store, id, "complaint", now, changed));
  const leave = async () => {
    await keepWords(store, id, "complaint", "").catch(() => {});
    setTyping(false);
  };
  return (
    <section className="fault-complaint">
      <h2>What made somebody look</h2>
      {typing ? (
        <>
          <textarea
            rows={3}
            aria-label="What made somebody look"
            value={words}
            onChange={(event) => setWords(event.target.value)}
          />
          <div className="row">
            <button
              type="button"
              className="button next"
              disabled={words.trim().length > 4000}
              onClick={async () => {
                if (await changing.change(withComplaint(words), "Saved.")) await leave();
              }}
            >
              Keep these words
            </button>
            <button type="button" className="button quiet" onClick={() => void leave()}>
              Leave as it was
            </button>
          </div>
        </>
      ) : (
        <>
          <p>{complaint ?? "Nobody has said it yet."}</p>
          <p className="small soft">
            Opened by {openedBy}, {format(parseISO(at), "d MMM yyyy HH:mm")}
            {investigation.invented && ". Invented for the demonstration"}
          </p>
          <button
            type="button"
            className="button quiet"
            onClick={() => {
              setWords(complaint ?? "");
              setTyping(true);
            }}
          >
            Say it otherwise
          </button>
        </>
      )}
    </section>
  );
}
