import { describe, expect, it } from "vitest";
import { jobs } from "../../demo-data/emberMesa.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import { contentForJobs } from "../../src/jobs/pack/contents.ts";
import { focus, pocketsOf } from "../../src/jobs/pockets.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import { type Job, job } from "../../src/jobs/records/job.ts";
import { programme as programmeRecord } from "../../src/jobs/records/programme.ts";
import { lineReadings } from "../../src/jobs/results/lineReadings.ts";
import { resultsOf } from "../../src/jobs/results/results.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import { changeOut } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { nextPocket, withoutPocket } from "../../src/jobs/sheet/furtherPockets.ts";
import { type Step, sheet } from "../../src/jobs/sheet/sheet.ts";
import { sheetOf } from "../../src/jobs/sheet/sheetOf.ts";
import {
  contingenciesOf,
  holdPointsOf,
  pocketOfField,
  stepById,
  stepsOf,
} from "../../src/jobs/sheet/walk.ts";
import { resultsAt } from "../../src/jobs/state/conditions.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { pocketHolds, wellNow } from "../../src/jobs/state/pocketAtWork.ts";
import { changeInWords, workInWords } from "../../src/jobs/workInWords.ts";
import { goodRun, planner, programmeFor, readyProgramme, Tablet } from "./demo.ts";
import {
  answers,
  FIRST,
  ft,
  further,
  named,
  own,
  psig,
  SECOND,
  stocked,
  twoPocketProgramme,
  twoPockets,
} from "./twoPockets.ts";

const programme = twoPocketProgramme;

describe("a job of two pockets", () => {
  it("is a record like any other, and its programme hangs together", () => {
    expect(job.parse(twoPockets())).toEqual(twoPockets());
    expect(programmeRecord.safeParse(programme()).error?.issues ?? []).toEqual([]);
    expect(pocketsOf(twoPockets())).toEqual([FIRST, SECOND]);
  });

  it("leaves the programme of a job for one pocket as it was", () => {
    const one = readyProgramme();
    expect(one.sheet).toEqual(changeOut);
    expect(Object.keys(one)).not.toContain("replacements");
    const bound = [...stepsOf(one.sheet), ...holdPointsOf(one.sheet)].filter(
      (each) => "pocket" in each,
    );
    expect(bound).toEqual([]);
    expect(focus(one, FIRST)).toBe(one);
    expect(focus(one, undefined)).toBe(one);
  });

  it("is looked at one pocket at a time: mandrel, valve out, valve in, work", () => {
    const both = programme({ work: "pull and dummy off" });
    expect(focus(both, FIRST)).toBe(both);
    const of = focus(both, SECOND);
    expect(of).toMatchObject({
      job: { mandrel: SECOND, replacement: "valve-second", sheet: { work: "pull and dummy off" } },
      replacement: { serial: "EM-2050" },
    });
    expect(focus(both, SECOND)).toBe(of);
    // Deeper: another pressure levels it.
    const level = (of: typeof both) => resultsOf(of, {}).value("casing-level") ?? 0;
    expect(level(of)).toBeGreaterThan(level(both) + 1e6);
  });
});

describe("further pockets while the job is planned", () => {
  const well = stocked.wells.find(({ id }) => id === jobs.ready.well);
  const step: Step = { id: "own-1", title: "Listen", instruction: "Listen.", fields: [] };

  it("are offered one after the other, each with the work that its pocket asks for", () => {
    const [first] = well?.mandrels ?? [];
    expect(nextPocket(jobs.ready, well)).toEqual({
      mandrel: first?.id,
      work: "change out",
      design: {},
    });
    const emptied = well && {
      ...well,
      mandrels: well.mandrels.map((each) => ({ ...each, pocketState: "empty" as const })),
    };
    expect(nextPocket(jobs.ready, emptied)?.work).toBe("set into an empty pocket");
    const all = (well?.mandrels ?? []).filter(({ id }) => id !== FIRST);
    const also = all.map(({ id }) => ({ ...further, mandrel: id }));
    expect(nextPocket({ ...jobs.ready, also }, well)).toBeUndefined();
  });

  it("take the changes that are about them along when they are given up, and the next ones follow", () => {
    const changes = {
      dropped: ["latch-on", "latch-on-pocket-2", "latch-on-pocket-3"],
      moved: [
        { step: "fit-pocket-2", after: "pins-pocket-2" },
        { step: "fit-pocket-3", after: "pins-pocket-3" },
      ],
      own: [
        { after: "card-pocket-2", step },
        { after: "card-pocket-3", step: { ...step, id: "own-2" } },
        { after: "permit", step: { ...step, id: "own-3" } },
      ],
    };
    expect(withoutPocket(changes, 0)).toEqual({
      dropped: ["latch-on", "latch-on-pocket-2"],
      moved: [{ step: "fit-pocket-2", after: "pins-pocket-2" }],
      own: [
        { after: "card-pocket-2", step: { ...step, id: "own-2" } },
        { after: "permit", step: { ...step, id: "own-3" } },
      ],
    });
    expect(withoutPocket(changes, 1).dropped).toEqual(["latch-on", "latch-on-pocket-2"]);
  });
});

describe("the sheet for two pockets", () => {
  const { sheet: two } = sheetOf(
    twoPockets(),
    stocked.wells.find(({ id }) => id === jobs.ready.well),
  );

  it.each([
    ["change out, then change out", programme()],
    ["change out, then a dummy", programme({ work: "pull and dummy off" })],
    ["change out, then an empty pocket", programme({ work: "set into an empty pocket" })],
    [
      "a dummy, then change out, with a catcher",
      programme(
        {},
        {
          sheet: {
            ...(programmeFor({ work: "pull and dummy off", kickover: "orienting", catcher: true })
              .job.sheet as object),
          } as Job["sheet"],
        },
      ),
    ],
  ])("hangs together: %s", (__, { sheet: of }) => {
    expect(sheet.safeParse(of).error?.issues ?? []).toEqual([]);
  });

  it("rigs up, tests and hands back once, and repeats pull and set for each pocket", () => {
    const ids = stepsOf(two).map(({ id }) => id);
    for (const once of ["stack-up", "high-test", "gauge-down", "stack-off", "left-location"]) {
      expect(ids.filter((id) => id.startsWith(once))).toEqual([once]);
    }
    for (const each of ["jar-out", "pins", "shear", "proof-end"]) {
      expect(ids.filter((id) => id.startsWith(each))).toEqual([each, `${each}${own}`]);
    }
    // The first is proved before the second is opened.
    expect(ids.indexOf("proof-end")).toBeLessThan(ids.indexOf(`pull-string-on${own}`));
    const guards = holdPointsOf(two).filter(({ guards }) => guards === `pull-string-on${own}`);
    expect(guards.map(({ id }) => id)).toEqual(["proof-hold", `next-barriers-hold${own}`]);
  });

  it("names the mandrel wherever a pocket is worked, and binds what belongs to the second", () => {
    expect(stepById(two, "jar-out")?.title).toBe("Jar the valve out, mandrel 3");
    expect(stepById(two, `jar-out${own}`)).toMatchObject({
      title: "Jar the valve out, mandrel 4",
      pocket: SECOND,
    });
    expect(pocketOfField(two, `set-depth${own}`)).toBe(SECOND);
    expect(pocketOfField(two, "set-depth")).toBeUndefined();
    const latched = holdPointsOf(two).find(({ id }) => id === `latched-hold${own}`);
    expect(latched).toMatchObject({ pocket: SECOND, guards: `shear${own}` });
    expect(latched?.conditions[0]).toMatchObject({
      fields: { pulled: `pocket-depth${own}`, set: `set-depth${own}` },
    });
    // What belongs to the rig-up keeps its name.
    const go = holdPointsOf(two).find(({ id }) => id === `pull-go-hold${own}`);
    expect(go?.conditions).toContainEqual(
      expect.objectContaining({
        check: "inside what was tested",
        fields: {
          tested: "high-start",
          ended: "high-end",
          "let in": `level-first-wellhead${own}`,
        },
      }),
    );
  });

  it("runs the gauge below the lower pocket, and asks for the kickover tool at each", () => {
    expect(stepById(two, "gauge-down")?.pocket).toBe(SECOND);
    const depth = holdPointsOf(two).find(({ id }) => id === "depth-hold");
    expect(depth?.conditions.filter((each) => each.id.startsWith("kickover"))).toMatchObject([
      { id: "kickover", pocket: FIRST },
      { id: `kickover${own}`, pocket: SECOND },
    ]);
  });

  it("has the ways out at both pockets", () => {
    const stuck = contingenciesOf(two).find(({ id }) => id === "will-not-come");
    expect(stuck?.near).toEqual(expect.arrayContaining(["jar-out", `jar-out${own}`]));
  });
});

describe("readiness of two pockets", () => {
  const stops = (of: ReturnType<typeof programme>) =>
    readinessOf(of).points.filter((point) => point.stops);

  it("has nothing that stops when both are ready", () => {
    expect(stops(programme())).toEqual([]);
    expect(issueProgramme(foldJob([]), programme(), planner).ok).toBe(true);
  });

  it.each<[string, () => ReturnType<typeof programme>, RegExp]>([
    [
      "the second's card",
      () => programme({ replacement: "valve-em-2042" }),
      /^Mandrel 4: Card of valve EM-2042 is .* above the .* needed\.$/,
    ],
    [
      "the first's card",
      () => programme({}, { replacement: "valve-em-2042" }),
      /^Card of valve EM-2042 is .* above the .* needed\.$/,
    ],
    [
      "a second pocket without a valve for it",
      () => {
        const { replacement: __, ...none } = further;
        return assemble({ ...jobs.ready, also: [none] }, stocked);
      },
      /^Mandrel 4: No replacement valve is chosen\.$/,
    ],
    [
      "a second pocket that is not empty",
      () => programme({ work: "set into an empty pocket" }),
      /^Mandrel 4: the pocket holds a valve, and the job is to set into an empty pocket/,
    ],
    [
      "a valve where the second is to be blanked",
      () => programme({ work: "pull and dummy off" }),
      /^Mandrel 4: Valve EM-2050 is of kind injection-operated; the pocket is to be blanked/,
    ],
    [
      "a second mandrel without a sleeve",
      () => {
        const wells = stocked.wells.map((well) => ({
          ...well,
          mandrels: well.mandrels.map((each) =>
            each.id === SECOND ? { ...each, orientingSleeve: "no" as const } : each,
          ),
        }));
        return assemble(twoPockets(), { ...stocked, wells });
      },
      /^Mandrel 4 has no orienting sleeve, and the pull string carries/,
    ],
    ["one pocket named twice", () => programme({ mandrel: FIRST }), /^Mandrel 3 is named twice/],
    [
      "one valve for both",
      () => programme({ replacement: "valve-em-2041" }),
      /^Valve EM-2041 is to go into two pockets/,
    ],
    [
      "a mandrel that the well does not have",
      () => programme({ mandrel: "em-07-mandrel-9" }),
      /No mandrel is chosen/,
    ],
  ])("speaks of %s", (__, of, says) => {
    const found = stops(of()).map((point) => point.says);
    expect(found.find((each) => says.test(each)) ?? found.join(" | ")).toMatch(says);
    expect(issueProgramme(foldJob([]), of(), planner).ok).toBe(false);
  });
});

describe("a run of two pockets", () => {
  const run = () => new Tablet().start(programme());

  it("goes through to the end, every hold point released, both pockets as left", () => {
    const tablet = run().runTo(undefined, answers);
    for (const hold of holdPointsOf(programme().sheet)) {
      expect(tablet.hold(hold.id).status, hold.title).toBe("released");
    }
    tablet.close();
    expect(tablet.state.stage).toBe("closed");
    const { well } = programme();
    if (!well) throw new Error("no well");
    const left = wellNow(well, tablet.state).mandrels;
    expect(left.find(({ id }) => id === FIRST)?.valve).toBe("valve-em-2041");
    expect(left.find(({ id }) => id === SECOND)?.valve).toBe("valve-second");
  });

  it("locks the second with the second's numbers, and not with the first's", () => {
    const tablet = run().runTo(`pull-go-hold${own}`, {
      ...answers,
      // Level at mandrel 3, and far from it at mandrel 4.
      [`level-first${own}`]: named({
        "level-first-level": ft("2910"),
        "level-first-casing": psig("748"),
        "level-first-wellhead": psig("318"),
      }),
    });
    const { unmet } = tablet.hold(`pull-go-hold${own}`);
    expect(unmet.map(({ says }) => says).join(" ")).toMatch(
      /Annulus is \d+ psi below tubing at mandrel 4\./,
    );
    expect(unmet[0]?.condition.pocket ?? tablet.hold(`pull-go-hold${own}`).hold.pocket).toBe(
      SECOND,
    );
  });

  it("proves the second across its own pocket: what is enough for the first is not enough there", () => {
    const tablet = run().runTo(`proof-hold${own}`, {
      ...answers,
      [`proof-start${own}`]: named(goodRun["proof-start"]?.fields ?? {}),
      [`proof-end${own}`]: named(goodRun["proof-end"]?.fields ?? {}),
    });
    const found = tablet.hold(`proof-hold${own}`).unmet.map(({ says }) => says);
    expect(found.join(" ")).toMatch(/at least 200 psi has to stand across it/);
    expect(tablet.hold("proof-hold").status).toBe("released");
  });

  it("locks when the valve of the other pocket is in the hand, or came out", () => {
    const tablet = run().runTo(`replacement-hold${own}`, {
      ...answers,
      [`inspect${own}`]: {
        ...answers[`inspect${own}`],
        [`pulled-serial${own}`]: { text: "EM-0713" },
      },
      [`card${own}`]: {
        [`new-serial${own}`]: { text: "EM-2041" },
        [`new-card${own}`]: psig("948"),
      },
    });
    const found = tablet
      .hold(`replacement-hold${own}`)
      .unmet.map(({ says }) => says)
      .join(" ");
    expect(found).toMatch(/The valve in hand is EM-2041; the programme says EM-2050/);
    expect(found).toMatch(/EM-0713 came out; the well's record has EM-0714/);
  });

  it("keeps what was read of one pocket from the other", () => {
    const tablet = run().runTo(`card${own}`, answers);
    const tagged = (pocket?: string) =>
      resultsAt(tablet.state, pocket)?.context.measured["tagged mandrel depth"]?.si;
    expect(tagged()).toBeCloseTo(4383 * 0.3048, 6);
    expect(tagged(SECOND)).toBeCloseTo(5293 * 0.3048, 6);
    const card = (pocket?: string) =>
      resultsAt(tablet.state, pocket)?.context.measured["card set pressure"]?.si;
    expect(card()).toBeDefined();
    expect(card(SECOND)).toBeUndefined();
    // The well's pressures are the well's.
    const casing = (pocket?: string) =>
      resultsAt(tablet.state, pocket)?.context.measured["casing pressure"]?.si;
    expect(casing(SECOND)).toBe(casing());
  });

  it("says of each pocket what it holds while the run goes on", () => {
    const tablet = run().runTo(`jar-out${own}`, answers);
    expect(pocketHolds(tablet.state)).toBe("replacement");
    expect(pocketHolds(tablet.state, SECOND)).toBeUndefined();
    tablet.runTo(`pull-out${own}`, answers);
    expect(pocketHolds(tablet.state, SECOND)).toBe("nothing");
    expect(pocketHolds(tablet.state, FIRST)).toBe("replacement");
  });

  it("reads the line at each mandrel", () => {
    const tablet = run().runTo(undefined, answers);
    const pulls = (pocket?: string) => {
      const results = resultsAt(tablet.state, pocket);
      if (!results) throw new Error("not issued");
      return new Map(lineReadings(tablet.state, results).map((each) => [each.field, each]));
    };
    expect(pulls().get("latch-pull")?.depth).toBeCloseTo(4383 * 0.3048, 6);
    expect(pulls().has(`latch-pull${own}`)).toBe(false);
    expect(pulls(SECOND).get(`latch-pull${own}`)?.depth).toBeCloseTo(5293 * 0.3048, 6);
    expect(pulls(SECOND).has("latch-pull")).toBe(false);
    // The gauge was weighed at the lower one, whichever is looked at.
    expect(pulls().get("hanging")?.depth).toBeCloseTo(5290 * 0.3048, 6);
    expect(pulls(SECOND).get("hanging")?.depth).toBeCloseTo(5290 * 0.3048, 6);
  });

  it("says what is done, pocket by pocket", () => {
    expect(workInWords(programme({ work: "pull and dummy off" }))).toEqual([
      "Change out EM-0713 for EM-2041 in mandrel 3",
      "Pull EM-0714 and blank its pocket with dummy EM-2050, in mandrel 4",
    ]);
    expect(changeInWords(programme())).toBe(
      "EM-0713 out, EM-2041 in; mandrel 4: EM-0714 out, EM-2050 in",
    );
    expect(changeInWords(readyProgramme())).toBe("EM-0713 out, EM-2041 in");
  });

  it("goes in one pack with everything that both pockets need", () => {
    const { records } = contentForJobs([twoPockets()], stocked, []);
    expect(records.valves.map(({ serial }) => serial)).toEqual(
      expect.arrayContaining(["EM-0713", "EM-0714", "EM-2041", "EM-2050"]),
    );
  });

  it("holds each pocket's readings against its own mandrel in the record", () => {
    const tablet = run().runTo(undefined, answers);
    const { comparisons } = reviewRecord(tablet.state, tablet.clock, tablet.writer);
    const expected = (field: string) =>
      comparisons.find(({ reading }) => reading.field === field)?.expected;
    expect(expected("pocket-depth")).toBeCloseTo(4383 * 0.3048, 6);
    expect(expected(`pocket-depth${own}`)).toBeCloseTo(5293 * 0.3048, 6);
    expect(expected(`new-card${own}`)).not.toBeCloseTo(expected("new-card") ?? 0, -3);
  });
});
