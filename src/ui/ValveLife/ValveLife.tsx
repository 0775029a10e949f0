import { format } from "date-fns";
import { useMemo, useState } from "react";
import { Link } from "wouter";
import { kaplanMeierMethod, logRankMethod, restrictedMeanMethod } from "../../calc/survival.ts";
import { befellInLogs } from "../../jobs/library/history.ts";
import { conditionWords } from "../../jobs/pulledConditions.ts";
import { type FieldPicture, fieldPicture, type LifeOf } from "../../jobs/valveLife/fieldPicture.ts";
import { runsOf, type Uncounted, type ValveRun } from "../../jobs/valveLife/runs.ts";
import {
  besideInWords,
  daysInWords,
  daysWithin,
  medianInWords,
  pocketInWords,
} from "../../jobs/valveLife/words.ts";
import { useSettings } from "../settings.ts";
import { useAllEvents, useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { useNow } from "../useNow.ts";
import { LifeChart } from "./LifeChart.tsx";
import "./ValveLife.css";

/** How long valves last: what has failed, and what still lasts, counted together. */
export default function ValveLife() {
  const library = useLibrary({ whole: ["wells", "valves"] });
  const events = useAllEvents();
  const { units } = useSettings();
  const today = format(new Date(useNow(3600)), "yyyy-MM-dd");
  const [chosen, setField] = useState<string>();
  const found = useMemo(
    () => library && events && runsOf(library.valves, library.wells, befellInLogs(events), today),
    [library, events, today],
  );
  const fields = [...new Set(library?.wells.map(({ field }) => field))].sort();
  const field = chosen ?? (fields.length === 1 ? fields[0] : undefined);
  const runs = useMemo(
    () => found?.runs.filter(({ well }) => field === undefined || well?.field === field) ?? [],
    [found, field],
  );
  const picture = useMemo(() => fieldPicture(runs, units), [runs, units]);
  return (
    <>
      <TopBar title="Valve life" />
      <main className="page valve-life" aria-busy={!found}>
        {fields.length > 1 && (
          <label className="valve-life-field">
            Field
            <select
              value={field ?? ""}
              onChange={(event) => setField(event.target.value || undefined)}
            >
              <option value="">All fields</option>
              {fields.map((each) => (
                <option key={each}>{each}</option>
              ))}
            </select>
          </label>
        )}
        {!found && <p role="status">Reading the records and the logs…</p>}
        {found && !picture.all && <Nothing />}
        {picture.all && <Whole of={picture.all} picture={picture} runs={runs} />}
        <Groups by="Kind" groups={picture.byKind} />
        <Groups by="Depth along hole" groups={picture.byDepth} />
        <Pockets picture={picture} />
        {found && <NotCounted uncounted={found.uncounted} />}
      </main>
    </>
  );
}

function Nothing() {
  return (
    <p>
      No valve has a day on record on which it was set. A finished job's log brings it; what was
      before is entered in the valve's record, under "What befell it before", or brought in with a
      table. <Link href="/library/valves">Look at the valves</Link>
    </p>
  );
}

interface WholeProps {
  readonly of: LifeOf;
  readonly picture: FieldPicture;
  readonly runs: readonly ValveRun[];
}

function Whole({ of, picture, runs }: WholeProps) {
  const invented = runs.length > 0 && runs.every(({ well }) => well?.invented);
  return (
    <section className="card valve-life-whole">
      <h2>All valves</h2>
      <p className="valve-life-lead">
        {medianInWords(of)}{" "}
        {of.mean &&
          `Of the first ${daysInWords(of.mean.to)} a valve is in service ${daysWithin(of.mean.days, 1.96 * of.mean.standardError)} on average.`}
      </p>
      <p>
        {of.runs} stays in pockets, {of.failures} failed, {of.inService} in service now
        {picture.notSaid > 0 &&
          `; ${picture.notSaid} pulled and found in no way that was written down, counted as not failed`}
        .{invented && " Invented for the demonstration."}
      </p>
      <LifeChart curves={[{ name: "All valves", curve: of.curve, band: true }]} />
      <p className="small soft">
        Share still in service against time since it was set: a valve that is still in service, or
        was pulled without having failed, counts for as long as it lasted. The band holds the true
        share 95 times in 100 at each time. Dummies are left out.
      </p>
      <Working />
      {picture.modes.length > 0 && (
        <>
          <h3>As they were found when pulled</h3>
          <dl className="valve-life-modes">
            {picture.modes.map(({ condition, count }) => (
              <div key={condition}>
                <dt>{conditionWords[condition]}</dt>
                <dd className="figure">{count}</dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </section>
  );
}

const methods = [kaplanMeierMethod, restrictedMeanMethod, logRankMethod];

function Working() {
  return (
    <details className="small">
      <summary>How it is worked out</summary>
      <ul className="valve-life-working">
        {methods.map(({ name, formula, source }) => (
          <li key={name}>
            <strong>{name}.</strong> {formula}. Source: {source}.
          </li>
        ))}
      </ul>
    </details>
  );
}

function Groups({ by, groups }: { readonly by: string; readonly groups: readonly LifeOf[] }) {
  if (groups.length < 2) return null;
  const shown = groups.flatMap(({ isFew, title: name, curve }) => (isFew ? [] : [{ name, curve }]));
  const span = groups.find(({ mean }) => mean)?.mean?.to;
  return (
    <section className="card">
      <h2>By {by.toLowerCase()}</h2>
      {shown.length > 1 && <LifeChart curves={shown} />}
      <table>
        <thead>
          <tr>
            <th scope="col">{by}</th>
            <th scope="col">Stays</th>
            <th scope="col">Failed</th>
            <th scope="col">Half have failed by</th>
            <th scope="col">Mean{span !== undefined && ` of the first ${daysInWords(span)}`}</th>
            <th scope="col">Beside the others</th>
          </tr>
        </thead>
        <tbody>
          {groups.map((each) => (
            <tr key={each.title}>
              <th scope="row">{each.title}</th>
              <td data-name="stays">{each.runs}</td>
              <td data-name="failed">{each.failures}</td>
              <td data-name="half by">
                {each.median === undefined ? "not yet" : daysInWords(each.median)}
              </td>
              <td data-name="mean">
                {each.mean && daysWithin(each.mean.days, 1.96 * each.mean.standardError)}
              </td>
              <td data-name="beside the others">{besideInWords(each)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Pockets({ picture }: { readonly picture: FieldPicture }) {
  const { pockets, pocketsLookedAt, all } = picture;
  if (!all) return null;
  return (
    <section className="card">
      <h2>Pockets that keep failing</h2>
      {pockets.length === 0 && (
        <p>In none of {pocketsLookedAt} pockets has more than one valve failed.</p>
      )}
      <ul className="valve-life-pockets">
        {pockets.map((each) => (
          <li key={each.pocket}>
            <h3>
              {each.well ? <Link href={`/wells/${each.well.id}`}>{each.pocket}</Link> : each.pocket}
            </h3>
            <p>{pocketInWords(each)}</p>
            <ul className="small">
              {each.runs.map(({ serial, from, days, end, condition }) => (
                <li key={`${serial} ${from}`}>
                  {serial}, set {from}, {daysInWords(days)}:{" "}
                  {condition
                    ? conditionWords[condition].toLowerCase()
                    : end === "not said"
                      ? "pulled"
                      : end}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
      {pockets.length > 0 && (
        <p className="small soft">
          Of {pocketsLookedAt} pockets that were looked at: among many, one in twenty stands out as
          far as 1 time in 20 by chance alone.
        </p>
      )}
    </section>
  );
}

function NotCounted({ uncounted }: { readonly uncounted: readonly Uncounted[] }) {
  if (uncounted.length === 0) return null;
  return (
    <details className="card">
      <summary>Not counted, {uncounted.length}</summary>
      <ul className="valve-life-uncounted">
        {uncounted.map(({ serial, pocket, why }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: nothing of the list moves about, and two may be alike
          <li key={index}>
            <strong>{serial}</strong>
            {pocket && `, ${pocket}`}: {why}.
          </li>
        ))}
      </ul>
    </details>
  );
}
