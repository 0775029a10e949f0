import type { Differing, Named, Preference, Preview } from "../../jobs/pack/arrival.ts";
import { FieldTable } from "./FieldTable.tsx";

type Choices = ReadonlyMap<string, Preference>;

interface PackPreviewProps {
  readonly file: string;
  readonly preview: Preview;
  /** by kind and id; what is not in it stays as it is here */
  readonly choices: Choices;
  readonly onChoices: (choices: Choices) => void;
}

const keyOf = ({ kind, id }: Named) => `${kind} ${id}`;

/** What a pack would bring: what is new, what differs and how, and what two tablets read differently. */
export function PackPreview({ file, preview, choices, onChoices }: PackPreviewProps) {
  const { fresh, same, different, twofold, inTwoPockets, clashes } = preview;
  const all = (preference: Preference) =>
    onChoices(new Map(different.map((each) => [keyOf(each), preference])));
  return (
    <div className="pack-contents">
      <p>
        What is in <strong>{file}</strong>:
      </p>
      {clashes.length > 0 && (
        <p className="problem" role="alert">
          This pack cannot be imported: {clashes[0]}. One of the two logs was written by a copy of a
          tablet's storage; ask the office to compare them.
        </p>
      )}
      <Names title="New here" of={fresh} />
      <Names title="Here already, the same" of={same} />
      {twofold.map((each) => (
        <p key={keyOf(each)} className="caution">
          <span aria-hidden="true">!</span>
          <span>
            <bdi>{capital(each.name)}</bdi> stands under two records: "{each.also}", and "{each.id}"
            of this pack. Both sides made one. Imported, both are kept: put the same one into every
            job, then scrap the other.
          </span>
        </p>
      ))}
      {inTwoPockets.map(({ valve, pockets }) => (
        <p key={`${valve} ${pockets.join()}`} className="caution">
          <span aria-hidden="true">!</span>
          <span>
            <bdi>{capital(valve)}</bdi> is in {pockets.length} pockets by the records here and of
            the pack: <bdi>{pockets.join(" and ")}</bdi>. It can be in one: keep the well's record
            that is right, and mend the other.
          </span>
        </p>
      ))}
      {different.length > 0 && (
        <>
          <h3>Here already, and not the same: {different.length}</h3>
          {different.length > 1 && (
            <div className="row">
              <button type="button" className="button" onClick={() => all("keep mine")}>
                Keep all that is here
              </button>
              <button type="button" className="button" onClick={() => all("take theirs")}>
                Take all of the pack's
              </button>
            </div>
          )}
          {different.map((each) => (
            <Choice
              key={keyOf(each)}
              of={each}
              chosen={choices.get(keyOf(each)) ?? "keep mine"}
              onChoose={(preference) => onChoices(new Map(choices).set(keyOf(each), preference))}
            />
          ))}
        </>
      )}
      <Logs preview={preview} />
    </div>
  );
}

interface ChoiceProps {
  readonly of: Differing;
  readonly chosen: Preference;
  readonly onChoose: (preference: Preference) => void;
}

function Choice({ of, chosen, onChoose }: ChoiceProps) {
  const radio = (preference: Preference, words: string) => (
    <label className="pack-check">
      <input
        type="radio"
        name={`choice ${keyOf(of)}`}
        checked={chosen === preference}
        onChange={() => onChoose(preference)}
      />
      {words}
    </label>
  );
  return (
    <fieldset className="pack-record">
      <legend>
        <bdi>{capital(of.name)}</bdi>
      </legend>
      <FieldTable fields={of.fields} caption={`Where ${of.name} differs`} />
      <div className="row">
        {radio("keep mine", `Keep what is here (revision ${of.mine})`)}
        {radio("take theirs", `Take the pack's (revision ${of.theirs})`)}
      </div>
    </fieldset>
  );
}

function Logs({ preview }: { readonly preview: Preview }) {
  const { newEvents, pictures, missingPictures, logs } = preview;
  const differing = logs.filter(({ conflicts }) => conflicts.length > 0);
  const unread = logs.filter((log) => log.unread !== undefined);
  return (
    <>
      <p>
        {newEvents === 0 ? "No" : newEvents} new {newEvents === 1 ? "event" : "events"} of the jobs'
        logs.
        {newEvents > 0 && " Logs are joined; nothing of either is lost."}
        {pictures > 0 &&
          ` ${pictures} ${pictures === 1 ? "picture comes" : "pictures come"} with them.`}
      </p>
      {differing.map(({ job, name, conflicts }) => (
        <div key={job} className="pack-record">
          <p>
            <strong>
              <bdi>{capital(name)}</bdi>: two tablets read{" "}
              {conflicts.length === 1 ? "one thing" : `${conflicts.length} things`} differently.
            </strong>{" "}
            Both readings stay in the log; the run sheet asks the crew which one stands.
          </p>
          <FieldTable fields={conflicts} caption={`Read differently: ${name}`} />
        </div>
      ))}
      {logs
        .filter(({ doneApart }) => doneApart.length > 0)
        .map(({ job, name, doneApart }) => (
          <p key={job} className="caution">
            <span aria-hidden="true">!</span>
            <span>
              <bdi>{capital(name)}</bdi>: two tablets did the same without knowing of each other:{" "}
              {doneApart.join("; ")}. The log keeps both, and the review names them.
            </span>
          </p>
        ))}
      {unread.map(({ job, name, unread: why }) => (
        <p key={job} className="problem">
          What the joined log of the {name} says cannot be told here ({why}). It is kept as it is.
        </p>
      ))}
      {missingPictures > 0 && (
        <p className="problem">
          {missingPictures} {missingPictures === 1 ? "picture" : "pictures"} that the logs name are
          not in the pack. Ask the tablet that took them for its pack.
        </p>
      )}
    </>
  );
}

function Names({ title, of }: { readonly title: string; readonly of: readonly Named[] }) {
  if (of.length === 0) return null;
  return (
    <div>
      <h3>
        {title}: {of.length}
      </h3>
      <p>
        {of.map((each, index) => (
          <span key={keyOf(each)}>
            {index > 0 && ", "}
            <bdi>{each.name}</bdi>
          </span>
        ))}
      </p>
    </div>
  );
}

const capital = (name: string) => name.charAt(0).toUpperCase() + name.slice(1);
