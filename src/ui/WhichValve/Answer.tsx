import { useEffect, useState } from "react";
import { Link } from "wouter";
import { kindNames } from "../../jobs/diagnosis/evidenceFields.ts";
import { chanceInWords, evidenceInWords, piecesInWords } from "../../jobs/diagnosis/inWords.ts";
import type { InSum, NoRanking, Ranked, Ranking, Weighed } from "../../jobs/diagnosis/ranking.ts";
import { samePocketOf } from "../../jobs/diagnosis/samePocket.ts";
import { surfaceFirst } from "../../jobs/diagnosis/surfaceFirst.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { RankingNow } from "./useRanking.ts";

/** Short of this a person does not look for a sign that work is under way. */
const QUIET_MS = 200;
const LONG_MS = 2000;

/** What the evidence says, as far as it goes: words first, then every answer with how likely it is. */
export function Answer({
  now,
  investigation,
  well,
}: {
  readonly now: RankingNow;
  readonly investigation: Investigation;
  readonly well: Well;
}) {
  const { answer, again } = now;
  return (
    <section className="fault-answer" aria-labelledby="fault-answer">
      <h2 id="fault-answer">What the evidence says</h2>
      {answer.is === "working" && <Working share={answer.share} onStop={now.cancel} />}
      {answer.is === "stopped" && (
        <div className="row">
          <span>Stopped.</span>
          <button type="button" className="button" onClick={again}>
            Work it out
          </button>
        </div>
      )}
      {answer.is === "failed" && (
        <div className="problem" role="alert">
          <p>
            It could not be worked out ({answer.why}). The evidence is kept. Set the piece aside
            that came last, or try again.
          </p>
          <button type="button" className="button" onClick={again}>
            Try again
          </button>
        </div>
      )}
      {/* Only the verdict is read out when it changes: not how far the work is, and not the whole list. */}
      <div aria-live="polite">
        {answer.is === "there" &&
          ("needs" in answer.ranking ? (
            <Needs needs={answer.ranking.needs} well={well} />
          ) : (
            <>
              <p className="fault-verdict">{verdictTitles[answer.ranking.verdict]}</p>
              <p>{answer.ranking.says}</p>
              {answer.ranking.saysInSum && <p>{answer.ranking.saysInSum}</p>}
            </>
          ))}
      </div>
      {answer.is === "there" && !("needs" in answer.ranking) && (
        <RankedList ranking={answer.ranking} investigation={investigation} well={well} />
      )}
    </section>
  );
}

function Working({ share, onStop }: { readonly share: number; readonly onStop: () => void }) {
  const [since, setSince] = useState<"quiet" | "short" | "long">("quiet");
  useEffect(() => {
    const timers = [
      setTimeout(() => setSince("short"), QUIET_MS),
      setTimeout(() => setSince("long"), LONG_MS),
    ];
    return () => timers.forEach(clearTimeout);
  }, []);
  if (since === "quiet") return null;
  return (
    <div className="row">
      <span role="status">Working it out…</span>
      {since === "long" && (
        <>
          <progress value={share} max={1} aria-label="How far it is" />
          <span className="figure">{Math.round(share * 100)} %</span>
          <button type="button" className="button" onClick={onStop}>
            Stop
          </button>
        </>
      )}
    </div>
  );
}

function Needs({ needs, well }: { readonly needs: NoRanking["needs"]; readonly well: Well }) {
  return (
    <div className="notice fault-needs">
      <p>
        <strong>Nothing can be said yet.</strong> It needs:
      </p>
      <ul>
        {needs.map(({ says, at }) => (
          <li key={says}>
            {at === undefined ? (
              says
            ) : (
              <Link
                href={
                  at.startsWith("/") ? at : `/edit/wells/${well.id}?at=${encodeURIComponent(at)}`
                }
              >
                {says}
              </Link>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

const verdictTitles: Readonly<Record<Ranking["verdict"], string>> = {
  "one answer": "One answer stands out",
  "two or more": "No one answer stands out",
  "not enough to tell": "Not enough evidence to tell",
  "nothing fits": "Nothing explains all of it",
};
/** The rest is there for whoever asks. */
const SHOWN = 4;

interface RankedListProps {
  readonly ranking: Ranking;
  readonly investigation: Investigation;
  readonly well: Well;
}

function RankedList({ ranking, investigation, well }: RankedListProps) {
  const { ranked, noneOfThese, verdict, next, unused, assumed } = ranking;
  const [all, setAll] = useState(false);
  const pieceOf = (id: string) => investigation.evidence.find((piece) => piece.id === id);
  const same = verdict === "two or more" ? samePocketOf(ranking) : undefined;
  const atSurface = surfaceFirst(investigation, ranking);
  // What would tell two answers of one pocket apart is there for whoever asks, the job is the same; and what was found at
  // surface is mended before anything is measured.
  // Nor is another measurement what readings that fit nothing ask for.
  const isNextFirst =
    (verdict === "two or more" || verdict === "not enough to tell") && !same && !atSurface?.found;
  // Where the next measurement is at surface anyway, it is said once.
  const surface = isNextFirst && next[0]?.kind === "supply" ? undefined : atSurface;
  const shown = all ? ranked : ranked.slice(0, SHOWN);
  return (
    <>
      {surface && (
        <p className="caution">
          <strong>Surface first.</strong>
          <span>{surface.says}</span>
        </p>
      )}
      {isNextFirst && next[0] && <Next next={next[0]} />}
      {same && <WorkedAnyway same={same} isSaid={ranking.saysInSum !== undefined} />}
      {verdict === "two or more" && !same && !surface && <StopFirst hasNext={!!next[0]} />}
      <ol className="fault-ranked">
        {shown.map((each) => (
          <RankedCard
            key={each.hypothesis.id}
            of={each}
            first={each === ranked[0]}
            beside={each === ranked[0] ? ranked[1] : ranked[0]}
          />
        ))}
        <li className="card fault-one none">
          <Chance title="None of these" probability={noneOfThese} />
        </li>
      </ol>
      {ranked.length > SHOWN && (
        <button type="button" className="button quiet" onClick={() => setAll(!all)}>
          {all ? "Show the first ones only" : `Show all ${ranked.length}`}
        </button>
      )}
      {!isNextFirst && next[0] && (
        <details>
          <summary>A measurement that would hold it against another place</summary>
          <Next next={next[0]} />
        </details>
      )}
      {unused.length > 0 && (
        <details>
          <summary>Not used: {piecesInWords(unused.length)}</summary>
          <ul className="fault-lines">
            {unused.map(({ evidence, why }) => {
              const piece = pieceOf(evidence);
              return (
                <li key={`${evidence} ${why}`}>
                  {piece
                    ? `${kindNames[piece.kind]}, ${evidenceInWords(piece, well.injectionDown)}`
                    : evidence}
                  : {why}
                </li>
              );
            })}
          </ul>
        </details>
      )}
      {assumed.length > 0 && (
        <details>
          <summary>What was assumed, for the records do not say it</summary>
          <ul className="fault-lines">
            {assumed.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

/** The likeliest answers each ask for the same job. How likely they are in sum is said once. */
function WorkedAnyway({
  same: { mandrel, probability },
  isSaid,
}: {
  readonly same: InSum["mandrels"][number];
  readonly isSaid: boolean;
}) {
  return (
    <p className="caution">
      <strong>Same pocket.</strong>
      <span>
        {isSaid
          ? `Mandrel ${mandrel} is worked whichever of them it is.`
          : `Mandrel ${mandrel} is worked in all that is likely (${chanceInWords(probability)}), whichever of them it is.`}{" "}
        What comes out tells which: look at it and test it before the next one goes in.
      </span>
    </p>
  );
}

function StopFirst({ hasNext }: { readonly hasNext: boolean }) {
  return (
    <p className="caution">
      <strong>Stop.</strong>
      <span>
        {hasNext
          ? "Take the next best measurement before rigging up: the wrong valve costs a run."
          : "No measurement that is not here yet tells the first two apart. Read again what is doubtful before rigging up: the wrong valve costs a run."}
      </span>
    </p>
  );
}

function Next({ next }: { readonly next: Ranking["next"][number] }) {
  const { what, between, ifFirst, ifSecond } = next;
  return (
    <div className="fault-next">
      <p>
        <strong>Next: {what}</strong>
      </p>
      <ul className="fault-lines">
        <li>
          If {between[0]}: {ifFirst}
        </li>
        <li>
          If {between[1]}: {ifSecond}
        </li>
      </ul>
      {next.separation < 2 && (
        <p className="small">
          It tells the two apart only in part: read it with care, more than once.
        </p>
      )}
    </div>
  );
}

function Chance({ title, probability }: { readonly title: string; readonly probability: number }) {
  return (
    <>
      <div className="fault-head">
        <h3>{title}</h3>
        <p>
          <span className="figure calculated">{Math.round(probability * 100)} %</span>,{" "}
          {chanceInWords(probability)}
        </p>
      </div>
      <svg className="fault-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
        <rect width="100" height="8" className="fault-bar-room" />
        <rect width={Math.max(0.5, probability * 100)} height="8" className="fault-bar-part" />
      </svg>
    </>
  );
}

interface RankedCardProps {
  readonly of: Ranked;
  readonly first: boolean;
  /** the answer that each line of evidence is held against */
  readonly beside: Ranked | undefined;
}

function RankedCard({ of, first, beside }: RankedCardProps) {
  const { hypothesis, probability, prior, speaksFor, speaksAgainst, speaksNeither } = of;
  const hasLines = [speaksFor, speaksAgainst, speaksNeither].some(({ length }) => length > 0);
  return (
    <li className="card fault-one">
      <Chance title={hypothesis.title} probability={probability} />
      <details open={first}>
        <summary>Why</summary>
        {beside && hasLines && <p className="small">Held against: {beside.hypothesis.title}.</p>}
        <Lines title="Speaks for it" lines={speaksFor} />
        <Lines title="Speaks against it" lines={speaksAgainst} />
        <Lines title="Speaks neither way" lines={speaksNeither} />
        <p className="small">
          Before any evidence: {chanceInWords(prior)}, from what befalls such wells and this well's
          own history.
        </p>
      </details>
    </li>
  );
}

function Lines({ title, lines }: { readonly title: string; readonly lines: readonly Weighed[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul className="fault-lines">
        {lines.map(({ evidence, kind, says }) => (
          <li key={`${evidence} ${says}`}>
            {says}
            {isFrom(kind) && <span className="small soft"> ({kindNames[kind].toLowerCase()})</span>}
          </li>
        ))}
      </ul>
    </>
  );
}

/** Gauges and pens both give pressures: which of them it was is said beside the figure. */
const isFrom = (kind: Weighed["kind"]): kind is "pressures" | "trend" | "supply" | "tracer" =>
  kind === "pressures" || kind === "trend" || kind === "supply" || kind === "tracer";
