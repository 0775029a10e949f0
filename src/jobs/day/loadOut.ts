import { writer as makeWriter, type UnitSystem } from "../display.ts";
import type { WorkingDay } from "../records/workingDay.ts";
import { siteAtmosphere } from "../results/context.ts";
import { resultsOf } from "../results/results.ts";
import type { Library } from "../store/library.ts";
import type { DayJob } from "./dayJobs.ts";
import { keyOf, type LoadGroup, type LoadLine, loadGroups, reads } from "./loadLine.ts";
import { chemicalLines, lineLines, pressureLines, sealLines } from "./loadSite.ts";
import { pinLines, toolLines } from "./loadTools.ts";
import { valveLines } from "./loadValves.ts";

/** Whether a line is on the truck. */
export type Loaded =
  | { readonly state: "open" }
  | { readonly state: "loaded"; readonly at: string; readonly by: string }
  /** it was ticked, and reads otherwise now */
  | { readonly state: "changed"; readonly read: string; readonly at: string; readonly by: string };

export interface ListedLine extends LoadLine {
  readonly loaded: Loaded;
}

/** A line that somebody ticked and that nothing asks for any more. */
export interface NotNeeded {
  readonly key: string;
  readonly read: string;
  readonly at: string;
  readonly by: string;
}

export interface LoadOut {
  /** in the order of the groups */
  readonly lines: readonly ListedLine[];
  readonly notNeeded: readonly NotNeeded[];
}

/** What the jobs of a day ask to be loaded, worked out from their programmes. */
export function workedOutLines(
  day: string,
  jobs: readonly DayJob[],
  library: Pick<Library, "tools">,
  units: UnitSystem,
): LoadLine[] {
  const of = jobs.map(({ well, programme }) => ({
    well,
    programme,
    results: resultsOf(programme, {}),
    writer: makeWriter(units, siteAtmosphere(programme)),
  }));
  const lines = [
    ...toolLines(of, library.tools, day),
    ...valveLines(of),
    ...pinLines(of),
    ...pressureLines(of, day),
    ...lineLines(of),
    ...sealLines(of),
    ...chemicalLines(of),
  ];
  const place = (group: LoadGroup) => Object.keys(loadGroups).indexOf(group);
  return lines.sort((a, b) => place(a.group) - place(b.group));
}

/** The whole list with what was ticked of it: nothing that was ticked goes without a word. */
export function loadOutOf(worked: readonly LoadLine[], record: WorkingDay | undefined): LoadOut {
  const extras = (record?.extras ?? []).map(
    ({ id, name, count }): LoadLine => ({
      key: keyOf("extras", id),
      group: "extras",
      count,
      what: name,
      wells: [],
    }),
  );
  const all = [...worked, ...extras];
  const ticks = new Map((record?.loaded ?? []).map((tick) => [tick.line, tick]));
  const lines = all.map((line): ListedLine => {
    const tick = ticks.get(line.key);
    ticks.delete(line.key);
    if (!tick) return { ...line, loaded: { state: "open" } };
    const { at, by, read } = tick;
    return read === undefined || read === reads(line)
      ? { ...line, loaded: { state: "loaded", at, by } }
      : { ...line, loaded: { state: "changed", read, at, by } };
  });
  const notNeeded = [...ticks.values()].map(({ line, read, at, by }) => ({
    key: line,
    read: read ?? line,
    at,
    by,
  }));
  return { lines, notNeeded };
}
