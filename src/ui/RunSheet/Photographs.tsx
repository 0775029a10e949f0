import { format } from "date-fns";
import { lazy, Suspense, useEffect, useState } from "react";
import { addPhotograph } from "../../jobs/commands/photograph.ts";
import type { TakenPicture } from "../../jobs/photographs.ts";
import type { Photograph } from "../../jobs/state/jobState.ts";
import { pictureHash } from "../../jobs/store/picture.ts";
import { PhotographPicture } from "../Evidence/PhotographPicture.tsx";
import { useStore } from "../storeContext.ts";
import { type LiveJob, useAct } from "../useJob.ts";
import { useHalfTyped } from "./useHalfTyped.ts";
import "./Photographs.css";

const TakePhotograph = lazy(() => import("../Evidence/TakePhotograph.tsx"));

interface PhotographsProps {
  readonly live: LiveJob;
  /** step, hold point or contingency they belong to */
  readonly at: string;
}

/** A picture that is not in the log yet. */
interface Pending {
  readonly picture: TakenPicture;
  readonly why: string;
}

/** What was photographed here, and the way to more: each is in the log, under the hash of its bytes. */
export function Photographs({ live, at }: PhotographsProps) {
  const act = useAct(live.id);
  const draft = `${at}, photograph`;
  const kept = useHalfTyped(live.id, draft, {});
  const caption = kept.fields.caption?.text ?? "";
  const [pending, setPending] = useState<readonly Pending[]>([]);
  const [asked, setAsked] = useState(false);
  const open = asked || caption !== "";

  const keep = async (picture: TakenPicture): Promise<string | undefined> => {
    const sha256 = pictureHash(picture.bytes);
    const { type, bytes, width, height } = picture;
    const done = await act(
      (situation) => addPhotograph(situation, { picture: sha256, width, height, caption, at }),
      { pictures: [{ sha256, type, bytes }], recorded: { job: live.id, step: draft } },
    );
    setPending((before) => {
      const others = before.filter((each) => each.picture !== picture);
      return done.ok ? others : [...others, { picture, why: done.why }];
    });
    if (done.ok) kept.recorded();
    return undefined;
  };

  return (
    <section className="photographs" aria-label="Photographs">
      <KeptPhotographs live={live} at={at} />
      {pending.map(({ picture, why }) => (
        <div key={pictureHash(picture.bytes)} className="photograph-pending">
          <PhotographPicture jpeg={picture.bytes} alt="Not saved yet" />
          <p className="problem" role="alert">
            {why}
          </p>
          <button type="button" className="button step-again" onClick={() => void keep(picture)}>
            Save the photograph again
          </button>
        </div>
      ))}
      {live.state.stage === "approved" ? null : open ? (
        <>
          <label>
            What it shows
            <input
              className="entry-text"
              value={caption}
              onChange={(event) => kept.change("caption", { text: event.target.value })}
            />
          </label>
          <Suspense>
            <TakePhotograph reach="glove" onTaken={keep} />
          </Suspense>
        </>
      ) : (
        <div className="row">
          <button type="button" className="button quiet" onClick={() => setAsked(true)}>
            Add a photograph
          </button>
        </div>
      )}
    </section>
  );
}

/** What was photographed at a place, from this tablet's store. */
export function KeptPhotographs({ live, at }: PhotographsProps) {
  return <PhotographList of={live.state.photographs.filter((each) => each.at === at)} />;
}

/** Photographs of the log with who took them and when; nothing where there are none. */
export function PhotographList({ of: own }: { readonly of: readonly Photograph[] }) {
  if (own.length === 0) return null;
  return (
    <ul className="photographs-kept">
      {own.map((each) => (
        <Kept key={each.event.hash} of={each} />
      ))}
    </ul>
  );
}

function Kept({ of }: { readonly of: Photograph }) {
  const store = useStore();
  const [jpeg, setJpeg] = useState<Uint8Array<ArrayBuffer> | "missing">();
  useEffect(() => {
    let gone = false;
    const show = (found: Uint8Array<ArrayBuffer> | "missing") => {
      if (!gone) setJpeg(found);
    };
    store.picture(of.picture).then(
      (found) => show(found ? new Uint8Array(found.bytes) : "missing"),
      () => show("missing"),
    );
    return () => {
      gone = true;
    };
  }, [store, of.picture]);
  const time = format(new Date(of.event.at), "d MMM HH:mm");
  return (
    <li>
      <figure>
        {jpeg === "missing" ? (
          <p className="problem">
            The picture is not on this tablet; the log names it by {of.picture.slice(0, 12)}.
          </p>
        ) : (
          jpeg && <PhotographPicture jpeg={jpeg} alt={of.caption ?? `Photograph of ${time}`} />
        )}
        <figcaption className="small">
          {time}, {of.event.actor.name}
          {of.caption && `: ${of.caption}`}
        </figcaption>
      </figure>
    </li>
  );
}
