import { format, parseISO } from "date-fns";
import { Fragment, useState } from "react";
import { takeOffExtra, tick, untick } from "../../jobs/day/changeDay.ts";
import { keyOf, type LoadGroup, loadGroups } from "../../jobs/day/loadLine.ts";
import type { ListedLine, LoadOut, NotNeeded } from "../../jobs/day/loadOut.ts";
import type { WorkingDay } from "../../jobs/records/workingDay.ts";
import { settings } from "../settings.ts";
import { AddExtra } from "./AddExtra.tsx";
import { useChangeDay } from "./useChangeDay.ts";

interface LoadListProps {
  readonly day: string;
  readonly loadOut: LoadOut;
  readonly extras: WorkingDay["extras"];
}

const nameless = "Say first who holds this tablet: the name stands beside what is loaded.";

/** What goes on the truck, ticked as it goes. */
export function LoadList({ day, loadOut, extras }: LoadListProps) {
  const { lines, notNeeded } = loadOut;
  const { change, problem, refuse } = useChangeDay(day);
  const loaded = lines.filter((line) => line.loaded.state === "loaded").length;
  const toggle = async (line: ListedLine) => {
    if (line.loaded.state === "loaded") {
      await change(untick(line.key));
      return;
    }
    const { actor } = settings();
    if (!actor) refuse(nameless);
    else await change(tick(line, actor, new Date().toISOString()));
  };
  const groups = (Object.keys(loadGroups) as LoadGroup[]).flatMap((group) => {
    const of = lines.filter((line) => line.group === group);
    return of.length > 0 ? [{ group, of }] : [];
  });
  return (
    <section aria-labelledby="day-load" className="day-load">
      <div className="row day-load-head">
        <h2 id="day-load">Load-out</h2>
        <span className="figure" role="status">
          {loaded} of {lines.length} loaded
        </span>
        <Leave day={day} loadOut={loadOut} />
      </div>
      <p className="small soft">
        Worked out from the programmes of the jobs. Strings are made up one after the other: what
        several of them take is loaded once. What is marked common practice no record asks for.
      </p>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
      {notNeeded.length > 0 && (
        <NotNeededLines lines={notNeeded} onOff={(key) => void change(untick(key))} />
      )}
      {groups.map(({ group, of }) => (
        <Fragment key={group}>
          <h3 id={`load-${group}`}>{loadGroups[group]}</h3>
          <ul className="load-lines" aria-labelledby={`load-${group}`}>
            {of.map((line) => (
              <LineRow
                key={line.key}
                line={line}
                onToggle={() => toggle(line)}
                onTakeOff={
                  group === "extras"
                    ? () => void change(takeOffExtra(extraOf(line, extras)))
                    : undefined
                }
              />
            ))}
          </ul>
        </Fragment>
      ))}
      <AddExtra day={day} extras={extras.length} />
    </section>
  );
}

const extraOf = (line: ListedLine, extras: WorkingDay["extras"]) =>
  extras.find(({ id }) => keyOf("extras", id) === line.key)?.id ?? "";

interface LineRowProps {
  readonly line: ListedLine;
  readonly onToggle: () => Promise<void>;
  readonly onTakeOff: (() => void) | undefined;
}

function LineRow({ line, onToggle, onTakeOff }: LineRowProps) {
  const { count, what, detail, wells, practice, why, ask, loaded } = line;
  const [saving, setSaving] = useState(false);
  const press = async () => {
    setSaving(true);
    await onToggle();
    setSaving(false);
  };
  return (
    <li className={`load-line ${loaded.state}`}>
      <label className="load-tick">
        <input
          type="checkbox"
          checked={loaded.state === "loaded"}
          aria-busy={saving}
          onChange={() => void press()}
        />
        <span className="load-count figure">{count} ×</span>
        <span className="load-what">
          <span>{what}</span>
          {detail && <span className="load-detail">{detail}</span>}
        </span>
      </label>
      <div className="load-more small">
        {wells.length > 0 && <span>{wells.join(", ")}</span>}
        {practice && <span className="load-practice">common practice</span>}
        {why && <span className="soft">{why}</span>}
        {loaded.state === "loaded" && (
          <span>
            Loaded: {loaded.by}, {format(parseISO(loaded.at), "d MMM HH:mm")}
          </span>
        )}
      </div>
      {loaded.state === "changed" && (
        <p className="problem small">
          Changed since {loaded.by} ticked it on {format(parseISO(loaded.at), "d MMM HH:mm")}: it
          read “{loaded.read}”. Look at it, and tick it again.
        </p>
      )}
      {ask && <p className="load-ask small">{ask}</p>}
      {onTakeOff && (
        <button
          type="button"
          className="button load-off"
          onClick={onTakeOff}
          aria-label={`Take off: ${what}`}
        >
          Take off
        </button>
      )}
    </li>
  );
}

interface NotNeededLinesProps {
  readonly lines: readonly NotNeeded[];
  readonly onOff: (key: string) => void;
}

/** Ticked, and no job asks for it any more: it is still on the truck. */
function NotNeededLines({ lines, onOff }: NotNeededLinesProps) {
  return (
    <>
      <h3 id="load-not-needed">No longer needed</h3>
      <ul className="load-lines" aria-labelledby="load-not-needed">
        {lines.map(({ key, read, by, at }) => (
          <li key={key} className="load-line not-needed">
            <p>{read}</p>
            <p className="load-more small">
              Loaded by {by}, {format(parseISO(at), "d MMM HH:mm")}. Nothing on this day asks for it
              any more.
            </p>
            <button
              type="button"
              className="button load-off"
              onClick={() => onOff(key)}
              aria-label={`Off the truck: ${read}`}
            >
              Off the truck
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** The ways the list leaves the tablet. */
function Leave({ day, loadOut }: Pick<LoadListProps, "day" | "loadOut">) {
  const [said, setSaid] = useState("");
  const save = async (kind: "csv" | "xlsx") => {
    try {
      const { saveLoadOut } = await import("./saveLoadOut.ts");
      setSaid(`${saveLoadOut(day, loadOut, kind)} handed to the browser's downloads.`);
    } catch (error) {
      setSaid(`The file could not be made: ${(error as Error).message}.`);
    }
  };
  return (
    <span className="row day-leave">
      <button type="button" className="button" onClick={() => window.print()}>
        Print
      </button>
      <button type="button" className="button" onClick={() => void save("csv")}>
        Save as CSV
      </button>
      <button type="button" className="button" onClick={() => void save("xlsx")}>
        Save as XLSX
      </button>
      {said && (
        <span className="small" role="status">
          {said}
        </span>
      )}
    </span>
  );
}
