import { lazy, Suspense, useState } from "react";
import { signHold } from "../../jobs/commands/run.ts";
import type { Role } from "../../jobs/roles.ts";
import type { Strokes } from "../../jobs/signature.ts";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { type LiveJob, useAct } from "../useJob.ts";
import { useHalfTyped } from "./useHalfTyped.ts";

const SignaturePad = lazy(() => import("../Evidence/SignaturePad.tsx"));

interface HoldSignatureProps {
  readonly live: LiveJob;
  readonly hold: string;
  readonly role: Role;
  readonly isNext: boolean;
}

/** The second person signs on the same tablet, in their own name. */
export function HoldSignature({ live, hold, role, isNext }: HoldSignatureProps) {
  const act = useAct(live.id);
  const { crew } = live.programme.job;
  const known: Partial<Record<Role, string | undefined>> = {
    "field operator": crew.fieldOperator,
    "production engineer": crew.engineer,
  };
  const before = live.state.signatures.findLast((each) => each.by.role === role)?.by.name;
  const draft = `${hold}, signature of the ${role}`;
  const kept = useHalfTyped(live.id, draft, { name: { text: before ?? known[role] ?? "" } });
  const name = kept.fields.name?.text ?? "";
  const [problem, setProblem] = useState("");
  const [drawn, setDrawn] = useState<Strokes>([]);
  const [drawing, setDrawing] = useState(false);
  const sign = async () => {
    const strokes = drawn.length > 0 ? drawn : undefined;
    const done = await act((situation) => signHold(situation, hold, { name, role }, strokes), {
      recorded: { job: live.id, step: draft },
    });
    setProblem(done.ok ? "" : done.why);
  };
  return (
    <div className="signature">
      <label>
        Name of the {role}
        <input
          className="entry-text"
          value={name}
          autoComplete="off"
          onChange={(event) => kept.change("name", { text: event.target.value })}
        />
      </label>
      {drawing ? (
        <Suspense>
          <SignaturePad
            label={`${name.trim() || role}, for this hold point`}
            value={drawn}
            optional
            reach="glove"
            onChange={setDrawn}
          />
        </Suspense>
      ) : (
        <button type="button" className="button step-again" onClick={() => setDrawing(true)}>
          Draw a signature, too
        </button>
      )}
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      <HoldButton
        aside={!isNext}
        label={`Sign as ${role}`}
        consequence={`Hand the tablet to ${name.trim() || `the ${role}`}, who signs on the readings shown.`}
        onHeld={() => void sign()}
      />
    </div>
  );
}
