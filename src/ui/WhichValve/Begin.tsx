import { useState } from "react";
import { opened } from "../../jobs/diagnosis/changeInvestigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { useKeeping } from "../keptDraft.ts";
import { useSettings } from "../settings.ts";
import { useStore } from "../storeContext.ts";
import { notSaved } from "../useJob.ts";
import { keepWords } from "./evidenceDrafts.ts";

/** Signs for which somebody looks (practice of the trade); the words are a beginning. */
const signs = [
  "Casing bleeds below what a valve should shut at.",
  "More gas for the same liquid.",
  "Production is down.",
  "The well heads.",
  "Injection pressure climbs, gas goes in no more.",
  "Casing settles high: lift does not transfer below.",
];

interface BeginProps {
  readonly well: Well;
  readonly begun: string;
}

/** What made somebody look: with it an investigation is opened. */
export function Begin({ well, begun }: BeginProps) {
  const store = useStore();
  const { actor } = useSettings();
  const [words, setWords] = useState(begun);
  const [id] = useState(() => crypto.randomUUID());
  const [problem, setProblem] = useState("");
  useKeeping(words, begun, (now, changed) => keepWords(store, well.id, "complaint", now, changed));
  const begin = async () => {
    if (!actor) {
      setProblem("Say first who holds this tablet: the name goes on the investigation.");
      return;
    }
    if (words.trim().length > 4000) {
      setProblem(`${words.trim().length} characters; at most 4,000.`);
      return;
    }
    try {
      const record = opened(id, well.id, words, actor, new Date().toISOString());
      await store.put("investigations", record);
      await keepWords(store, well.id, "complaint", "").catch(() => {});
    } catch (error) {
      setProblem(notSaved(error));
    }
  };
  return (
    <section className="card fault-begin" aria-labelledby="fault-begin">
      <h2 id="fault-begin">What made somebody look?</h2>
      <div className="row">
        {signs.map((sign) => (
          <button
            key={sign}
            type="button"
            className="button"
            onClick={() => setWords(words.trim() === "" ? sign : `${words.trim()} ${sign}`)}
          >
            {sign}
          </button>
        ))}
      </div>
      <label>
        In words
        <textarea rows={3} value={words} onChange={(event) => setWords(event.target.value)} />
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <div className="row">
        <button type="button" className="button next" onClick={() => void begin()}>
          Begin the investigation
        </button>
      </div>
    </section>
  );
}
