import { format } from "date-fns";
import { lazy, Suspense, useEffect, useState } from "react";
import { addPhotograph } from "../../jobs/commands/photograph.ts";
import type { TakenPicture } from "../../jobs/photographs.ts";
import type { Photograph } from "../../jobs/state/jobState.ts";
import { pictureHash } from "../../jobs/store/picture.ts";
import { useStore } from "../storeContext.ts";
import { type LiveJob, useAct } from "../useJob.ts";
import "./Photographs.css";

const TakePhotograph = lazy(() => import("../Evidence/TakePhotograph.tsx"));

import { PhotographPicture } from "../Evidence/PhotographPicture.tsx";

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
  const [caption, setCaption] = useState("");
  const [pending, setPending] = useState<readonly Pending[]>([]);
  const [open, setOpen] = useState(false);

  const keep = async (picture: TakenPicture): Promise<string | undefined> => {
    const sha256 = pictureHash(picture.bytes);
    const { type, bytes, width, height } = picture;
    const done = await act(
      (situation) => addPhotograph(situation, { picture: sha256, width, height, caption, at }),
      { pictures: [{ sha256, type, bytes }] },
    );
    setPending((before) => {
      const others = before.filter((each) => each.picture !== picture);
      return done.ok ? others : [...others, { picture, why: done.why }];
    });
    if (done.ok) setCaption("");
    return undefined;
  };

  return (
    <section className="photographs" aria-label="Photographs">
      <KeptPhotographs live={live} at={at} />
      {pending.map(({ picture, why }) => (
        <div key={pictureHash(picture.bytes)} className="photograph-pending">
          <Suspense>
            <PhotographPicture jpeg={picture.bytes} alt="Not saved yet" />
          </Suspense>
          <p className="problem" role="alert">
            {why}
          </p>
          <button type="button" className="button step-again" onClick={() => void keep(picture)}>
            Save the photograph again
          </button>
        </div>
      ))}
      {open ? (
        <>
          <label>
            What it shows
            <input
              className="entry-text"
              value={caption}
              onChange={(event) => setCaption(event.target.value)}
            />
          </label>
          <Suspense>
            <TakePhotograph reach="glove" onTaken={keep} />
          </Suspense>
        </>
      ) : (
        <div className="row">
          <button type="button" className="button quiet" onClick={() => setOpen(true)}>
            Add a photograph
          </button>
        </div>
      )}
    </section>
  );
}

/** What was photographed at a place, from this tablet's store. */
export function KeptPhotographs({ live, at }: PhotographsProps) {
  const own = live.state.photographs.filter((each) => each.at === at);
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
  const time = format(new Date(of.event.at), "HH:mm");
  return (
    <li>
      <figure>
        {jpeg === "missing" ? (
          <p className="problem">
            The picture is not on this tablet; the log names it by {of.picture.slice(0, 12)}.
          </p>
        ) : (
          jpeg && (
            <Suspense>
              <PhotographPicture jpeg={jpeg} alt={of.caption ?? `Photograph of ${time}`} />
            </Suspense>
          )
        )}
        <figcaption className="small">
          {time}, {of.event.actor.name}
          {of.caption && `: ${of.caption}`}
        </figcaption>
      </figure>
    </li>
  );
}
