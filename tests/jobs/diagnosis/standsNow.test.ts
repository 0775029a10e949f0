import { describe, expect, it } from "vitest";
import { jobs } from "../../../demo-data/emberMesa.ts";
import { inSumOf } from "../../../src/jobs/diagnosis/inSum.ts";
import { answerInWords } from "../../../src/jobs/diagnosis/nextAction.ts";
import type { Fault, Ranking } from "../../../src/jobs/diagnosis/ranking.ts";
import { begunFrom, saysOtherwise } from "../../../src/jobs/diagnosis/standsNow.ts";
import { readyProgramme, Tablet } from "../demo.ts";
import { investigationOf, pressures } from "./liftWell.ts";
import { oneRanked } from "./oneRanked.ts";

const of = (title: string, probability: number, fault: Fault) =>
  oneRanked(title, probability, fault);
const stuck3 = (probability: number) =>
  of("Valve in mandrel 3 stuck open", probability, { kind: "stuck open", mandrel: 3 });
const low3 = (probability: number) =>
  of("Valve in mandrel 3 set too low", probability, { kind: "set too low", mandrel: 3 });
const stuck2 = (probability: number) =>
  of("Valve in mandrel 2 stuck open", probability, { kind: "stuck open", mandrel: 2 });

const rankingOf = (
  ranked: Ranking["ranked"],
  verdict: Ranking["verdict"] = "two or more",
): Ranking => ({
  ranked,
  noneOfThese: 0.02,
  verdict,
  says: `${ranked[0]?.hypothesis.title} comes first.`,
  inSum: inSumOf(ranked),
  saysInSum: undefined,
  next: [],
  unused: [],
  assumed: [],
});

const then = rankingOf([stuck3(0.8), stuck2(0.1)], "one answer");
const agreed = {
  hypothesis: "Valve in mandrel 3 stuck open",
  says: answerInWords(stuck3(0.8), then),
};

describe("what was agreed on, beside what the evidence says now", () => {
  it("stands while it reads as it did, and while another answer asks for the same pocket", () => {
    expect(saysOtherwise(agreed, then)).toBeUndefined();
    expect(saysOtherwise(agreed, rankingOf([low3(0.5), stuck3(0.4)]))).toBeUndefined();
  });

  it("does not stand where the evidence now sends a crew elsewhere: both are named", () => {
    expect(saysOtherwise(agreed, rankingOf([stuck2(0.7), stuck3(0.1)]))).toBe(
      "Valve in mandrel 2 stuck open comes first. What was agreed on, Valve in mandrel 3 stuck open: about 1 in 10 now.",
    );
  });

  it("does not stand where the evidence tells nothing any more", () => {
    for (const verdict of ["nothing fits", "not enough to tell"] as const) {
      expect(saysOtherwise(agreed, rankingOf([stuck3(0.3), stuck2(0.1)], verdict))).toMatch(
        /about 3 in 10 now/,
      );
    }
    expect(saysOtherwise(agreed, { needs: [] })).toMatch(/names no answer/);
    expect(saysOtherwise(agreed, rankingOf([stuck2(0.7)]))).toMatch(/not among the answers/);
  });

  it("is of no concern where somebody agreed on what did not come first, and nothing changed since", () => {
    const open = rankingOf([stuck2(0.5), stuck3(0.4)]);
    const second = { ...agreed, says: answerInWords(stuck3(0.4), open) };
    expect(saysOtherwise(second, open)).toBeUndefined();
  });
});

describe("the well that an investigation is held against", () => {
  it("is that of its job's programme once the run has begun, and of no other job's", () => {
    const led = {
      ...investigationOf(pressures(742, 128)),
      agreed: { ...agreed, at: "", by: "", reason: "", job: jobs.ready.id },
    };
    const tablet = new Tablet("tablet", jobs.ready.id);
    tablet.write({ type: "programme issued", revision: 1, programme: readyProgramme() });
    expect(begunFrom(led, [tablet.state])).toBeUndefined();
    tablet.start();
    expect(begunFrom(led, [tablet.state])).toBe(tablet.state.programme);
    const other = { ...led, agreed: { ...led.agreed, job: "another" } };
    expect(begunFrom(other, [tablet.state])).toBeUndefined();
    expect(begunFrom(investigationOf(), [tablet.state])).toBeUndefined();
  });
});
