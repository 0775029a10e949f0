import { Link } from "wouter";
import { SavePack } from "../Packs/SavePack.tsx";
import type { LiveJob } from "../useJob.ts";

interface HandedProps {
  readonly live: LiveJob;
  readonly className: string;
}

/** After closing: where the record goes now, before anything else. */
export function Handed({ live: { id, state }, className }: HandedProps) {
  return (
    <section className={className}>
      <p role="status">
        {state.stage === "approved"
          ? "The record is approved."
          : "Closed on this tablet. Save the pack and hand it to the engineer."}
      </p>
      <div className="row">
        <SavePack job={id} next={state.stage === "closed"} />
        <Link href={`/jobs/${id}/review`} className="button">
          Read the record
        </Link>
      </div>
    </section>
  );
}
