import { useMemo } from "react";
import { Link } from "wouter";
import { underWork } from "../../jobs/diagnosis/changeInvestigation.ts";
import { closingBands } from "../../jobs/diagnosis/closingBands.ts";
import { begunFrom, saysOtherwise } from "../../jobs/diagnosis/standsNow.ts";
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
import { useBegun } from "../keptDraft.ts";
import { PocketsBefore } from "../Library/PocketsBefore.tsx";
import { useSettings } from "../settings.ts";
import { useAllEvents, useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { Agree, Agreed } from "./Agree.tsx";
import { Answer } from "./Answer.tsx";
import { Begin } from "./Begin.tsx";
import { Complaint } from "./Complaint.tsx";
import { Ends } from "./Ends.tsx";
import { EvidencePart } from "./EvidencePart.tsx";
import { type KeptHere, keptEvidenceDraft, keptLogDraft, keptWords } from "./evidenceDrafts.ts";
import { InvestigatedBefore } from "./InvestigatedBefore.tsx";
import { Pictures } from "./Pictures.tsx";
import { useAnswer } from "./useAnswer.ts";
import { useChange } from "./useChange.ts";
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
        <InvestigatedBefore all={library.investigations} now={now} jobs={library.jobs} />
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

function Looked({ investigation, well: now, library, states, kept }: OfProps & { kept: KeptHere }) {
  const { units } = useSettings();
  const changing = useChange(investigation.id);
  const { agreed } = investigation;
  const begun = useMemo(() => begunFrom(investigation, states), [investigation, states]);
  const well = begun?.well ?? now;
  const known = useMemo(
    () => (begun?.well ? { ...library, wells: [begun.well], valves: begun.installed } : library),
    [begun, library],
  );
  // What was read once that job had begun is of another well.
  const before = begun
    ? states.filter(({ programme }) => programme?.job.id !== agreed?.job)
    : states;
  const atmosphere = siteAtmosphere({ well });
  const write = useMemo(() => writer(units, atmosphere), [units, atmosphere]);
  const results = useMemo(() => wholeWellOf(lookedAt(well, known), asPlanned), [well, known]);
  const bands = useMemo(() => closingBands(results), [results]);
  const { path: found } = results.context;
  const path = found.ok ? found.value : undefined;
  const levels = well.mandrels.flatMap(({ number }) => {
    const depth = results.value(mandrelResultId("tvd", number));
    return depth === undefined ? [] : [{ depth, label: String(number) }];
  });
  const worked = useAnswer(investigation, well, known);
  const { answer } = worked;
  const ranking =
    answer.is === "there" && !("needs" in answer.ranking) ? answer.ranking : undefined;
  const otherwise =
    agreed && answer.is === "there" ? saysOtherwise(agreed, answer.ranking) : undefined;
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
          states={before}
          kept={kept}
          writer={write}
          changing={changing}
        />
      </div>
      <div className="fault-says">
        {begun && (
          <p className="notice">
            The run of the job it led to has begun. What is said here is of the well as it was
            before that; for what was read since, begin a new investigation.
          </p>
        )}
        <Answer now={worked} investigation={investigation} well={well} />
        {ranking && (
          <Agree
            investigation={investigation}
            ranking={ranking}
            well={well}
            jobs={library.jobs}
            otherwise={otherwise}
            begun={kept.reason}
            changing={changing}
          />
        )}
        {!ranking && agreed && <Agreed agreed={agreed} jobs={library.jobs} otherwise={otherwise} />}
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
