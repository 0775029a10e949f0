import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { boardColumns, isUnderWay, nextJob, readable } from "../../src/jobs/board.ts";
import { Tablet } from "./demo.ts";

describe("the board", () => {
  const now = new Date(2026, 10, 25, 8).toISOString();
  const columns = boardColumns(library, [], now, "field");

  it("has today and tomorrow, and earlier and later only when something is there", () => {
    expect(columns.map((column) => [column.key, column.jobs.map((job) => job.well)])).toEqual([
      ["earlier", ["EM-03"]],
      ["today", ["EM-07"]],
      ["tomorrow", ["EM-12"]],
    ]);
  });

  it("shows each role the job that waits for it", () => {
    const all = readable(columns);
    const staged = all.map((each) =>
      each.well === "EM-07"
        ? { ...each, stage: "issued" as const }
        : each.well === "EM-03"
          ? { ...each, stage: "closed" as const }
          : each,
    );
    expect(nextJob(staged, "wireline supervisor", now)?.well).toBe("EM-07");
    expect(nextJob(staged, "production engineer", now)?.well).toBe("EM-03");
    expect(nextJob(staged, "planner", now)?.well).toBe("EM-12");
  });

  it("shows the others when one cannot be read", () => {
    const [event] = new Tablet().start().events;
    if (!event) throw new Error("no event");
    const bent = { ...event, job: jobs.ready.id, body: { type: "readings taken" } as never };
    const found = boardColumns(library, [bent], now, "field");
    expect(readable(found).map((job) => job.well)).toEqual(["EM-03", "EM-12"]);
    expect(found[1]?.jobs[0]).toMatchObject({ well: "EM-07", fault: expect.any(String) });
  });

  it("knows a run that this tablet has a hand in", () => {
    const tablet = new Tablet().start().runTo("briefing");
    const board = () =>
      readable(
        boardColumns(
          library,
          tablet.events.map((event) => ({ ...event, job: jobs.ready.id })),
          now,
          "field",
        ),
      );
    expect(isUnderWay(board(), tablet.device)).toBe(true);
    expect(isUnderWay(board(), "another")).toBe(false);
    tablet.runTo(undefined);
    tablet.close();
    expect(isUnderWay(board(), tablet.device)).toBe(false);
  });
});
