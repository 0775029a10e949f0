import { useState } from "react";
import { openContingency } from "../../jobs/commands/contingency.ts";
import type { Contingency } from "../../jobs/sheet/sheet.ts";
import { contingenciesOf } from "../../jobs/sheet/walk.ts";
import { isOpen } from "../../jobs/state/jobState.ts";
import { type LiveJob, useAct } from "../useJob.ts";
import { AtOnce } from "./AtOnce.tsx";
import "./Contingency.css";

interface ContingencyListProps {
  readonly live: LiveJob;
  /** step or hold point where the run stands: what is likeliest there comes first */
  readonly at: string | undefined;
  readonly onClose: () => void;
  readonly onOpened: () => void;
}

/** What can go wrong, likeliest first. Looking at one logs nothing; saying that it happens does. */
export default function ContingencyList(props: ContingencyListProps) {
  const { live, at, onClose } = props;
  const [looked, setLooked] = useState<Contingency>();
  const all = contingenciesOf(live.programme.sheet);
  const isNear = (each: Contingency) => at !== undefined && each.near.includes(at);
  const sorted = [...all.filter(isNear), ...all.filter((each) => !isNear(each))];
  if (looked) return <Looked {...props} of={looked} onBack={() => setLooked(undefined)} />;
  return (
    <section className="contingencies" aria-labelledby="contingencies-title">
      <h2 id="contingencies-title" className="step-title" tabIndex={-1}>
        What is wrong?
      </h2>
      <ul>
        {sorted.map((each) => (
          <li key={each.id}>
            <button type="button" className="button contingency" onClick={() => setLooked(each)}>
              {each.title}
            </button>
          </li>
        ))}
      </ul>
      {all.length === 0 && (
        <p className="step-do">
          This run was issued with a sheet from before there were contingencies. Stop, and call by
          the programme.
        </p>
      )}
      <button type="button" className="button step-again" onClick={onClose}>
        Nothing is wrong, back to the sheet
      </button>
    </section>
  );
}

interface LookedProps extends ContingencyListProps {
  readonly of: Contingency;
  readonly onBack: () => void;
}

function Looked({ live, of, onBack, onClose, onOpened }: LookedProps) {
  const act = useAct(live.id);
  const [problem, setProblem] = useState("");
  const open = async () => {
    const done = await act((situation) => openContingency(situation, of.id));
    if (done.ok) onOpened();
    else setProblem(done.why);
  };
  return (
    <section className="contingencies" aria-labelledby="contingency-title">
      <h2 id="contingency-title" className="step-title" tabIndex={-1}>
        {of.title}
      </h2>
      <AtOnce of={of} />
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {isOpen(live.state) && (
        <button type="button" className="button next step-record" onClick={() => void open()}>
          This happens: the sheet waits
        </button>
      )}
      <div className="contingency-ways">
        <button type="button" className="button step-again" onClick={onBack}>
          Something else is wrong
        </button>
        <button type="button" className="button step-again" onClick={onClose}>
          Nothing is wrong
        </button>
      </div>
    </section>
  );
}
