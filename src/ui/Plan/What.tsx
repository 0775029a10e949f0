import { addDays, format } from "date-fns";
import { Link } from "wouter";
import { asEntered } from "../../jobs/display.ts";
import { forWell, type PlanDraft, withoutPocketOf } from "../../jobs/planning/planDraft.ts";
import { type Refusal, unknownsOf, usualReasons, worksFor } from "../../jobs/planning/refusal.ts";
import type { Valve } from "../../jobs/records/valve.ts";
import type { Mandrel, Well } from "../../jobs/records/well.ts";
import type { Work } from "../../jobs/sheet/changeOut/options.ts";
import type { Library } from "../../jobs/store/library.ts";
import { placeIn } from "../RecordEditor/place.ts";

interface WhatProps {
  readonly well: Well;
  readonly library: Library;
  readonly draft: PlanDraft;
  readonly refused: Refusal | undefined;
  readonly onChange: (to: (now: PlanDraft) => PlanDraft) => void;
}

const workNames: Readonly<Record<Work, string>> = {
  "change out": "Change out",
  "pull and dummy off": "Pull and dummy off",
  "set into an empty pocket": "Set into the empty pocket",
};

/** What the planner says: well, mandrel, work, reason, day. The rest follows. */
export function What({ well, library, draft, refused, onChange }: WhatProps) {
  const [first] = draft.pockets;
  const mandrels = well.mandrels.toSorted((a, b) => a.number - b.number);
  const target = mandrels.find(({ id }) => id === first?.mandrel);
  const pick = (mandrel: Mandrel) => {
    const [work] = worksFor(mandrel);
    if (!work || mandrel.id === first?.mandrel) return;
    onChange((now) => ({ ...forWell(now, well.id), pockets: [{ mandrel: mandrel.id, work }] }));
  };
  return (
    <section className="card plan-what" aria-labelledby="plan-what">
      <header className="plan-what-head">
        <h2 id="plan-what">
          {well.name} <span className="soft">{well.field}</span>
        </h2>
        <button
          type="button"
          className="button quiet"
          onClick={() => onChange((now) => forWell(now, undefined))}
        >
          Another well
        </button>
      </header>
      <fieldset>
        <legend>Mandrel</legend>
        <div className="plan-taps plan-mandrels">
          {mandrels.map((mandrel) => (
            <label key={mandrel.id} className="plan-tap">
              <input
                type="radio"
                name="plan-mandrel"
                checked={mandrel.id === first?.mandrel}
                onChange={() => pick(mandrel)}
              />
              <span>
                <strong>{mandrel.number}</strong> {asEntered(mandrel.depthAlongHole)}
                <span className="small soft">{pocketWords(mandrel, library.valves)}</span>
              </span>
            </label>
          ))}
        </div>
      </fieldset>
      {target && refused && <Refused refused={refused} well={well} />}
      {target && !refused && (
        <>
          <Unknowns mandrel={target} well={well} />
          <div className="plan-side">
            <WorkTaps
              name="plan-work"
              mandrel={target}
              work={first?.work}
              onWork={(work) => onChange((now) => withWork(now, target.id, work))}
            />
            <Day draft={draft} onChange={onChange} />
          </div>
          <Reason draft={draft} onChange={onChange} />
          <Further well={well} library={library} draft={draft} onChange={onChange} />
        </>
      )}
    </section>
  );
}

const withWork = (draft: PlanDraft, mandrel: string, work: Work): PlanDraft => ({
  ...draft,
  pockets: draft.pockets.map((each) => (each.mandrel === mandrel ? { mandrel, work } : each)),
});

function pocketWords({ construction, pocketState, valve }: Mandrel, valves: readonly Valve[]) {
  if (construction === "conventional") return "conventional, valve outside";
  const of = valves.find(({ id }) => id === valve);
  if (pocketState === "holds a valve")
    return of ? `${of.serial}, ${of.kind}` : "a valve, no record";
  return pocketState === "empty" ? "empty pocket" : "not known what is in it";
}

function Refused({ refused, well }: { readonly refused: Refusal; readonly well: Well }) {
  return (
    <div className="problem plan-refused" role="alert">
      <h3>{refused.title}</h3>
      <p>{refused.why}</p>
      <p>{refused.instead}</p>
      <Link href={`/edit/wells/${well.id}?back=plan`} className="button plan-refused-record">
        Record of {well.name}
      </Link>
    </div>
  );
}

function Unknowns({ mandrel, well }: { readonly mandrel: Mandrel; readonly well: Well }) {
  const unknowns = unknownsOf(mandrel);
  if (unknowns.length === 0) return null;
  const lacking = (["orientingSleeve", "pocket", "latchProfile"] as const).find(
    (field) => (mandrel[field] ?? "not known") === "not known",
  );
  const field = `mandrels.${well.mandrels.indexOf(mandrel)}.${lacking ?? "pocketState"}`;
  return (
    <div className="problem plan-refused">
      {unknowns.map((says) => (
        <p key={says}>{says}</p>
      ))}
      <Link
        href={placeIn({ href: `/edit/wells/${well.id}`, field }, "plan")}
        className="button plan-refused-record"
      >
        Record of {well.name}
      </Link>
    </div>
  );
}

interface WorkTapsProps {
  readonly name: string;
  readonly mandrel: Mandrel;
  readonly work: Work | undefined;
  readonly onWork: (work: Work) => void;
}

function WorkTaps({ name, mandrel, work, onWork }: WorkTapsProps) {
  return (
    <fieldset>
      <legend>Work</legend>
      <div className="plan-taps">
        {worksFor(mandrel).map((each) => (
          <label key={each} className="plan-tap">
            <input type="radio" name={name} checked={each === work} onChange={() => onWork(each)} />
            <span>{workNames[each]}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

type Changing = Pick<WhatProps, "draft" | "onChange">;

function Reason({ draft, onChange }: Changing) {
  const say = (reason: string) => onChange((now) => ({ ...now, reason }));
  return (
    <fieldset>
      <legend>Reason</legend>
      <div className="plan-taps">
        {usualReasons.map(({ title, words }) => (
          <label key={title} className="plan-tap">
            <input
              type="radio"
              name="plan-reason"
              checked={draft.reason === words}
              onChange={() => say(words)}
            />
            <span>{title}</span>
          </label>
        ))}
      </div>
      <label htmlFor="plan-reason" className="hidden-label">
        Reason, in words
      </label>
      <textarea
        id="plan-reason"
        rows={2}
        placeholder="In words, as the engineer and the crew shall read it"
        value={draft.reason}
        onChange={(event) => say(event.target.value)}
      />
    </fieldset>
  );
}

function Day({ draft, onChange }: Changing) {
  const today = new Date();
  const days = [
    ["Today", format(today, "yyyy-MM-dd")],
    ["Tomorrow", format(addDays(today, 1), "yyyy-MM-dd")],
  ] as const;
  const choose = (day: string) => onChange((now) => ({ ...now, day }));
  return (
    <fieldset>
      <legend>Day</legend>
      <div className="plan-taps">
        {days.map(([name, day]) => (
          <label key={name} className="plan-tap">
            <input
              type="radio"
              name="plan-day"
              checked={draft.day === day}
              onChange={() => choose(day)}
            />
            <span>{name}</span>
          </label>
        ))}
        <label htmlFor="plan-day" className="hidden-label">
          Another day
        </label>
        <input
          id="plan-day"
          type="date"
          value={draft.day ?? ""}
          onChange={(event) => choose(event.target.value)}
        />
      </div>
    </fieldset>
  );
}

/** Further pockets of the same rig-up, and whether a catcher goes below all of them. */
function Further({ well, library, draft, onChange }: Omit<WhatProps, "refused">) {
  const named = new Set(draft.pockets.map(({ mandrel }) => mandrel));
  const free = well.mandrels.filter(
    ({ id, construction }) => construction === "side pocket" && !named.has(id),
  );
  const further = draft.pockets.slice(1);
  const add = (id: string) => {
    const mandrel = free.find((each) => each.id === id);
    const [work] = mandrel ? worksFor(mandrel) : [];
    if (!mandrel || !work) return;
    onChange((now) => ({ ...now, pockets: [...now.pockets, { mandrel: mandrel.id, work }] }));
  };
  return (
    <details className="plan-further" open={further.length > 0 || draft.catcher || undefined}>
      <summary>Further pockets in this rig-up, catcher</summary>
      {further.map(({ mandrel, work }) => {
        const of = well.mandrels.find(({ id }) => id === mandrel);
        if (!of) return null;
        return (
          <div key={mandrel} className="plan-further-pocket">
            <h3>
              Then mandrel {of.number}{" "}
              <span className="small soft">{pocketWords(of, library.valves)}</span>
            </h3>
            <WorkTaps
              name={`plan-work-${mandrel}`}
              mandrel={of}
              work={work}
              onWork={(to) => onChange((now) => withWork(now, mandrel, to))}
            />
            <button
              type="button"
              className="button quiet plan-take-out"
              onClick={() => onChange((now) => withoutPocketOf(now, mandrel))}
            >
              Take mandrel {of.number} out again
            </button>
          </div>
        );
      })}
      {free.length > 0 && further.length < 9 && (
        <div className="plan-add">
          <label htmlFor="plan-add" className="plan-add-label">
            Add a pocket
          </label>
          <select id="plan-add" value="" onChange={(event) => add(event.target.value)}>
            <option value="">choose a mandrel</option>
            {free.map((mandrel) => (
              <option key={mandrel.id} value={mandrel.id}>
                Mandrel {mandrel.number}, {pocketWords(mandrel, library.valves)}
              </option>
            ))}
          </select>
        </div>
      )}
      <label className="plan-check">
        <input
          type="checkbox"
          checked={draft.catcher}
          onChange={(event) => {
            const catcher = event.target.checked;
            onChange((now) => ({ ...now, catcher }));
          }}
        />
        <span>With a catcher below the lowest pocket, set first and taken out last</span>
      </label>
    </details>
  );
}
