import { format, parseISO } from "date-fns";
import { useMemo, useState } from "react";
import { Link } from "wouter";
import { opened, underWork, withComplaint } from "../../jobs/diagnosis/changeInvestigation.ts";
import { closingBands } from "../../jobs/diagnosis/closingBands.ts";
import { piecesInWords } from "../../jobs/diagnosis/inWords.ts";
import type { AboutWell } from "../../jobs/diagnosis/rank.ts";
import { writer } from "../../jobs/display.ts";
import { isOnWell } from "../../jobs/library/history.ts";
import { logsByJob } from "../../jobs/log/logsByJob.ts";
import { lookedAt } from "../../jobs/lookedAt.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import { mandrelResultId } from "../../jobs/results/atMandrel.ts";
import { asPlanned, siteAtmosphere } from "../../jobs/results/context.ts";
import { wholeWellOf } from "../../jobs/results/mandrelResults.ts";
import { foldJob, type JobState } from "../../jobs/state/jobState.ts";
import type { Library } from "../../jobs/store/library.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useBegun, useKeeping } from "../keptDraft.ts";
import { PocketsBefore } from "../Library/PocketsBefore.tsx";
import { usePocketHistory } from "../Library/usePocketHistory.ts";
import { useSettings } from "../settings.ts";
import { useAllEvents, useLibrary, useStore } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { notSaved } from "../useJob.ts";
import { Agree, Agreed } from "./Agree.tsx";
import { Answer } from "./Answer.tsx";
import { Begin } from "./Begin.tsx";
import { EvidencePart } from "./EvidencePart.tsx";
import {
  type KeptHere,
  keepWords,
  keptEvidenceDraft,
  keptLogDraft,
  keptWords,
} from "./evidenceDrafts.ts";
import { Pictures } from "./Pictures.tsx";
import { type Changing, useChange } from "./useChange.ts";
import { useRanking } from "./useRanking.ts";
import "./WhichValve.css";

/** Which valve of a well is at fault: the evidence, what it says, and what the engineer agrees to do. */
export default function WhichValveScreen({ id }: { readonly id: string }) {
  const library = useLibrary({ wells: [id], investigationsOf: [id], whole: ["policies"] });
  const events = useAllEvents();
  const begun = useBegun(id, async (store) => ({
    complaint: await keptWords(store, id, "complaint"),
  }));
  const states = useMemo(
    () =>
      events &&
      [...logsByJob(events).values()].flatMap((log) =>
        log.some(isOnWell(id)) ? foldedOf(log) : [],
      ),
    [events, id],
  );
  if (!library || !states || !begun) return <main className="page" aria-busy="true" />;
  const well = library.wells.find((each) => each.id === id);
  if (!well) return <Nowhere what="well" />;
  const now = underWork(library.investigations);
  return (
    <>
      <TopBar title={`Which valve is at fault: ${well.name}`} />
      <main className="page fault">
        {now ? (
          <Begun key={now.id} investigation={now} well={well} library={library} states={states} />
        ) : (
          <Begin well={well} begun={begun.complaint} />
        )}
        <Before all={library.investigations} now={now} />
        <section className="fault-record">
          <PocketsBefore well={well} />
          <Link href={`/wells/${well.id}`} className="button quiet">
            The well on lift
          </Link>
        </section>
      </main>
    </>
  );
}

/** A log that cannot be read says so on its own screens. */
function foldedOf(log: Parameters<typeof foldJob>[0]): JobState[] {
  try {
    return [foldJob(log)];
  } catch {
    return [];
  }
}

interface OfProps {
  readonly investigation: Investigation;
  readonly well: Well;
  readonly library: Library;
  readonly states: readonly JobState[];
}

function Begun(props: OfProps) {
  const { id } = props.investigation;
  const kept = useBegun<KeptHere>(id, async (store) => ({
    evidence: await keptEvidenceDraft(store, id),
    trend: await keptLogDraft(store, id, "trend"),
    survey: await keptLogDraft(store, id, "survey"),
    reason: await keptWords(store, id, "reason"),
    complaint: await keptWords(store, id, "complaint"),
  }));
  if (!kept) return <section aria-busy="true" />;
  return <Looked {...props} kept={kept} />;
}

function Looked({ investigation, well, library, states, kept }: OfProps & { kept: KeptHere }) {
  const { units } = useSettings();
  const changing = useChange(investigation.id);
  const atmosphere = siteAtmosphere({ well });
  const write = useMemo(() => writer(units, atmosphere), [units, atmosphere]);
  const results = useMemo(() => wholeWellOf(lookedAt(well, library), asPlanned), [well, library]);
  const bands = useMemo(() => closingBands(results), [results]);
  const { path: found } = results.context;
  const path = found.ok ? found.value : undefined;
  const levels = well.mandrels.flatMap(({ number }) => {
    const depth = results.value(mandrelResultId("tvd", number));
    return depth === undefined ? [] : [{ depth, label: String(number) }];
  });
  const history = usePocketHistory(well);
  const given: AboutWell = {
    well,
    valves: library.valves,
    policy: library.policies[0],
    history: (history ?? []).flatMap(({ befell }) => befell),
  };
  const key = JSON.stringify([
    investigation.evidence,
    units,
    history,
    well.revision,
    library.valves.map(({ id, revision }) => `${id} ${revision}`),
  ]);
  const now = useRanking({ given, investigation, units, atmosphere }, key);
  const { answer } = now;
  const ranking =
    answer.is === "there" && !("needs" in answer.ranking) ? answer.ranking : undefined;
  const jobs = states.flatMap(({ events, programme }) => {
    const started = events.find(({ body }) => body.type === "run started");
    return started ? [{ at: started.at, says: `job: ${programme?.job.reason ?? ""}` }] : [];
  });
  return (
    <>
      <div className="fault-evidence">
        <Complaint investigation={investigation} kept={kept.complaint} changing={changing} />
        <EvidencePart
          investigation={investigation}
          well={well}
          path={path}
          states={states}
          kept={kept}
          writer={write}
          changing={changing}
        />
      </div>
      <div className="fault-says">
        <Answer now={now} investigation={investigation} well={well} />
        {ranking && (
          <Agree
            investigation={investigation}
            ranking={ranking}
            well={well}
            begun={kept.reason}
            changing={changing}
          />
        )}
        {!ranking && investigation.agreed && <Agreed agreed={investigation.agreed} />}
      </div>
      <Pictures
        investigation={investigation}
        ranking={ranking}
        hasStream={well.stream !== undefined}
        path={path}
        levels={levels}
        bands={bands}
        results={results}
        jobs={jobs}
        writer={write}
      />
      <Ends investigation={investigation} well={well} />
    </>
  );
}

interface ComplaintProps {
  readonly investigation: Investigation;
  readonly kept: string;
  readonly changing: Changing;
}

/** What made somebody look, as it was said when the investigation was opened, or better since. */
function Complaint({ investigation, kept, changing }: ComplaintProps) {
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

/** A new look at the well, and the end of one that was opened in error. */
function Ends({
  investigation,
  well,
}: {
  readonly investigation: Investigation;
  readonly well: Well;
}) {
  const store = useStore();
  const { actor } = useSettings();
  // One id, so that two quick taps begin one investigation.
  const [fresh] = useState(() => crypto.randomUUID());
  const [problem, setProblem] = useState("");
  const tried = async (work: () => Promise<unknown>) => {
    try {
      await work();
      setProblem("");
    } catch (error) {
      setProblem(notSaved(error));
    }
  };
  const begin = () => {
    if (!actor) {
      setProblem("Say first who holds this tablet: the name goes on the investigation.");
      return;
    }
    const at = new Date().toISOString();
    void tried(() => store.put("investigations", opened(fresh, well.id, "", actor, at)));
  };
  return (
    <details className="fault-ends">
      <summary>Look anew, or take this investigation away</summary>
      <p>
        A new investigation begins without evidence. This one is kept, with what was agreed, below
        it.
      </p>
      <button type="button" className="button" onClick={begin}>
        Begin a new investigation
      </button>
      {investigation.agreed?.job === undefined && (
        <HoldButton
          label="Take this investigation away"
          consequence={`With it: ${piecesInWords(investigation.evidence.length)}. Nothing else changes.`}
          aside
          onHeld={() => void tried(() => store.remove({ investigations: [investigation.id] }))}
        />
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </details>
  );
}

interface BeforeProps {
  readonly all: readonly Investigation[];
  readonly now: Investigation | undefined;
}

/** Those of before, as they ended. */
function Before({ all, now }: BeforeProps) {
  const before = all
    .filter(({ id }) => id !== now?.id)
    .sort((a, b) => b.opened.localeCompare(a.opened));
  if (before.length === 0) return null;
  return (
    <details className="fault-before">
      <summary>Investigated before: {before.length}</summary>
      {before.map(({ id, opened: at, openedBy, complaint, evidence, agreed }) => (
        <section key={id} className="card">
          <h3>{format(parseISO(at), "d MMM yyyy")}</h3>
          <p>{complaint ?? "Nobody said what made them look."}</p>
          <p className="small soft">
            Opened by {openedBy}; {piecesInWords(evidence.length)}
          </p>
          {agreed ? <Agreed agreed={agreed} /> : <p>Nothing was agreed.</p>}
        </section>
      ))}
    </details>
  );
}
