import { describe, expect, it } from "vitest";
import { jobs, library } from "../../../demo-data/emberMesa.ts";
import { investigations } from "../../../demo-data/investigations.ts";
import { wellPath } from "../../../src/calc/path.ts";
import { alongHoleM, STANDARD_ATMOSPHERE } from "../../../src/calc/units.ts";
import {
  agree,
  changeInvestigation,
  opened,
  setAside,
  underWork,
  withEvidence,
} from "../../../src/jobs/diagnosis/changeInvestigation.ts";
import {
  checkEvidence,
  draftDoubt,
  type EvidenceDraft,
  freshEvidence,
  rowKey,
  typedOf,
} from "../../../src/jobs/diagnosis/evidenceDraft.ts";
import { formOf, kindsInOrder } from "../../../src/jobs/diagnosis/evidenceFields.ts";
import { chanceInWords, evidenceInWords } from "../../../src/jobs/diagnosis/inWords.ts";
import { jobReason, nextActionFor } from "../../../src/jobs/diagnosis/nextAction.ts";
import { observationsOf } from "../../../src/jobs/diagnosis/observations.ts";
import { alongAt, onRecord } from "../../../src/jobs/diagnosis/onRecord.ts";
import { lookedAt } from "../../../src/jobs/lookedAt.ts";
import { keepJob } from "../../../src/jobs/planning/keep.ts";
import { type Evidence, evidence, MOST_EVIDENCE } from "../../../src/jobs/records/investigation.ts";
import type { Well } from "../../../src/jobs/records/well.ts";
import { contextOf } from "../../../src/jobs/results/context.ts";
import type { LiftObserved } from "../../../src/jobs/state/jobState.ts";
import { Tablet } from "../demo.ts";
import { memoryStore } from "../memoryStore.ts";

const NOW = "2026-11-25T12:00:00.000Z";
const actor = { name: "L. Ashgrove", role: "production engineer" } as const;
const checking = { units: "field", atmosphere: STANDARD_ATMOSPHERE, now: NOW } as const;
const em07 = library.wells.find(({ id }) => id === "em-07") as Well;
const draft = (kind: EvidenceDraft["kind"], of: Partial<EvidenceDraft> = {}): EvidenceDraft => ({
  ...freshEvidence("piece", kind, formOf(kind, em07), NOW),
  source: "Gauge C-11",
  ...of,
});
const check = (of: EvidenceDraft) => checkEvidence(of, formOf(of.kind, em07), checking);
const typed = (text: string, unit: string) => ({ text, unit });
const agreed = {
  at: NOW,
  by: actor.name,
  hypothesis: "stuck open 3",
  says: "Valve in mandrel 3 stuck open: about 8 in 10. It fits.",
  reason: "Gas enters there.",
};

describe("evidence that is typed", () => {
  it("becomes a piece in the units it was typed in, gauge and absolute told apart", () => {
    const done = check(
      draft("pressures", {
        figures: { injectionAtSurface: typed("742", "psig"), wellhead: typed("9.84", "bara") },
      }),
    );
    expect(done.ok && done.evidence).toMatchObject({
      kind: "pressures",
      at: NOW,
      injectionAtSurface: { value: 742, unit: "psig" },
      wellhead: { value: 9.84, unit: "bara" },
    });
  });

  it("is refused beside each field that has to be mended, all of them at once", () => {
    const done = check(
      draft("casing bleed", {
        source: " ",
        day: "2026-11-26",
        figures: {
          from: typed("-20", "psig"),
          to: typed("1,234", "psig"),
          took: typed("-5", "min"),
        },
      }),
    );
    expect(done.ok || Object.keys(done.problems).sort()).toEqual([
      "at",
      "end",
      "from",
      "source",
      "to",
      "took",
    ]);
    expect(done.ok || done.problems.to).toContain("could mean 1234 or 1.234");
    expect(done.ok || done.problems.at).toContain("lies ahead of the tablet's clock");
  });

  it("asks for the time where only the day was typed: midnight is nobody's reading", () => {
    const done = check(draft("pressures", { time: "" }));
    expect(done.ok || done.problems.at).toBe(
      "Enter day and time at which it was read, as the tablet's clock has them.",
    );
  });

  it("needs something said of the supply, and a pressure or a temperature at each stop", () => {
    const supply = check(draft("supply"));
    expect(supply.ok || supply.problems.any).toContain("Enter one of them at least");
    const survey = check(
      draft("survey", {
        rows: [
          { depthAlongHole: typed("0", "ft"), pressure: typed("128", "psig") },
          { depthAlongHole: typed("1880", "ft") },
          {},
        ],
      }),
    );
    expect(survey.ok || survey.problems).toEqual({
      [rowKey(1, "pressure")]: "Stop 2: enter a pressure or a temperature.",
    });
    const short = check(draft("survey", { rows: [{}, {}] }));
    expect(short.ok || short.problems.rows).toContain("enter 2 lines at least");
  });

  it("is doubted while it is typed where the gauges stand the wrong way round or a depth is below the tubing", () => {
    const doubt = (of: EvidenceDraft) => draftDoubt(of, formOf(of.kind, em07), em07, checking);
    const gauges = (casing: string, tubing: string) =>
      doubt(
        draft("pressures", {
          figures: { injectionAtSurface: typed(casing, "psig"), wellhead: typed(tubing, "psig") },
        }),
      );
    expect(gauges("128", "742")).toMatch(/^The casing stands below the tubing\..*exchanged\?$/);
    expect(gauges("742", "128")).toBeUndefined();
    expect(gauges("742", "")).toBeUndefined();
    const level = (depth: string, unit: string) =>
      doubt(draft("fluid level", { figures: { depthAlongHole: typed(depth, unit) } }));
    expect(level("4380", "m")).toMatch(/below the end of the tubing, 6380 ft/);
    expect(level("4380", "ft")).toBeUndefined();
    const stops = [{ depthAlongHole: typed("100", "ft") }, { depthAlongHole: typed("9000", "ft") }];
    expect(doubt(draft("survey", { rows: stops }))).toMatch(/below the end of the tubing/);
  });

  it("of any kind comes back to the form as it was typed", () => {
    const pieces: Evidence[] = [
      ...(investigations[0]?.evidence ?? []),
      {
        id: "bleed",
        kind: "casing bleed",
        at: NOW,
        source: "x",
        confidence: "fair",
        from: { value: 742, unit: "psig" },
        to: { value: 690, unit: "psig" },
        took: { value: 90, unit: "min" },
        end: "at rest",
      },
      {
        id: "level",
        kind: "fluid level",
        at: NOW,
        source: "x",
        confidence: "doubtful",
        remark: "Poor echo.",
        space: "annulus",
        well: "shut in",
        depthAlongHole: { value: 3000, unit: "ft" },
      },
    ];
    for (const piece of pieces) {
      if (piece.kind === "trend") continue;
      const form = formOf(piece.kind, em07);
      const done = checkEvidence(typedOf(piece, form), form, checking);
      expect(done.ok && done.evidence, piece.kind).toEqual(piece);
    }
    expect(new Set(pieces.map(({ kind }) => kind)).size).toBeGreaterThan(5);
  });

  it("is asked by the side the gas goes down", () => {
    const labels = (injectionDown: Well["injectionDown"]) =>
      formOf("pressures", { injectionDown }).fields.map(({ label }) => label);
    expect(labels("annulus")).toEqual(["Injection pressure, casing", "Wellhead pressure, tubing"]);
    expect(labels("tubing")).toEqual(["Injection pressure, tubing", "Wellhead pressure, casing"]);
    expect(kindsInOrder).toHaveLength(evidence.options.length);
  });
});

describe("what is on record already", () => {
  const context = contextOf(lookedAt(em07, { ...library, wells: [em07] }), {});
  const path = context.path.ok ? context.path.value : undefined;

  it("is the well's last figures and its survey, told by the wire's depth", () => {
    const [pressures, survey] = onRecord(em07, path, []);
    expect(pressures?.pieces.map(({ kind }) => kind)).toEqual(["pressures", "supply"]);
    const [piece] = survey?.pieces ?? [];
    if (piece?.kind !== "survey") throw new Error("no survey");
    expect(evidence.safeParse(piece).error).toBeUndefined();
    // Vertical to 2,200 ft: there both depths are one. Below, the wire goes farther than the well goes down.
    expect(piece.stops[1]?.depthAlongHole).toEqual({ value: 1880, unit: "ft" });
    expect(piece.stops.at(-1)?.depthAlongHole.value).toBeGreaterThan(5802);
  });

  it("turns a true vertical depth back into one along hole, and gives none below a well that goes level", () => {
    const slanted = wellPath([
      { depth: alongHoleM(0), inclination: 0, azimuth: 0 },
      { depth: alongHoleM(1000), inclination: Math.PI / 3, azimuth: 0 },
    ]);
    const along = 1800;
    const vertical: number = slanted.at(alongHoleM(along)).vertical;
    expect(alongAt(slanted, vertical)).toBeCloseTo(along, 2);
    const level = wellPath([
      { depth: alongHoleM(0), inclination: 0, azimuth: 0 },
      { depth: alongHoleM(1000), inclination: Math.PI / 2, azimuth: 0 },
    ]);
    expect(alongAt(level, 5000)).toBeUndefined();
  });

  it("is what was observed after a job, and the gauges as its crew left them", () => {
    const tablet = new Tablet().start().runTo(undefined);
    const { state } = tablet;
    const observed: LiftObserved = {
      event: tablet.events[0] as LiftObserved["event"],
      observed: {
        type: "lift observed",
        takenAt: NOW,
        source: "Recorder R-3",
        injectionAtSurface: { value: 880, unit: "psig" },
        wellhead: { value: 121, unit: "psig" },
        liquidRate: { value: 420, unit: "bbl/d" },
      },
    };
    const { lastFound: _, ...bare } = em07;
    const found = onRecord(bare as Well, path, [{ ...state, observed: [observed] }]);
    expect(found.map(({ pieces }) => pieces.map(({ kind }) => kind))).toContainEqual([
      "pressures",
      "separator test",
    ]);
    expect(found.some(({ says }) => says.startsWith("Gauges when the crew left"))).toBe(true);
    const mended = {
      event: tablet.events[1] as LiftObserved["event"],
      observed: {
        ...observed.observed,
        corrects: { event: observed.event.hash, reason: "Misread" },
      },
    };
    const corrected = { event: mended.event, reason: "Misread", apart: false };
    const after = onRecord(bare as Well, path, [
      { ...state, observed: [{ ...observed, corrected }, mended] },
    ]);
    expect(after.flatMap(({ says }) => (says.startsWith("Lift observed") ? [says] : []))).toEqual([
      expect.stringMatching(/, Recorder R-3, corrects an earlier entry$/),
    ]);
    for (const { pieces } of found) {
      for (const piece of pieces) expect(evidence.safeParse(piece).error).toBeUndefined();
    }
  });
});

describe("a separator test without liquid", () => {
  const seenOf = (gas: boolean) =>
    observationsOf(
      {
        id: "investigation",
        revision: 1,
        well: "em-07",
        opened: NOW,
        openedBy: "office",
        evidence: [
          {
            id: "test",
            at: NOW,
            source: "separator",
            confidence: "good",
            kind: "separator test",
            liquidRate: { value: 0, unit: "bbl/d" },
            ...(gas ? { gasRate: { value: 610, unit: "Mscf/d" } } : {}),
          },
        ],
      },
      STANDARD_ATMOSPHERE,
      "annulus",
    );
  it("counts as next to none where the gas went through it, within some barrels a day", () => {
    const { liquid, producedGas, unused } = seenOf(true);
    expect(liquid.map(({ value }) => value)).toEqual([0]);
    // 5 bbl/d are 0.795 m3/d
    expect((liquid[0]?.spread ?? 0) * 86_400).toBeCloseTo(0.795, 2);
    expect(producedGas).toHaveLength(1);
    expect(unused).toEqual([]);
  });
  it("counts as nothing where no gas was measured either", () => {
    const { liquid, unused } = seenOf(false);
    expect(liquid).toEqual([]);
    expect(unused).toEqual([{ evidence: "test", why: "no liquid and no gas was measured" }]);
  });
});

describe("an investigation", () => {
  const [known] = investigations;
  const pieces = known?.evidence ?? [];

  it("counts what two hands add at once, and a piece that is added again once", async () => {
    const store = memoryStore();
    await store.put("investigations", opened("one", "em-07", " It heads. ", actor, NOW));
    await Promise.all(
      pieces.slice(0, 2).map((piece) => changeInvestigation(store, "one", withEvidence(piece))),
    );
    await changeInvestigation(store, "one", withEvidence(pieces[0] as Evidence));
    await changeInvestigation(store, "one", setAside(pieces[1]?.id ?? "", true));
    const [now] = (await store.recordsFor({ investigationsOf: ["em-07"] })).investigations;
    expect(now?.complaint).toBe("It heads.");
    expect(now?.evidence.map(({ id, setAside: aside }) => [id, aside])).toEqual([
      [pieces[0]?.id, undefined],
      [pieces[1]?.id, true],
    ]);
    // Changed, it stays set aside; counted again, nothing of that is left.
    await changeInvestigation(store, "one", withEvidence(pieces[1] as Evidence));
    await changeInvestigation(store, "one", setAside(pieces[1]?.id ?? "", false));
    const [after] = (await store.recordsFor({ investigationsOf: ["em-07"] })).investigations;
    expect(after?.evidence[1]).toEqual(pieces[1]);
    await expect(changeInvestigation(store, "gone", setAside("x", true))).rejects.toThrow(
      "not on the tablet any more",
    );
  });

  it("says why where it does not take a change, and is as it was", async () => {
    const store = memoryStore();
    const agreed = {
      at: NOW,
      by: "L. Ashgrove",
      hypothesis: "stuck open 3",
      says: "Valve in mandrel 3 stuck open.",
      reason: "It bleeds.",
    };
    const [piece] = pieces;
    const full = {
      ...opened("one", "em-07", "", actor, NOW),
      evidence: Array.from({ length: MOST_EVIDENCE }, (_, index) => ({
        ...(piece as Evidence),
        id: `piece-${index}`,
      })),
      agreed: { ...agreed, job: "job-1" },
    };
    await store.put("investigations", full);
    await expect(
      changeInvestigation(store, "one", withEvidence({ ...(piece as Evidence), id: "more" })),
    ).rejects.toThrow("Begin a new investigation");
    await expect(
      changeInvestigation(store, "one", agree({ ...agreed, reason: "Otherwise." })),
    ).rejects.toThrow("a job was made of what L. Ashgrove agreed");
    const { investigations: after } = await store.recordsFor({ investigationsOf: ["em-07"] });
    expect(after).toEqual([full]);
  });

  it("under work is the latest that was opened", () => {
    const [old, now] = [
      opened("b", "em-07", "", actor, "2026-11-01T00:00:00.000Z"),
      opened("a", "em-07", "", actor, NOW),
    ];
    expect(underWork([now, old])).toBe(now);
    expect(underWork([])).toBeUndefined();
  });

  it("is told which job it became in the write that keeps the job, and does not change its target after", async () => {
    const store = memoryStore();
    const began = agree(agreed)(opened("one", "em-07", "", actor, NOW));
    await store.put("investigations", began);
    const plan = { investigation: "one", agreed: NOW };
    await keepJob(store, jobs.ready, plan);
    await keepJob(store, jobs.ready, plan);
    await keepJob(store, jobs.notReady, plan);
    await keepJob(store, jobs.finished, {});
    const second = keepJob(store, { ...jobs.ready, id: "second" }, plan);
    await expect(second).rejects.toThrow("another job was made from this investigation");
    const kept = await store.recordsFor({ jobs: "all", investigationsOf: ["em-07"] });
    expect(kept.jobs).toHaveLength(3);
    expect(kept.investigations[0]?.agreed).toEqual({ ...agreed, job: jobs.ready.id });
    const other = { ...agreed, hypothesis: "stuck open 2" };
    const [now] = kept.investigations;
    expect(() => now && agree(other)(now)).toThrow("that stands");
    expect(jobReason(agreed)).toBe(
      "Valve in mandrel 3 stuck open: about 8 in 10. Gas enters there. (L. Ashgrove)",
    );
    expect(jobReason({ ...agreed, reason: "x".repeat(900) })).toHaveLength(400);
  });
});

it("a plan begun on what was agreed before is not kept as what is agreed now", async () => {
  const store = memoryStore();
  const now = {
    ...agreed,
    at: "2026-11-22T00:00:00.000Z",
    hypothesis: "stuck open 2",
    says: "Valve in mandrel 2 stuck open: about 7 in 10. It fits.",
  };
  await store.put("investigations", agree(now)(opened("one", "em-07", "", actor, NOW)));
  await expect(
    keepJob(store, jobs.ready, { investigation: "one", agreed: agreed.at }),
  ).rejects.toThrow("It is now: Valve in mandrel 2 stuck open: about 7 in 10 (");
  const kept = await store.recordsFor({ jobs: "all", investigationsOf: ["em-07"] });
  expect(kept.jobs).toEqual([]);
  expect(kept.investigations[0]?.agreed).toEqual(now);
});

describe("what follows from an answer", () => {
  it("is a job in the pocket named, or what is done instead of one", () => {
    const next = (fault: Parameters<typeof nextActionFor>[0]) => nextActionFor(fault, em07);
    expect(next({ kind: "stuck open", mandrel: 3 })).toEqual({
      is: "job",
      mandrel: em07.mandrels[2],
    });
    expect(next({ kind: "wrong depth", mandrel: 2, other: 4 })).toMatchObject({
      is: "job",
      also: expect.stringContaining("mandrel 4"),
    });
    for (const fault of [
      { kind: "nothing downhole" },
      { kind: "supply", what: "choke smaller" },
      { kind: "back-pressure at surface" },
      { kind: "tubing leak", depthM: 900 },
      { kind: "multi-point", mandrels: [1, 2] },
      { kind: "plugged", mandrel: 9 },
    ] as const) {
      expect(next(fault).is, fault.kind).toBe("other");
    }
  });

  it("is never said as more than the evidence carries", () => {
    expect([0.997, 0.62, 0.1, 0.08, 0.04, 0.002].map(chanceInWords)).toEqual([
      "more than 9 in 10",
      "about 6 in 10",
      "about 1 in 10",
      "about 1 in 10",
      "about 4 in 100",
      "less than 2 in 100",
    ]);
  });

  it("names each piece of evidence as it was entered", () => {
    const words = (investigations[0]?.evidence ?? []).map((piece) =>
      evidenceInWords(piece, "annulus"),
    );
    expect(words).toEqual([
      "casing 742 psig, tubing 128 psig",
      "550 Mscf/d, in order",
      "8 stops, 0 ft to 6050 ft along hole",
      "back after 108 min",
      "145 points over 24 h",
    ]);
  });
});
