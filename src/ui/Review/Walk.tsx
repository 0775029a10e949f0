import { format } from "date-fns";
import { fieldInWords } from "../../jobs/entryInWords.ts";
import type { JobEvent } from "../../jobs/log/event.ts";
import { fieldById } from "../../jobs/sheet/walk.ts";
import type { Reading } from "../../jobs/state/jobState.ts";
import type { HoldItem, ItemState, StepState } from "../../jobs/state/progress.ts";
import { DrawnSignature } from "../Evidence/DrawnSignature.tsx";
import { initialsOf, Ring } from "../Ring/Ring.tsx";
import { KeptPhotographs, PhotographList } from "../RunSheet/Photographs.tsx";
import type { LiveJob } from "../useJob.ts";
import { Ask } from "./Ask.tsx";

/** The sheet as it was worked, with times and entries as typed; a phase opens when it is asked for. */
export function Walk({
  live,
  items,
}: {
  readonly live: LiveJob;
  readonly items: readonly ItemState[];
}) {
  const { programme } = live;
  const onSheet = new Set(items.map((item) => item.id));
  const beside = live.state.photographs.filter(({ at }) => at === undefined || !onSheet.has(at));
  const noted = live.state.readings.filter(({ step }) => !onSheet.has(step));
  const phases = [...new Set(items.map((item) => item.phase))];
  return (
    <section className="card review-section">
      <h2>The run, step by step</h2>
      {phases.map((phase) => {
        const own = items.filter((item) => item.phase === phase);
        return (
          <details key={phase.id} className="review-phase">
            <summary>
              {phase.title}, {own.filter((item) => item.complete).length} of {own.length}
            </summary>
            <ol className="review-walk">
              {own.map((item) =>
                item.type === "hold" ? (
                  <HoldLine key={item.id} item={item} live={live} />
                ) : (
                  <StepLine key={item.id} item={item} live={live} />
                ),
              )}
            </ol>
          </details>
        );
      })}
      {noted.length > 0 && (
        <details className="review-phase">
          <summary>Noted while something was dealt with, {noted.length}</summary>
          <ul className="review-entries">
            {noted.map((reading) => (
              <Entry key={reading.event.hash + reading.field} reading={reading} live={live} />
            ))}
          </ul>
        </details>
      )}
      {beside.length > 0 && (
        <details className="review-phase">
          <summary>Photographs beside the sheet, {beside.length}</summary>
          <PhotographList of={beside} />
        </details>
      )}
      <p className="small soft">
        {programme.sheet.title}, run sheet version {programme.sheet.version}.
      </p>
    </section>
  );
}

function HoldLine({ item, live }: { readonly item: HoldItem; readonly live: LiveJob }) {
  const { hold, status, release, conditions } = item.hold;
  return (
    <li className="review-item">
      <Ring shape={status} initials={release && initialsOf(release.event.actor.name)} size={30} />
      <div>
        <p>
          <strong>{hold.title}</strong>, hold point {status}{" "}
          <Ask live={live} about={{ kind: "item", item: hold.id }} what={hold.title} />
        </p>
        <ul className="small">
          {conditions.map(({ condition, says, state }) => (
            <li key={condition.id}>
              {condition.text}: {says || (state === "met" ? "met" : state)}
            </li>
          ))}
        </ul>
        <Signatures live={live} hold={hold.id} />
        <KeptPhotographs live={live} at={hold.id} />
        {release && <When what="released" at={release.event.at} by={release.event.actor.name} />}
      </div>
    </li>
  );
}

function StepLine({ item, live }: { readonly item: StepState; readonly live: LiveJob }) {
  const readings = live.state.readings.filter((reading) => reading.step === item.id);
  const apart = live.state.doneApart.filter(({ step }) => step === item.id);
  return (
    <li className="review-item">
      <span className="review-mark" aria-hidden="true">
        {item.status === "done" ? "✓" : item.status === "left out" ? "–" : "○"}
      </span>
      <div>
        <p>
          <strong>{item.step.title}</strong>
          {item.status !== "done" && `, ${item.status}`}{" "}
          <Ask live={live} about={{ kind: "item", item: item.id }} what={item.step.title} />
        </p>
        <ul className="review-entries">
          {readings.map((reading) => (
            <Entry
              key={reading.event.hash + reading.field}
              reading={reading}
              live={live}
              recorded={item.event}
            />
          ))}
        </ul>
        <KeptPhotographs live={live} at={item.id} />
        {item.event && <When what="recorded" at={item.event.at} by={item.event.actor.name} />}
        {apart.map(({ event }) => (
          <When
            key={event.hash}
            what="on another tablet, too, recorded"
            at={event.at}
            by={event.actor.name}
          />
        ))}
      </div>
    </li>
  );
}

const time = (at: string) => format(new Date(at), "d MMM HH:mm");

interface WhenProps {
  readonly what: string;
  readonly at: string;
  readonly by: string;
}

function When({ what, at, by }: WhenProps) {
  return (
    <p className="small soft">
      {what} {time(at)}, {by}
    </p>
  );
}

interface EntryProps {
  readonly reading: Reading;
  readonly live: LiveJob;
  /** with which its step was recorded; what that says is not said again of the entry */
  readonly recorded?: JobEvent | undefined;
}

/** What was entered, when it was read, when and by whom it was recorded, and what it was before. */
function Entry({ reading, live, recorded }: EntryProps) {
  const field = fieldById(live.programme.sheet, reading.field);
  const { event, takenAt } = reading;
  const isSaid =
    recorded?.actor.name === event.actor.name &&
    recorded.device === event.device &&
    time(recorded.at) === time(event.at);
  const when = [
    ...(reading.value.kind === "quantity" ? [`read ${time(takenAt)}`] : []),
    ...(isSaid ? [] : [`recorded ${time(event.at)}, ${event.actor.name}`]),
  ];
  return (
    <li>
      {field?.label ?? reading.field}:{" "}
      <span className="figure review-value">{fieldInWords(field, reading.value)}</span>{" "}
      <span className="small soft">{when.join(", ")}</span>
      {reading.setAside && (
        <span className="small"> (of the attempt before {time(reading.setAside.at)})</span>
      )}
      {reading.corrections.length > 0 && (
        <span className="small">
          {" "}
          (was {fieldInWords(field, reading.original)}
          {reading.corrections.map((each) => (
            <span key={each.event.hash}>
              ; corrected {time(each.event.at)}, {each.event.actor.name}: {each.reason}
            </span>
          ))}
          )
        </span>
      )}{" "}
      <Ask
        live={live}
        about={{ kind: "event", event: event.hash, field: reading.field }}
        what={field?.label ?? reading.field}
      />
    </li>
  );
}

/** Who signed, when, and what they drew. */
function Signatures({ live, hold }: { readonly live: LiveJob; readonly hold: string }) {
  const signed = live.state.signatures.filter((each) => each.hold === hold);
  return signed.map(({ event, by, drawn, setAside }) => {
    const name = `${by.name}, ${by.role}`;
    return (
      <div key={event.hash}>
        {drawn && <DrawnSignature strokes={drawn} name={name} />}
        <p className="small soft">
          {name}, signed {time(event.at)}
          {!drawn && ", by name"}
          {setAside && ", for the attempt before"}
        </p>
      </div>
    );
  });
}
