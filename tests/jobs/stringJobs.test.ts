import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import type { ToolString } from "../../src/jobs/records/equipment.ts";
import { type Job, job as jobRecord } from "../../src/jobs/records/job.ts";
import { fitsOf } from "../../src/jobs/stringFit.ts";
import {
  changedSinceIssue,
  copyFor,
  isOver,
  keepsOld,
  standingsOf,
  withString,
} from "../../src/jobs/stringJobs.ts";
import { planner, readyProgramme, Tablet } from "./demo.ts";

const record = library.strings.find(({ id }) => id === "string-pull") as ToolString;
/** The tablet of a test calls its job "job". */
const ofTest: Job = { ...jobs.ready, id: "job" };
const withJob = { ...library, jobs: [ofTest] };
const issued = () => {
  const tablet = new Tablet();
  tablet.actor = planner;
  tablet.act(({ state, actor }) => issueProgramme(state, readyProgramme(), actor));
  return tablet;
};

describe("jobs that use a string", () => {
  it("are found by their plan, and by the programme that they were issued with", () => {
    expect(standingsOf(record, withJob, []).map(({ job }) => job.id)).toEqual(["job"]);
    const elsewhere = { ...ofTest, strings: { ...ofTest.strings, pull: "another" } };
    const moved = { ...library, jobs: [elsewhere] };
    expect(standingsOf(record, moved, [])).toEqual([]);
    expect(standingsOf(record, moved, issued().events)).toHaveLength(1);
  });

  it("keep the string that they were issued with, and say on which revision", () => {
    const says = (tablet: Tablet) => keepsOld(record, standingsOf(record, withJob, tablet.events));
    expect(says(new Tablet())).toEqual([]);
    expect(says(issued())).toEqual([
      "EM-07 is issued as revision 1 and keeps the old string until the planner issues again.",
    ]);
    expect(says(new Tablet().start())).toEqual([
      "EM-07 runs on revision 1 and keeps the string as it was issued.",
    ]);
  });

  it("are no longer held against it when they are over", () => {
    const running = standingsOf(record, withJob, new Tablet().start().events);
    expect(running.map(isOver)).toEqual([false]);
    const [standing] = running;
    if (!standing) throw new Error("no standing");
    for (const stage of ["closed", "approved"] as const) {
      expect(isOver({ ...standing, state: { ...standing.state, stage } })).toBe(true);
    }
    expect(fitsOf(record, withJob)).toHaveLength(1);
    expect(fitsOf(record, withJob, new Set(["job"]))).toEqual([]);
  });
});

describe("a string of an issued programme", () => {
  it("is known to be another than its record, photographs aside", () => {
    const photographs = [{ day: "2026-11-25", jpeg: "/9j/AAAA" }];
    const strings = (change: Partial<ToolString>) => ({
      ...library,
      strings: [{ ...record, ...change }],
    });
    expect(changedSinceIssue(record, strings({ photographs, revision: 2 }))).toBe(false);
    expect(changedSinceIssue(record, strings({ tools: record.tools.slice(1) }))).toBe(true);
    expect(changedSinceIssue(record, { ...library, strings: [] })).toBe(false);
  });
});

describe("a copy of a string for one job", () => {
  it("has the tools and none of the photographs, and the job that takes it is a good record", () => {
    const photographed = { ...record, revision: 4, photographs: [] };
    const copy = copyFor(photographed, { well: library.wells[1] }, "new");
    expect(copy).toEqual({
      ...record,
      id: "new",
      revision: 1,
      name: `Pull string, orienting, ${library.wells[1]?.name}`,
    });
    const changed = withString(ofTest, copy, record.id);
    expect(jobRecord.parse(changed).strings).toEqual({ ...ofTest.strings, pull: "new" });
    expect(changed.revision).toBe(ofTest.revision + 1);
  });

  it("takes every place that the string had, or that of its purpose", () => {
    const copy = { ...record, id: "new" };
    const twice = { ...ofTest, strings: { ...ofTest.strings, set: record.id } };
    expect(withString(twice, copy, record.id).strings).toMatchObject({ pull: "new", set: "new" });
    expect(withString(ofTest, copy, "of no job").strings).toEqual({
      ...ofTest.strings,
      pull: "new",
    });
  });
});
