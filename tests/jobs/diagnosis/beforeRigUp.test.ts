import { describe, expect, it } from "vitest";
import { inSumOf } from "../../../src/jobs/diagnosis/inSum.ts";
import type { Fault } from "../../../src/jobs/diagnosis/ranking.ts";
import { samePocketOf } from "../../../src/jobs/diagnosis/samePocket.ts";
import { surfaceFirst } from "../../../src/jobs/diagnosis/surfaceFirst.ts";
import type { Evidence } from "../../../src/jobs/records/investigation.ts";
import { mscf, pressures } from "./liftWell.ts";
import { oneRanked } from "./oneRanked.ts";

const ranked = (...all: readonly (readonly [Fault, number])[]) => {
  const made = all.map(([fault, probability], place) =>
    oneRanked(String(place), probability, fault),
  );
  return { ranked: made, inSum: inSumOf(made) };
};

describe("two answers that stand close together", () => {
  it("are one pocket to work where nearly all that is likely is there", () => {
    expect(
      samePocketOf(
        ranked(
          [{ kind: "stuck open", mandrel: 3 }, 0.41],
          [{ kind: "wrong depth", mandrel: 3, other: 5 }, 0.26],
          [{ kind: "set too low", mandrel: 3 }, 0.21],
          [{ kind: "supply", what: "choke smaller" }, 0.1],
        ),
      ),
    ).toEqual({ mandrel: 3, probability: expect.closeTo(0.88, 9) });
  });

  it("are not where one of them is elsewhere, or much of what is likely is", () => {
    const stuck: Fault = { kind: "stuck open", mandrel: 1 };
    expect(samePocketOf(ranked([stuck, 0.5], [{ kind: "leaking", mandrel: 2 }, 0.45]))).toBe(
      undefined,
    );
    expect(samePocketOf(ranked([stuck, 0.4], [{ kind: "leaking", mandrel: 1 }, 0.3]))).toBe(
      undefined,
    );
    expect(
      samePocketOf(
        ranked([{ kind: "nothing downhole" }, 0.5], [{ kind: "back-pressure at surface" }, 0.45]),
      ),
    ).toBe(undefined);
  });
});

describe("surface first", () => {
  const inHole = ranked([{ kind: "stuck open", mandrel: 1 }, 0.9]);
  const atSurface = ranked([{ kind: "supply", what: "supply pressure fell" }, 0.9]);
  type Supply = Extract<Evidence, { kind: "supply" }>;
  const supply = (of: Partial<Supply>): Supply => ({
    id: "supply",
    kind: "supply",
    at: "2026-11-20T09:00:00.000Z",
    source: "meter",
    confidence: "good",
    ...of,
  });
  const says = (evidence: readonly Evidence[], ranking = inHole) =>
    surfaceFirst({ evidence: [...evidence] }, ranking)?.says;

  it("is said where a valve is named and nobody has looked at choke and supply", () => {
    const gauges = pressures(600, 120);
    expect(says([gauges])).toMatch(/^Nobody has looked/);
    expect(says([gauges, supply({ injectionRate: mscf(600) })])).toMatch(/^Nobody has looked/);
    expect(says([gauges, supply({ found: "not looked at" })])).toMatch(/^Nobody has looked/);
    expect(says([gauges, supply({ found: "in order", setAside: true })])).toMatch(
      /^Nobody has looked/,
    );
    expect(says([gauges, supply({ found: "in order" })])).toBe(undefined);
    expect(says([gauges, supply({ supplyPressure: { value: 1100, unit: "psig" } })])).toBe(
      undefined,
    );
    expect(says([gauges], atSurface)).toBe(undefined);
  });

  it("is said whatever is likeliest where something was found there, until it was mended", () => {
    const frozen = supply({ found: "frozen" });
    for (const ranking of [inHole, atSurface]) {
      expect(says([frozen], ranking)).toMatch(/^The choke was found frozen\. Thaw it/);
    }
    const mended = supply({ id: "later", at: "2026-11-21T09:00:00.000Z", found: "in order" });
    expect(says([frozen, mended])).toBe(undefined);
    expect(says([mended, frozen])).toBe(undefined);
  });
});
