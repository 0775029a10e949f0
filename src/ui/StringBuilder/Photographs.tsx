import { format } from "date-fns";
import { type ChangeEvent, useState } from "react";
import { mostPhotographs } from "../../jobs/photographs.ts";
import type { Photograph, ToolString } from "../../jobs/records/equipment.ts";
import { jpegOf } from "../Evidence/jpegOf.ts";
import { PhotographPicture } from "../Evidence/PhotographPicture.tsx";
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
  const [reading, setReading] = useState(false);
  const [problem, setProblem] = useState("");
  const photographs = string.photographs ?? [];

  const add = async ({ currentTarget: input }: ChangeEvent<HTMLInputElement>) => {
    const [file] = input.files ?? [];
    if (!file) return;
    setReading(true);
    setProblem("");
    const read = await jpegOf(file);
    // The same file may be chosen again once it is mended.
    input.value = "";
    setReading(false);
    if ("why" in read) setProblem(read.why);
    else if (photographs.some(({ jpeg }) => jpeg === read.jpeg)) {
      setProblem(`${file.name} is with this string already.`);
    } else onAdd({ day: format(new Date(), "yyyy-MM-dd"), jpeg: read.jpeg });
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
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {photographs.length >= mostPhotographs ? (
        <p>
          {mostPhotographs} photographs are all that a string holds: take one out to add another.
        </p>
      ) : (
        <>
          {unsaved && (
            <p className="small">
              Save the string first: a tablet short of memory may close this page while its camera
              is open.
            </p>
          )}
          <div className="photograph-ways">
            <FileButton
              label={reading ? "Reading it…" : "Add a photograph"}
              disabled={reading}
              camera
              onChange={(event) => void add(event)}
            />
            <FileButton
              label="Choose a picture that is here"
              disabled={reading}
              onChange={(event) => void add(event)}
            />
          </div>
        </>
      )}
    </section>
  );
}

interface FileButtonProps {
  readonly label: string;
  readonly disabled: boolean;
  /** opens the camera where there is one */
  readonly camera?: boolean;
  readonly onChange: (event: ChangeEvent<HTMLInputElement>) => void;
}

/** A file input that looks and is hit like any button. */
function FileButton({ label, disabled, camera = false, onChange }: FileButtonProps) {
  return (
    <label className="button photograph-way">
      {label}
      <input
        type="file"
        accept="image/*"
        {...(camera && { capture: "environment" as const })}
        disabled={disabled}
        onChange={onChange}
      />
    </label>
  );
}
