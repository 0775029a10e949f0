import { describe, expect, it } from "vitest";
import { jobs, library } from "../../../demo-data/emberMesa.ts";
import { assemble } from "../../../src/jobs/assemble.ts";
import { recordOf } from "../../../src/jobs/planning/recordOf.ts";
import { readinessOf } from "../../../src/jobs/readiness.ts";

describe("where an open point is mended", () => {
  const job = jobs.notReady;
  const programme = assemble(job, library);
  const points = readinessOf(programme).points;
  const of = (says: RegExp) => {
    const point = points.find((each) => says.test(each.says));
    if (!point) throw new Error(`no open point ${says}`);
    return recordOf(point, { programme, job });
  };

  it("is the job for its shear pins, and no string", () => {
    expect(of(/^Running-tool pins are steel/)).toMatchObject({
      href: `/edit/jobs/${job.id}`,
      field: "pins.material",
    });
  });

  it("is the valve for its card", () => {
    expect(of(/^Card of valve EM-2042/)).toMatchObject({
      href: "/edit/valves/valve-em-2042",
      field: "card.testRackOpening60F",
    });
  });
});
