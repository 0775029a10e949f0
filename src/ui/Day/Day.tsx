import { addDays, format, isValid, parseISO } from "date-fns";
import { useMemo } from "react";
import { Link } from "wouter";
import { clashesOf, sharedBy } from "../../jobs/day/clashes.ts";
import { dayJobs } from "../../jobs/day/dayJobs.ts";
import { dayTime, inHours, isLong } from "../../jobs/day/dayTime.ts";
import { loadOutOf, workedOutLines } from "../../jobs/day/loadOut.ts";
import type { Wanted } from "../../jobs/store/narrowed.ts";
import { Nowhere } from "../App/Nowhere.tsx";
import { SaveDay } from "../Packs/SavePack.tsx";
import { Ring } from "../Ring/Ring.tsx";
import { useSettings } from "../settings.ts";
import { useAllEvents, useLibrary } from "../storeContext.ts";
import { TopBar } from "../TopBar/TopBar.tsx";
import { useNow } from "../useNow.ts";
import { JobsInOrder } from "./JobsInOrder.tsx";
import { LoadList } from "./LoadList.tsx";
import "./Day.css";

export default function Day({ day }: { readonly day: string }) {
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(day) && isValid(parseISO(day));
  return isDay ? <DayOf key={day} day={day} /> : <Nowhere what="day" />;
}

/** A day of one crew: its jobs in their order, what keeps them from being done, and what goes on the truck. */
function DayOf({ day }: { readonly day: string }) {
  const found = useDay(day);
  const date = parseISO(day);
  const beside = (days: number) => format(addDays(date, days), "yyyy-MM-dd");
  return (
    <>
      <TopBar title={format(date, "EEE d MMM yyyy")} />
      <main className="page day" aria-busy={found === undefined}>
        <nav className="row day-beside" aria-label="Other days">
          <Link href={`/days/${beside(-1)}`} className="button">
            {format(addDays(date, -1), "EEE d MMM")}
          </Link>
          <Link href={`/days/${beside(1)}`} className="button">
            {format(addDays(date, 1), "EEE d MMM")}
          </Link>
        </nav>
        <p className="day-printed">
          <strong>{format(date, "EEE d MMM yyyy")}</strong>
          <br />
          Printed {format(new Date(), "yyyy-MM-dd HH:mm")}. Local rules, the permit and the makers'
          limits come first.
        </p>
        {found && <Found day={day} found={found} />}
      </main>
    </>
  );
}

/** A valve of one job may sit in the pocket of any well. */
const ofDays: Wanted = { jobs: "all", whole: ["wells", "tools", "days"] };

function useDay(day: string) {
  const library = useLibrary(ofDays);
  const events = useAllEvents();
  const { units } = useSettings();
  const now = useNow(60);
  const worked = useMemo(() => {
    if (!library || !events) return undefined;
    const { jobs, unread } = dayJobs(day, library, events, now, units);
    return {
      jobs,
      unread,
      clashes: clashesOf(day, jobs, library),
      shared: sharedBy(jobs),
      time: dayTime(jobs, library, events, now),
      lines: workedOutLines(day, jobs, library, units),
      record: library.days.find(({ id }) => id === day),
    };
  }, [day, library, events, now, units]);
  return useMemo(
    () => worked && { ...worked, loadOut: loadOutOf(worked.lines, worked.record) },
    [worked],
  );
}

type FoundDay = NonNullable<ReturnType<typeof useDay>>;

function Found({ day, found }: { readonly day: string; readonly found: FoundDay }) {
  const { jobs, unread, clashes, shared, time, loadOut, record } = found;
  const nothing = jobs.length === 0 && unread.length === 0;
  return (
    <>
      <section aria-labelledby="day-jobs">
        <h2 id="day-jobs">Jobs in order</h2>
        {nothing && <p>No job is planned for this day. Jobs come here by the day in their plan.</p>}
        <JobsInOrder day={day} jobs={jobs} />
        {jobs.length > 0 && (
          <div className="row day-pack">
            <SaveDay day={day} />
          </div>
        )}
        {unread.map(({ job, well, fault }) => (
          <p key={job.id} className="problem">
            {well}: this job cannot be read on this tablet ({fault}). What it needs is not on the
            list below.
          </p>
        ))}
        {time && time.pockets > 0 && (
          <p className={isLong(time) ? "day-long" : "soft"}>
            {isLong(time) && "Longer than a shift of 12 h (common practice): "}
            about {inHours(time.whole)} for {time.pockets}{" "}
            {time.pockets === 1 ? "pocket" : "pockets"}, without the ways between the wells: the{" "}
            {time.runs === 1 ? "one run" : `${time.runs} runs`} closed on this tablet took{" "}
            {inHours(time.perPocket)} a pocket without stand-by.
          </p>
        )}
      </section>
      {jobs.length > 0 && (
        <section aria-labelledby="day-clashes">
          <h2 id="day-clashes">What stands in the way</h2>
          {clashes.length === 0 && <p>Nothing found.</p>}
          <ol className="day-clashes">
            {clashes.map(({ weight, says, job }, index) => (
              <li key={says} className={weight}>
                <Ring shape={weight} size={24} />
                <span>{says}</span>
                {job && (
                  <Link
                    href={`/jobs/${job}`}
                    className={index === 0 && weight !== "ask" ? "button next" : "button"}
                  >
                    Open {jobs.find((each) => each.job.id === job)?.well}
                  </Link>
                )}
              </li>
            ))}
          </ol>
          {shared.length > 0 && (
            <>
              <h3>Shared</h3>
              <ul className="day-shared">
                {shared.map(({ kind, name, wells }) => (
                  <li key={`${kind} ${name}`}>
                    {name}: {wells.join(", ")}
                  </li>
                ))}
              </ul>
            </>
          )}
        </section>
      )}
      {(!nothing || loadOut.lines.length > 0 || loadOut.notNeeded.length > 0) && (
        <LoadList day={day} loadOut={loadOut} extras={record?.extras ?? []} />
      )}
    </>
  );
}
