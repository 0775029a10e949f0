import { format } from "date-fns";
import { useState } from "react";
import { changeCrew } from "../../jobs/commands/crewChange.ts";
import type { Strokes } from "../../jobs/signature.ts";
import { isOpen } from "../../jobs/state/jobState.ts";
import SignaturePad from "../Evidence/SignaturePad.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import { useHalfTyped } from "../RunSheet/useHalfTyped.ts";
import { changeSettings, useSettings } from "../settings.ts";
import { type LiveJob, useAct } from "../useJob.ts";

interface HandoverProps {
  readonly live: LiveJob;
  readonly onSaid: (said: string) => void;
}

const DRAFT = "crew change";

/** One supervisor gives the run to the next: what stands is said, heard, and signed by both. */
export function Handover({ live, onSaid }: HandoverProps) {
  const { actor } = useSettings();
  const act = useAct(live.id);
  const kept = useHalfTyped(live.id, DRAFT, {});
  const [by, setBy] = useState<Strokes>([]);
  const [to, setTo] = useState<Strokes>([]);
  const [problem, setProblem] = useState("");
  if (!isOpen(live.state) || actor?.role !== "wireline supervisor") return <Before live={live} />;
  const text = (field: string) => kept.fields[field]?.text ?? "";
  const next = text("to").trim();
  const change = async () => {
    const drawn = { ...(by.length > 0 && { by }), ...(to.length > 0 && { to }) };
    const done = await act(
      (situation) => changeCrew(situation, { to: next, state: text("state"), drawn }),
      { recorded: { job: live.id, step: DRAFT } },
    );
    if (!done.ok) {
      setProblem(done.why);
      return;
    }
    kept.recorded();
    changeSettings({ actor: { name: next, role: "wireline supervisor" } });
    onSaid(`Saved ${format(new Date(), "HH:mm")}: ${next} has the run.`);
  };
  return (
    <section className="crew-part" aria-label="Crew change">
      <h3>Crew change</h3>
      <Before live={live} />
      <label>
        Who takes the run over
        <input
          className="entry-text"
          value={text("to")}
          autoComplete="off"
          onChange={(event) => kept.change("to", { text: event.target.value })}
        />
      </label>
      <label>
        Where things stand: string, pressures, what is open
        <textarea
          rows={4}
          value={text("state")}
          onChange={(event) => kept.change("state", { text: event.target.value })}
        />
      </label>
      {next !== "" && (
        <>
          <SignaturePad
            label={`${actor.name}, who gives it`}
            value={by}
            optional
            reach="glove"
            onChange={setBy}
          />
          <SignaturePad
            label={`${next}, who takes it`}
            value={to}
            optional
            reach="glove"
            onChange={setTo}
          />
          {problem && (
            <p className="problem" role="alert">
              {problem}
            </p>
          )}
          <HoldButton
            label={`${next} takes the run over`}
            consequence={`Both have read what stands. From here on ${next} signs every entry on this tablet.`}
            onHeld={() => void change()}
          />
        </>
      )}
    </section>
  );
}

/** Who had the run before. */
function Before({ live }: Pick<HandoverProps, "live">) {
  const { crewChanges } = live.state;
  if (crewChanges.length === 0) return null;
  return (
    <ul aria-label="Crew changes">
      {crewChanges.map(({ event, by, to, state }) => (
        <li key={event.hash} className="step-ahead">
          {format(new Date(event.at), "d MMM HH:mm")}: {by.name} to {to.name}. {state}
        </li>
      ))}
    </ul>
  );
}
