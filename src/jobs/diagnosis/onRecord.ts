import { format, parseISO } from "date-fns";
import type { WellPath } from "../../calc/path.ts";
import { alongHoleM, M_PER_FT } from "../../calc/units.ts";
import type { EntryValue } from "../log/event.ts";
import { type Quantity, toSI } from "../quantity.ts";
import type { Evidence } from "../records/investigation.ts";
import type { Well } from "../records/well.ts";
import { type JobState, latestReading } from "../state/jobState.ts";

/** Evidence that is on record already: it is taken in with one tap and typed by nobody again. */

export interface OnRecord {
  /** where it stands now, in words */
  readonly says: string;
  readonly pieces: readonly Evidence[];
}

/** What the well's record and the logs of jobs on it say of the well on lift, the latest first. */
export function onRecord(
  well: Well,
  path: WellPath | undefined,
  jobs: readonly JobState[],
): OnRecord[] {
  const inLogs = jobs.flatMap((state) => [...observedOf(state), ...leftOf(state)]);
  return [...lastFoundOf(well, path), ...inLogs].sort((a, b) =>
    (b.pieces[0]?.at ?? "").localeCompare(a.pieces[0]?.at ?? ""),
  );
}

function lastFoundOf({ lastFound, name }: Well, path: WellPath | undefined): OnRecord[] {
  if (!lastFound) return [];
  const base = {
    // A record of a day has no hour: noon is the middle of it.
    at: parseISO(`${lastFound.day}T12:00`).toISOString(),
    source: `Record of ${name}: last found on lift`,
    confidence: "fair",
    remark: "The hour is not on record; noon is put for it.",
  } as const;
  const id = `last-found-${lastFound.day}`;
  const pieces: Evidence[] = [
    {
      ...base,
      id,
      kind: "pressures",
      injectionAtSurface: lastFound.injectionAtSurface,
      wellhead: lastFound.wellhead,
    },
  ];
  if (lastFound.injectionRate) {
    pieces.push({
      ...base,
      id: `${id}-rate`,
      kind: "supply",
      injectionRate: lastFound.injectionRate,
    });
  }
  const found: OnRecord[] = [
    {
      says: `Last found on lift, ${lastFound.day}: pressures${lastFound.injectionRate ? " and rate" : ""}`,
      pieces,
    },
  ];
  const stops = path ? alongHoleStops(lastFound.survey ?? [], path) : [];
  if (stops.length > 1) {
    found.push({
      says: `Survey of ${lastFound.day}, ${stops.length} stops`,
      pieces: [{ ...base, id: `${id}-survey`, kind: "survey", stops }],
    });
  }
  return found;
}

type Stop = Extract<Evidence, { kind: "survey" }>["stops"][number];

/** Records hold true vertical depths of a survey; evidence is told by the wire's depth. */
function alongHoleStops(
  survey: NonNullable<NonNullable<Well["lastFound"]>["survey"]>,
  path: WellPath,
): Stop[] {
  return survey.flatMap(({ trueVerticalDepth, pressure }): Stop[] => {
    const along = alongAt(path, toSI("length", trueVerticalDepth));
    if (along === undefined) return [];
    const { unit } = trueVerticalDepth;
    const value = Number((unit === "ft" ? along / M_PER_FT : along).toFixed(1));
    return [{ depthAlongHole: { value, unit }, pressure }];
  });
}

const DEEPEST = 15_000;

/** Depth along hole of a true vertical depth, both m, where the path goes down all the way; undefined below it. */
export function alongAt(path: WellPath, vertical: number): number | undefined {
  let [above, below] = [path.points[0]?.depth ?? 0, DEEPEST] as [number, number];
  const at = (depth: number): number => path.at(alongHoleM(depth)).vertical;
  if (vertical <= at(above)) return vertical;
  if (at(below) < vertical) return undefined;
  while (below - above > 0.001) {
    const middle = (above + below) / 2;
    if (at(middle) < vertical) above = middle;
    else below = middle;
  }
  return below;
}

/** What was read of the lift after a job, and stands. */
function observedOf({ observed }: JobState): OnRecord[] {
  const standing = observed.filter(({ corrected }) => !corrected);
  return standing.map(({ event, observed: read }): OnRecord => {
    const base = { at: read.takenAt, source: read.source, confidence: "fair" } as const;
    const id = `observed-${event.hash.slice(0, 16)}`;
    const pieces: Evidence[] = [
      {
        ...base,
        id,
        kind: "pressures",
        injectionAtSurface: read.injectionAtSurface,
        wellhead: read.wellhead,
      },
    ];
    if (read.injectionRate) {
      pieces.push({ ...base, id: `${id}-rate`, kind: "supply", injectionRate: read.injectionRate });
    }
    if (read.liquidRate) {
      pieces.push({
        ...base,
        id: `${id}-test`,
        kind: "separator test",
        liquidRate: read.liquidRate,
      });
    }
    // What was taken in before its correction is still among the evidence: whoever takes in this one is told.
    const instead = read.corrects ? ", corrects an earlier entry" : "";
    return { says: `Lift observed ${minute(read.takenAt)}, ${read.source}${instead}`, pieces };
  });
}

/** The gauges as the crew of a job left them, where injection was taken up again. */
function leftOf(state: JobState): OnRecord[] {
  const [casing, wellhead] = ["final-casing", "final-wellhead"].map((field) =>
    latestReading(state, field),
  );
  const lock = latestReading(state, "lock-off");
  const left = lock?.value.kind === "choice" ? lock.value.choice : undefined;
  const [injectionAtSurface, up] = [casing?.value, wellhead?.value].map(pressureOf);
  if (!casing || !injectionAtSurface || !up || left === "stays") return [];
  const { programme } = state;
  const down = programme?.well?.injectionDown ?? "annulus";
  const [injection, production] =
    down === "annulus" ? [injectionAtSurface, up] : [up, injectionAtSurface];
  return [
    {
      says: `Gauges when the crew left, ${minute(casing.takenAt)}`,
      pieces: [
        {
          id: `left-${casing.event.hash.slice(0, 16)}`,
          kind: "pressures",
          at: casing.takenAt,
          source: `Run sheet of the job of ${programme?.job.day ?? casing.takenAt.slice(0, 10)}`,
          confidence: "fair",
          remark: "Read while injection was taken up again: the well may not have settled.",
          injectionAtSurface: injection,
          wellhead: production,
        },
      ],
    },
  ];
}

function pressureOf(value: EntryValue | undefined): Quantity<"pressure"> | undefined {
  return value?.kind === "quantity" && value.dimension === "pressure"
    ? ({ value: value.value, unit: value.unit } as Quantity<"pressure">)
    : undefined;
}

const minute = (at: string) => format(parseISO(at), "d MMM yyyy HH:mm");
