import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";

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
    expect(calc(["list"]).out.split("\n")).toContain("valve-set");
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
