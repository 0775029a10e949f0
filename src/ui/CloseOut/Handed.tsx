import { format } from "date-fns";
import { Link } from "wouter";
import { SavePack } from "../Packs/SavePack.tsx";
import type { LiveJob } from "../useJob.ts";

interface HandedProps {
  readonly live: LiveJob;
  readonly className: string;
}

/** After closing: where the record goes now, before anything else. */
export function Handed({ live: { id, state }, className }: HandedProps) {
  const { closed } = state;
  const closing = closed?.body.type === "run closed" ? closed.body : undefined;
  return (
    <section className={className}>
      <p role="status">
        {state.stage === "approved"
          ? "The record is approved."
          : "Closed on this tablet. Save the pack and hand it to the engineer."}
      </p>
      {closed && (
        <p className="small soft">
          Closed {format(new Date(closed.at), "d MMM HH:mm")} by {closed.actor.name},{" "}
          {closed.actor.role}
        </p>
      )}
      {closing?.gaps && <p>Why not everything is answered: {closing.gaps.reason}</p>}
      {closing?.remark && <p>Remark for the engineer: {closing.remark}</p>}
      <div className="row">
        <SavePack job={id} next={state.stage === "closed"} />
        <Link href={`/jobs/${id}/review`} className="button">
          Read the record
        </Link>
      </div>
    </section>
  );
}
