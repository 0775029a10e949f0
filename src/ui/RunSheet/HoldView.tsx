import { format } from "date-fns";
import { type ReactNode, useState } from "react";
import { releaseHold } from "../../jobs/commands/run.ts";
import { stepToMend } from "../../jobs/sheet/walk.ts";
import { type ConditionState, isUnmet } from "../../jobs/state/conditions.ts";
import type { HoldState } from "../../jobs/state/holdState.ts";
import type { HoldItem } from "../../jobs/state/progress.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { initialsOf, Ring, type RingShape } from "../Ring/Ring.tsx";
import type { LiveJob } from "../useJob.ts";
import { useAct } from "../useJob.ts";
import { ResultRow } from "../Working/ResultRow.tsx";
import { Caution } from "./Caution.tsx";
import { ExceptionForm } from "./ExceptionForm.tsx";
import { HoldSignature } from "./HoldSignature.tsx";
import { NoteBox } from "./NoteBox.tsx";
import { Photographs } from "./Photographs.tsx";
import { StandsOn } from "./StandsOn.tsx";
import "./HoldView.css";

interface HoldViewProps {
  readonly live: LiveJob;
  readonly item: HoldItem;
  readonly onView: (id: string) => void;
  readonly onRecorded: (said: string) => void;
}

const statusWords = {
  locked: "Locked",
  ready: "Ready to release",
  released: "Released",
  "released under exception": "Released under exception",
  voided: "Voided",
} as const;

/** A hold point: what must be true, what is, and why it stays locked, with the numbers. */
export function HoldView({ live, item, onView, onRecorded }: HoldViewProps) {
  const { hold, status, conditions, unmet, waitsFor, release, stands, inReach } = item.hold;
  return (
    <article className="step-view hold-view">
      <header className="hold-head">
        <Ring
          shape={status}
          initials={release && initialsOf(release.event.actor.name)}
          size={72}
          silent
        />
        <div>
          <p className="step-phase">Hold point, {item.phase.title}</p>
          <h2 className="step-title" tabIndex={-1}>
            {hold.title}
          </h2>
          <p className="hold-status">
            {statusWords[status]}
            {inReach && unmet.length > 0 && `: ${unmet.length} of ${conditions.length} open`}
          </p>
        </div>
      </header>
      <p className="step-do">{hold.purpose}</p>
      {hold.caution && <Caution>{hold.caution}</Caution>}
      <Voided hold={item.hold} />
      {waitsFor.length > 0 && <p className="step-ahead">It comes after: {waitsFor[0]}.</p>}
      <ol className="conditions">
        {[...unmet, ...conditions.filter((each) => !isUnmet(each))].map((each, index) => (
          <ConditionRow
            key={each.condition.id}
            isNext={index === 0}
            live={live}
            hold={item.hold}
            found={each}
            inReach={inReach}
            onView={onView}
          />
        ))}
      </ol>
      {stands && release && (
        <p className="hold-released">
          Released by {release.event.actor.name}, {release.event.actor.role}, at{" "}
          {format(new Date(release.event.at), "HH:mm 'on' d MMM")}.
        </p>
      )}
      {inReach && unmet.length === 0 && (
        <ReleaseAction live={live} item={item} onRecorded={onRecorded} />
      )}
      <NoteBox live={live} step={hold.id} />
      <Photographs live={live} at={hold.id} />
    </article>
  );
}

/** Why a release stands no more, and what that means now. */
function Voided({ hold }: { readonly hold: HoldState }): ReactNode {
  return hold.status === "voided" ? (
    <p className="problem step-do" role="alert">
      {voidedWords(hold)}
    </p>
  ) : null;
}

function voidedWords({ lapsed, served, voidedBy }: HoldState): string {
  if (lapsed) {
    return "The pressures it was released on grew old before the work it guards was done. Read both gauges again and release it anew.";
  }
  if (served) {
    return "What it was released on was corrected or broken later. The step it guards is done; the engineer will see this.";
  }
  const at = voidedBy ? format(new Date(voidedBy.at), "HH:mm") : "a later moment";
  switch (voidedBy?.body.type) {
    case "crew changed":
      return `The crew changed at ${at}, before the work it guards was done. The new crew looks at every line and releases it again.`;
    case "standby started":
      return `The crew stood by from ${at}, before the work it guards was done. Look at every line again, then release it again.`;
    default:
      return `A reading at ${at} broke what it was released on. It has to be released again.`;
  }
}

interface ReleaseActionProps {
  readonly live: LiveJob;
  readonly item: HoldItem;
  readonly onRecorded: (said: string) => void;
}

function ReleaseAction({ live, item, onRecorded }: ReleaseActionProps) {
  const act = useAct(live.id);
  const [problem, setProblem] = useState("");
  const { hold } = item.hold;
  const release = async () => {
    const done = await act((situation) => releaseHold(situation, hold.id));
    setProblem(done.ok ? "" : done.why);
    if (done.ok) onRecorded(`Saved ${format(new Date(), "HH:mm")}: ${hold.title} released.`);
  };
  return (
    <div className="step-actions in-reach">
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <HoldButton
        label="Release hold point"
        consequence={`You sign for it in your name. ${hold.purpose}`}
        onHeld={() => void release()}
      />
    </div>
  );
}

const shapes: Readonly<Record<ConditionState["state"], RingShape>> = {
  met: "released",
  "not met": "fails",
  "not known": "missing",
  excepted: "released under exception",
};
const conditionWords: Readonly<Record<ConditionState["state"], string>> = {
  met: "met",
  "not met": "not met",
  "not known": "open",
  excepted: "let pass",
};

interface ConditionRowProps {
  readonly live: LiveJob;
  readonly hold: HoldState;
  readonly found: ConditionState;
  /** the first open one: its action is the next one */
  readonly isNext: boolean;
  readonly inReach: boolean;
  readonly onView: (id: string) => void;
}

function ConditionRow({ live, hold, found, isNext, inReach, onView }: ConditionRowProps) {
  const look = `button condition-action${isNext ? " next" : ""}`;
  const { condition, state, says, exception, results } = found;
  const isOpen = isUnmet(found);
  const mend =
    isOpen && inReach ? stepToMend(live.programme.sheet, hold.hold, condition) : undefined;
  return (
    <li className={`condition${isOpen ? " open" : ""}`}>
      <Ring shape={shapes[state]} size={36} silent />
      <div className="condition-words">
        <p className="condition-text">
          {condition.text} <span className="soft">({conditionWords[state]})</span>
        </p>
        {says && <p className={isOpen ? "condition-why" : "condition-says"}>{says}</p>}
        {exception && (
          <p className="small">
            Let pass by {exception.authoriser.name}, {exception.authoriser.role}: {exception.reason}
          </p>
        )}
        {isOpen &&
          results.map((id) => (
            <ResultRow key={id} id={id} results={live.results} writer={live.writer} />
          ))}
        {isOpen && inReach && (
          <div className="row">
            {mend && (
              <button type="button" className={look} onClick={() => onView(mend.id)}>
                Go to "{mend.title}"
              </button>
            )}
          </div>
        )}
        {isOpen && inReach && condition.kind === "signature" && (
          <StandsOn live={live} hold={hold} />
        )}
        {isOpen && inReach && condition.kind === "signature" && (
          <HoldSignature live={live} hold={hold.hold.id} role={condition.role} isNext={isNext} />
        )}
        {isOpen && inReach && condition.exceptionBy && (
          <ExceptionForm
            live={live}
            hold={hold.hold.id}
            condition={condition.id}
            may={condition.exceptionBy}
          />
        )}
      </div>
    </li>
  );
}
