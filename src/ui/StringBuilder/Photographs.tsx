import { format } from "date-fns";
import { inBase64, mostPhotographs, type TakenPicture } from "../../jobs/photographs.ts";
import type { Photograph, ToolString } from "../../jobs/records/equipment.ts";
import { PhotographPicture } from "../Evidence/PhotographPicture.tsx";
import TakePhotograph from "../Evidence/TakePhotograph.tsx";
import { HoldButton } from "../HoldButton/HoldButton.tsx";
import "./Photographs.css";

interface PhotographsProps {
  readonly string: ToolString;
  /** Something was changed that only this page holds. */
  readonly unsaved: boolean;
  readonly onAdd: (photograph: Photograph) => void;
  readonly onTakeOut: (index: number) => void;
}

/** The string as it was rigged up: what a fishing crew looks at first. */
export function Photographs({ string, unsaved, onAdd, onTakeOut }: PhotographsProps) {
  const photographs = string.photographs ?? [];
  const room = mostPhotographs - photographs.length;

  const add = ({ bytes }: TakenPicture, file: string) => {
    const jpeg = inBase64(bytes);
    if (photographs.some((there) => there.jpeg === jpeg)) {
      return `${file} is with this string already.`;
    }
    onAdd({ day: format(new Date(), "yyyy-MM-dd"), jpeg });
    return undefined;
  };

  return (
    <section className="string-photographs" aria-labelledby="string-photographs">
      <h2 id="string-photographs">Photographs</h2>
      <p className="small">
        The string laid out with a tape beside it, and every end that could be fished for. They go
        on the fishing sketch.
      </p>
      {photographs.length > 0 && (
        <ol>
          {photographs.map(({ day, jpeg }, index) => (
            <li key={jpeg}>
              <figure>
                <PhotographPicture jpeg={jpeg} alt={`${string.name}, photograph ${index + 1}`} />
                <figcaption>
                  {index + 1}, added {day}
                </figcaption>
              </figure>
              <HoldButton
                label={`Take out photograph ${index + 1}`}
                consequence="It leaves the string and the sketch."
                aside
                onHeld={() => onTakeOut(index)}
              />
            </li>
          ))}
        </ol>
      )}
      {room === 0 && (
        <p>
          {mostPhotographs} photographs are all that a string holds: take one out to add another.
        </p>
      )}
      {room > 0 && unsaved && (
        <p className="small">
          Save the string first: a tablet short of memory may close this page while its camera is
          open.
        </p>
      )}
      <TakePhotograph label="Add a photograph" reach="glove" room={room} onTaken={add} />
    </section>
  );
}
