import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { fromSI } from "../../src/jobs/quantity.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import { readyProgramme } from "../jobs/demo.ts";

/** The command line as an outside check calls it. */
function calc(args: string[], input?: string) {
  const result = spawnSync(process.execPath, ["scripts/calc.mjs", ...args], {
    encoding: "utf8",
    ...(input !== undefined && { input }),
  });
  return { status: result.status, out: result.stdout, err: result.stderr };
}

describe("npm run calc", () => {
  it("answers one input with one object", () => {
    const { status, out, err } = calc(
      ["dome-pressure", "-"],
      JSON.stringify({ pressure_psig: 800, temperature_degF: 150, to_temperature_degF: 60 }),
    );
    expect(status).toBe(0);
    expect(err).toBe("");
    // Span et al. (2000), constant volume; second opinion GERG-2008. Tolerance 0.5 psi, the tester's reading.
    expect(Math.abs(JSON.parse(out).pressure_psig - 668.17)).toBeLessThan(0.5);
  });

  it("answers an array in order, with the complaint of an entry that cannot be computed, and status 2", () => {
    const input = [{ temperature_degF: 60, pressure_psia: 200 }, { temperature_degF: 60 }];
    const { status, out } = calc(["nitrogen-state", "-"], JSON.stringify(input));
    expect(status).toBe(2);
    const [first, second] = JSON.parse(out);
    expect(first.z).toBeCloseTo(0.996549, 5);
    expect(second).toEqual({
      error: "pressure_psia: missing; must be a number above 0 and at most 100000 psia",
    });
  });

  it("lists the operations", () => {
    const names = calc(["list"]).out.split("\n");
    expect(names).toContain("valve-set");
    expect(names).toContain("brief");
  });

  it("briefs every job of a pack with the figures of the app, and refuses what is no pack", () => {
    const { status, out, err } = calc(["brief", "demo-data/ember-mesa.json"]);
    expect(err).toBe("");
    expect(status).toBe(0);
    const { jobs } = JSON.parse(out);
    expect(jobs.map((job: { well: string }) => job.well)).toEqual(["EM-07", "EM-12", "EM-03"]);
    const programme = readyProgramme();
    const shown = resultsOf(programme, {}).get("test-rack-needed");
    if (shown?.outcome.state !== "known") throw new Error("no set pressure");
    const said = jobs[0].results.find((each: { id: string }) => each.id === "test-rack-needed");
    expect(said.unit).toBe("psig");
    expect(said.value).toBeCloseTo(fromSI("pressure", shown.outcome.si, "psig"), 6);
    const missing = jobs[1].results.find((each: { id: string }) => each.id === "casing-level");
    expect(missing).toMatchObject({ state: "missing", needs: ["shut-in temperatures"] });

    const refused = calc(["brief", "-"], '{"format":"table"}');
    expect(refused).toMatchObject({ status: 2, out: "" });
    expect(refused.err).toMatch(/^pack: given "table"; must be a job pack: This is not a job pack/);
  });

  it.each([
    ["a key that is missing", ["push-out", "-"], "{}", /^wellhead_pressure_psig: missing/],
    ["no JSON", ["push-out", "-"], "{", /^standard input: not JSON/],
    ["an unknown operation", ["guess", "-"], "{}", /^guess: not an operation/],
    ["no file", ["push-out", "/not/there.json"], undefined, /cannot be read/],
    ["nothing", [], undefined, /^usage/],
  ])(
    "refuses %s on one line of standard error, nothing on standard output, status 2",
    (_, args, input, says) => {
      const { status, out, err } = calc(args, input);
      expect(status).toBe(2);
      expect(out).toBe("");
      expect(err).toMatch(says);
      expect(err.trimEnd().split("\n")).toHaveLength(1);
    },
  );
});
