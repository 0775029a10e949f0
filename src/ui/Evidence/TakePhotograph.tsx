import { type ChangeEvent, useEffect, useRef, useState } from "react";
import type { TakenPicture } from "../../jobs/photographs.ts";
import { jpegOf } from "./jpegOf.ts";
import type { Reach } from "./reach.ts";
import "./reach.css";
import "./TakePhotograph.css";

interface TakePhotographProps {
  /** what the button for the camera says */
  readonly label?: string;
  readonly reach?: Reach;
  /** how many more there is room for; no bound when absent. At 0 no button is left, what was said stays. */
  readonly room?: number;
  /**
   * A picture was taken or chosen; the next of several is read when this is through. It may come after the part has
   * left the screen: what was photographed is not dropped.
   *
   * @returns why it is not kept, in words that name the file, or undefined when it is
   */
  readonly onTaken: (
    picture: TakenPicture,
    file: string,
  ) => string | undefined | Promise<string | undefined>;
}

interface Reading {
  /** counted from 1 */
  readonly place: number;
  readonly of: number;
}

/** Photographs by the camera, or files that are here, several at once: each made small and upright, and handed on. */
export default function TakePhotograph({
  label = "Take a photograph",
  reach = "office",
  room = Number.POSITIVE_INFINITY,
  onTaken,
}: TakePhotographProps) {
  const [reading, setReading] = useState<Reading>();
  const [problems, setProblems] = useState<readonly string[]>([]);
  const stopped = useRef(false);
  // Between two of several pictures the caller may have changed what becomes of one.
  const latest = useRef(onTaken);
  useEffect(() => {
    latest.current = onTaken;
  }, [onTaken]);

  const take = async ({ currentTarget: input }: ChangeEvent<HTMLInputElement>) => {
    const files = [...(input.files ?? [])];
    if (files.length === 0) return;
    stopped.current = false;
    const wrong: string[] = [];
    const say = (why: string | undefined) => {
      if (why === undefined) return;
      wrong.push(why);
      setProblems([...wrong]);
    };
    setProblems([]);
    // One after the other: a tablet may not have the memory for two large pictures at once.
    for (const [index, file] of files.slice(0, room).entries()) {
      if (stopped.current) break;
      setReading({ place: index + 1, of: Math.min(files.length, room) });
      try {
        const read = await jpegOf(file);
        say("why" in read ? read.why : await latest.current(read.picture, file.name));
      } catch (error) {
        say(`${file.name} is not kept: this is a fault of the app (${error}). Choose it again.`);
      }
    }
    setReading(undefined);
    // The same file may be chosen again once it is mended.
    input.value = "";
    const left = files.slice(room).map(({ name }) => name);
    if (left.length > 0) say(`No room for ${left.join(", ")}: only ${room} more could be added.`);
  };

  const busy = reading !== undefined;
  return (
    <div className="take-photograph" data-reach={reach}>
      {problems.length > 0 && (
        <div className="problem take-photograph-problems" role="alert">
          <ul>
            {problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </div>
      )}
      {(room > 0 || busy) && (
        <div className="take-photograph-ways">
          <FileButton
            label={busy ? wordsOf(reading) : label}
            disabled={busy}
            camera
            onChange={(event) => void take(event)}
          />
          {busy && reading.of > 1 ? (
            <button
              type="button"
              className="button"
              onClick={() => {
                stopped.current = true;
              }}
            >
              Stop after this one
            </button>
          ) : (
            <FileButton
              label="Choose pictures that are here"
              disabled={busy}
              onChange={(event) => void take(event)}
            />
          )}
        </div>
      )}
    </div>
  );
}

const wordsOf = ({ place, of }: Reading) =>
  of === 1 ? "Reading it…" : `Reading ${place} of ${of}…`;

interface FileButtonProps {
  readonly label: string;
  readonly disabled: boolean;
  /** opens the camera where there is one, which gives one picture; without it several can be chosen */
  readonly camera?: boolean;
  readonly onChange: (event: ChangeEvent<HTMLInputElement>) => void;
}

/** A file input that looks and is hit like any button. */
function FileButton({ label, disabled, camera = false, onChange }: FileButtonProps) {
  return (
    <label className="button take-photograph-way">
      {label}
      <input
        type="file"
        accept="image/*"
        {...(camera ? { capture: "environment" as const } : { multiple: true })}
        disabled={disabled}
        onChange={onChange}
      />
    </label>
  );
}
