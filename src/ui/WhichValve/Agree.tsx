import { format, parseISO } from "date-fns";
import { useId, useState } from "react";
import { Link } from "wouter";
import { agree } from "../../jobs/diagnosis/changeInvestigation.ts";
import { chanceInWords } from "../../jobs/diagnosis/inWords.ts";
import { answerInWords, nextActionFor } from "../../jobs/diagnosis/nextAction.ts";
import type { Ranked, Ranking } from "../../jobs/diagnosis/ranking.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Job } from "../../jobs/records/job.ts";
import type { Well } from "../../jobs/records/well.ts";
import { useKeeping } from "../keptDraft.ts";
import { useSettings } from "../settings.ts";
import { useStore } from "../storeContext.ts";
import { keepWords } from "./evidenceDrafts.ts";
import type { Changing } from "./useChange.ts";

interface AgreeProps {
  readonly investigation: Investigation;
  readonly ranking: Ranking;
  readonly well: Well;
  /** of the well, on this tablet */
  readonly jobs: readonly Job[];
  /** what the evidence says now, where that is something else than what was agreed on */
  readonly otherwise: string | undefined;
  /** of the reason, as the tablet had it */
  readonly begun: string;
  readonly changing: Changing;
}

const CHOICES = 5;

/** The production engineer agrees target and reason before wire goes in the hole; a job names both. */
export function Agree(props: AgreeProps) {
  const { investigation, ranking, well, jobs, otherwise, begun, changing } = props;
  const { agreed } = investigation;
  const [anew, setAnew] = useState(false);
  const ofAgreed = ranking.ranked.find(({ hypothesis }) => hypothesis.id === agreed?.hypothesis);
  return (
    <section className="fault-agree" aria-labelledby="fault-agree">
      <h2 id="fault-agree">Target and reason</h2>
      <p className="caution">
        <strong>Usual caution.</strong>
        <span>
          H2S at gauges; trapped pressure in needle valves. The production engineer agrees target
          and reason before wire goes in the hole.
        </span>
      </p>
      {agreed && !anew ? (
        <>
          <Agreed agreed={agreed} jobs={jobs} otherwise={otherwise} />
          {ofAgreed && answerInWords(ofAgreed, ranking) !== agreed.says && !agreed.job && (
            <p className="notice">
              The answer reads otherwise now than when it was agreed:{" "}
              {otherwise ?? `${ofAgreed.hypothesis.title}, ${chanceInWords(ofAgreed.probability)}.`}{" "}
              Look again before a job is made.
            </p>
          )}
          {ofAgreed && !agreed.job && (
            <Action of={ofAgreed} investigation={investigation} well={well} />
          )}
          {!ofAgreed && !agreed.job && (
            <p className="notice">
              What was agreed on is not among the answers any more. Agree anew.
            </p>
          )}
          {!agreed.job && (
            <button type="button" className="button quiet" onClick={() => setAnew(true)}>
              Agree anew
            </button>
          )}
        </>
      ) : (
        <AgreeForm
          investigation={investigation}
          ranking={ranking}
          begun={begun}
          changing={changing}
          onDone={() => setAnew(false)}
        />
      )}
    </section>
  );
}

interface AgreedProps extends Pick<AgreeProps, "jobs"> {
  readonly agreed: NonNullable<Investigation["agreed"]>;
  readonly otherwise?: string | undefined;
}

export function Agreed({ agreed, jobs, otherwise }: AgreedProps) {
  return (
    <div className="card fault-agreed">
      <p>
        Agreed by {agreed.by}, {format(parseISO(agreed.at), "d MMM yyyy HH:mm")}
      </p>
      <p>
        <strong>{agreed.says}</strong>
      </p>
      <p>{agreed.reason}</p>
      {agreed.job && otherwise && (
        <p className="caution" role="status">
          <span aria-hidden="true">!</span>
          <span>
            <strong>A job was made from this, and the evidence says otherwise now.</strong>{" "}
            {otherwise} The job stays as it was made; its brief says this, too.
          </span>
        </p>
      )}
      {agreed.job &&
        (jobs.some(({ id }) => id === agreed.job) ? (
          <Link href={`/jobs/${agreed.job}`} className="button">
            The job it led to
          </Link>
        ) : (
          <p>The job it led to is not on this tablet.</p>
        ))}
    </div>
  );
}

interface ActionProps {
  readonly of: Ranked;
  readonly investigation: Investigation;
  readonly well: Well;
}

/** What comes next: a job in one tap, or what it is instead. */
function Action({ of, investigation, well }: ActionProps) {
  const action = nextActionFor(of.hypothesis.fault, well);
  if (action.is === "other") return <p className="notice">{action.says}</p>;
  const address = new URLSearchParams({
    well: well.id,
    mandrel: action.mandrel.id,
    investigation: investigation.id,
  });
  return (
    <>
      {action.also && <p className="notice">{action.also}</p>}
      <div className="row">
        <Link href={`/plan?${address}`} className="button next">
          Make the job: mandrel {action.mandrel.number}
        </Link>
      </div>
    </>
  );
}

interface AgreeFormProps extends Omit<AgreeProps, "well" | "jobs" | "otherwise"> {
  readonly onDone: () => void;
}

function AgreeForm({ investigation, ranking, begun, changing, onDone }: AgreeFormProps) {
  const id = useId();
  const store = useStore();
  const { actor } = useSettings();
  const [chosen, setChosen] = useState<string>();
  const [reason, setReason] = useState(begun);
  const [problem, setProblem] = useState("");
  useKeeping(reason, begun, (words, changed) =>
    keepWords(store, investigation.id, "reason", words, changed),
  );
  const isEngineer = actor?.role === "production engineer";
  const keep = async () => {
    const of = ranking.ranked.find(({ hypothesis }) => hypothesis.id === chosen);
    if (!isEngineer || !actor) {
      setProblem(
        "Only the production engineer agrees. Say on top of the screen who holds the tablet.",
      );
    } else if (!of) setProblem("Choose what is agreed on.");
    else if (reason.trim() === "") setProblem("Say why: it goes on the job.");
    else if (reason.trim().length > 4000) {
      setProblem(`${reason.trim().length} characters; at most 4,000.`);
    } else {
      setProblem("");
      const at = new Date().toISOString();
      const agreed = {
        at,
        by: actor.name,
        hypothesis: of.hypothesis.id,
        says: answerInWords(of, ranking),
        reason: reason.trim(),
      };
      const done = await changing.change(agree(agreed), `Saved: agreed by ${actor.name}.`);
      if (!done) return;
      await keepWords(store, investigation.id, "reason", "").catch(() => {});
      onDone();
    }
  };
  return (
    <div className="fault-agree-form">
      <fieldset className="fault-choices">
        <legend>The production engineer agrees on</legend>
        {ranking.ranked.slice(0, CHOICES).map(({ hypothesis, probability }) => (
          <label key={hypothesis.id}>
            <input
              type="radio"
              className="round-mark"
              name={`${id}-agreed`}
              checked={chosen === hypothesis.id}
              onChange={() => setChosen(hypothesis.id)}
            />
            <span>
              {hypothesis.title}, {chanceInWords(probability)}
            </span>
          </label>
        ))}
      </fieldset>
      <label>
        Why
        <textarea rows={3} value={reason} onChange={(event) => setReason(event.target.value)} />
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {changing.problem && (
        <p className="problem" role="alert">
          {changing.problem}
        </p>
      )}
      <div className="row">
        <button type="button" className="button" onClick={() => void keep()}>
          Agree on it{isEngineer ? ` as ${actor?.name}` : ""}
        </button>
        {!isEngineer && <span className="small soft">The production engineer does this.</span>}
      </div>
    </div>
  );
}
