import { describe, expect, it } from "vitest";
import { jobs } from "../../demo-data/emberMesa.ts";
import { closeRun } from "../../src/jobs/commands/closeRun.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import { correct, leaveOut, startRun } from "../../src/jobs/commands/run.ts";
import { writer as inUnits } from "../../src/jobs/display.ts";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import type { Pack } from "../../src/jobs/pack/pack.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import { departures } from "../../src/jobs/review/changes.ts";
import {
  fromToInWords,
  measuredInputs,
  movedInWords,
} from "../../src/jobs/review/measuredInputs.ts";
import {
  type Comparison,
  compare,
  planAgainstActual,
  standingInWords,
} from "../../src/jobs/review/planActual.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import { settingInWords, setValves } from "../../src/jobs/review/setValveCheck.ts";
import { weightsRead } from "../../src/jobs/review/weights.ts";
import { resultsAt } from "../../src/jobs/state/conditions.ts";
import { foldJob, latestReading } from "../../src/jobs/state/jobState.ts";
import { verdictOf } from "../../src/jobs/verdict/verdict.ts";
import { demoText, planner, readyProgramme, supervisor, Tablet } from "./demo.ts";
import { answers, FIRST, SECOND, twoPocketProgramme } from "./twoPockets.ts";

const lbf = (text: string) => ({ text, unit: "lbf" });
const N = 4.4482216152605;

const finished = (): readonly JobEvent[] =>
  (JSON.parse(demoText()) as Pack).content.events.filter(({ job }) => job === jobs.finished.id);
const state = foldJob(finished());
const { writer } = new Tablet();
const row = (rows: readonly Comparison[], field: string): Comparison => {
  const found = rows.find(({ reading }) => reading.field === field);
  if (!found) throw new Error(`no row of ${field}`);
  return found;
};
const pounds = (si: number | undefined) => Math.round((si ?? Number.NaN) / N);

describe("the demonstration's finished run", () => {
  const rows = compare(state, writer);

  it("has one reading over its limit, on top, and the rest by phase", () => {
    const { out, phases, count, says } = planAgainstActual(rows);
    expect(out.map(({ reading }) => reading.field)).toEqual(["shear-largest"]);
    expect(standingInWords(out[0] as Comparison, writer)).toBe("over the limit by 35 lbf");
    expect(count).toBe(1 + phases.reduce((sum, phase) => sum + phase.rows.length, 0));
    expect(says).toBe(`1 of ${count} readings over its limit.`);
    expect(phases.map(({ title }) => title)).toContain("Gauge run");
  });

  it("tells what was planned from what is expected with what was measured by then", () => {
    // Packing friction of 30 lbf was planned; half of 124 − 72 lbf is 26: moving out pulls 4 lbf less.
    const pickUp = row(rows, "pick-up");
    expect(pounds(pickUp.planned) - pounds(pickUp.expected)).toBe(4);
    expect(pickUp).toMatchObject({ recomputed: true, standing: "inside", working: "out-gauge" });
    // On paper the counter reads the schematic's depth; the nipple was tagged 3 ft deeper.
    const pocket = row(rows, "pocket-depth");
    expect((pocket.expected ?? 0) - (pocket.planned ?? 0)).toBeCloseTo(3 * 0.3048, 6);
  });

  it("holds a pull at a stop on the way against the line's chart, within the policy's 40 lbf", () => {
    const upper = row(rows, "upper-hanging");
    expect(pounds(upper.band)).toBe(40);
    expect(upper).toMatchObject({ standing: "inside", working: undefined, limit: "largest-pull" });
    expect(Math.abs(upper.actual - (upper.expected ?? 0))).toBeLessThan(40 * N);
  });

  it("names every line for good by its event", () => {
    const anchors = rows.map(({ anchor }) => anchor);
    expect(new Set(anchors).size).toBe(anchors.length);
    for (const { anchor, reading } of rows) {
      expect(anchor).toContain(reading.event.hash.slice(0, 16));
    }
  });

  it("draws each pull beside what was expected when it was read", () => {
    const results = measuredInputs(state, writer)?.results ?? resultsAt(state);
    if (!results) throw new Error("no results");
    const read = weightsRead(state, rows, results);
    expect(read.find(({ field }) => field === "pick-up")?.expected).toBe(
      row(rows, "pick-up").expected,
    );
    expect(read.find(({ field }) => field === "key-pull")?.expected).toBeUndefined();
  });

  it("gives the inputs that were measured and what each alone moved", () => {
    const found = measuredInputs(state, writer);
    const input = (measurement: string) => {
      const one = found?.inputs.find((each) => each.measurement === measurement);
      if (!one) throw new Error(`no input ${measurement}`);
      return one;
    };
    expect(movedInWords(input("wellhead pressure"), writer)).toBe("−2 psi");
    expect(movedInWords(input("packing friction"), writer)).toBe("−4 lbf");
    expect(movedInWords(input("known counter"), writer)).toBe("+3.0 ft");
    expect(movedInWords(input("card set pressure"), writer)).toBe("as planned");
    expect(input("hanging weight").moved).toEqual([]);
    expect(input("fluid level").moved.map(({ id }) => id)).toEqual(["casing-level"]);
    const together = found?.together.find(({ id }) => id === "casing-level");
    expect(together && fromToInWords(together, writer)).toBe("704 psig to 712 psig");
    // Not those of the proof that came after, at which the tubing was bled to 86 psig.
    expect(found?.levelledAt).toBe("2026-11-24T14:10:00.000Z");
  });

  it("says whether the set valve is open by the pressures read, and how far from changing", () => {
    const [set, ...more] = setValves(state, verdictOf(state, writer), writer);
    expect(more).toEqual([]);
    expect(set).toMatchObject({ mandrel: 3, valve: { serial: "EM-2037" } });
    expect(set && settingInWords(set, writer)).toBe("card 952 psig, read on location 952 psig");
    // 952 psi = 65.6 bar: the reader's units, and beside them what the card says.
    expect(set && settingInWords(set, inUnits("metric", writer.atmosphere))).toBe(
      "card 65.6 barg (952 psig), read on location 65.6 barg (952 psig)",
    );
    expect(set?.says).toMatch(/^Shut: \d+ psi more would open it\. It stands \d+ psi below/);
    const { acting = 0, opening = 0, closing = 0 } = set?.now ?? {};
    expect(acting < closing && closing < opening).toBe(true);
  });

  it("lists what left the programme in the order it happened", () => {
    const { remarkable } = reviewRecord(state, "2026-11-25T00:00:00.000Z", writer);
    expect(departures(state, remarkable, writer).map(({ kind }) => kind)).toEqual([
      "limit exceeded",
      "correction",
    ]);
  });
});

describe("plan against actual", () => {
  const run = (programme: Programme | undefined, pulls: Record<string, string>) => {
    const given = Object.fromEntries(
      Object.entries(pulls).map(([field, text]) => [field, lbf(text)]),
    );
    return new Tablet().start(programme).runTo("correlate", { "gauge-down": given }, "looked at");
  };

  it("puts a limit before a band, and the further beyond its band before the nearer", () => {
    const { state: of } = run(undefined, { hanging: "300", "pick-up": "1200", "slack-off": "60" });
    const { out, says } = planAgainstActual(compare(of, writer));
    expect(out.map(({ reading, standing }) => [reading.field, standing])).toEqual([
      ["pick-up", "over limit"],
      ["slack-off", "outside"],
      ["hanging", "outside"],
    ]);
    expect(says).toMatch(/^2 of \d+ readings outside their band; 1 over its limit\.$/);
    const hanging = row(out, "hanging");
    const beyond = hanging.actual - (hanging.expected ?? 0) - 40 * N;
    expect(hanging.outBy).toBeCloseTo(beyond, 9);
    expect(standingInWords(hanging, writer)).toBe(
      `outside by ${writer.write("force", beyond)}, on the high side`,
    );
    expect(standingInWords(row(out, "slack-off"), writer)).toMatch(/on the low side$/);
  });

  it("says that the policy has no band, and that nothing could be worked out", () => {
    const programme = readyProgramme();
    const { expectedBand: _, ...policy } = programme.policy as NonNullable<Programme["policy"]>;
    const bare = compare(run({ ...programme, policy }, {}).state, writer);
    expect(standingInWords(row(bare, "hanging"), writer)).toBe("no band in the policy");
  });

  it("says what a reading could not be held against for want of, in a log that came from elsewhere", () => {
    const { strings: of, ...rest } = readyProgramme();
    const { gauge: _, ...strings } = of;
    const tablet = new Tablet();
    const [issued] = tablet.write({
      type: "programme issued",
      revision: 1,
      programme: { ...rest, strings },
    });
    tablet.write({ type: "run started", programme: issued?.hash ?? "" });
    const value = { kind: "quantity", dimension: "force", value: 200, unit: "lbf" } as const;
    tablet.write({
      type: "readings taken",
      step: "gauge-down",
      takenAt: tablet.clock,
      entries: [{ field: "slack-off", value }],
    });
    const hanging = row(compare(tablet.state, writer), "slack-off");
    expect(hanging.standing).toBe("not known");
    expect(standingInWords(hanging, writer)).toMatch(
      /^not worked out: needs Weight of the string in air$/,
    );
  });

  it("expects what follows from a reading as it was corrected, and nothing that came later", () => {
    const tablet = run(undefined, {});
    const before = row(compare(tablet.state, writer), "pick-up").expected ?? 0;
    const reading = latestReading(tablet.state, "pull-out");
    if (!reading) throw new Error("no reading");
    // 124 lbf coming out becomes 144: packing friction 10 lbf more.
    tablet.act((s) => correct(s, reading, lbf("144"), "Misread"));
    const after = row(compare(tablet.state, writer), "pick-up").expected ?? 0;
    expect(pounds(after - before)).toBe(10);
    const early = row(compare(tablet.state, writer), "pull-in");
    expect(early.reading.event.hash).toBe(reading.event.hash);
  });

  it("has each pocket's set valve and inputs of its own", () => {
    const { state: of } = new Tablet().start(twoPocketProgramme()).runTo("line-left", answers);
    const set = setValves(of, verdictOf(of, writer), writer);
    expect(set.map(({ mandrel, valve }) => [mandrel, valve.serial])).toEqual([
      [3, "EM-2041"],
      [4, "EM-2050"],
    ]);
    expect(set[0]?.bench).toBeDefined();
    const casing = (pocket: string) =>
      measuredInputs(of, writer, pocket)?.inputs.find(
        ({ measurement }) => measurement === "casing pressure",
      )?.measured ?? 0;
    expect(writer.write("pressure", casing(FIRST))).toBe("740 psig");
    expect(writer.write("pressure", casing(SECOND))).toBe("985 psig");
  });
});

describe("what changed and why", () => {
  const A = "00000000-0000-4000-8000-00000000000a";
  const B = "00000000-0000-4000-8000-00000000000b";
  // Start and revision knew nothing of each other: which stands first in the log goes by the devices' names.
  it.each([
    { office: A, crew: B, why: /had not reached the crew when it started.* It would have moved/ },
    {
      office: B,
      crew: A,
      why: /without knowing that the run had been started.* It would have moved/,
    },
  ])(
    "has a revision before the start with the figures it moved, and one the crew did not see: $why",
    ({ office: desk, crew, why }) => {
      const tablet = new Tablet(crew);
      tablet.actor = planner;
      const issue = (programme: Programme) =>
        tablet.act(({ state: of, actor }) => issueProgramme(of, programme, actor));
      issue(readyProgramme());
      const programme = readyProgramme();
      const { policy } = programme;
      if (!policy) throw new Error("no policy");
      issue({
        ...programme,
        policy: { ...policy, lineFraction: { ...policy.lineFraction, value: 0.4 } },
      });
      const apart = [...tablet.events];
      tablet.actor = supervisor;
      tablet.act(startRun);
      const office = new Tablet(desk);
      office.events = apart;
      office.actor = planner;
      office.act(({ state: of, actor }) => issueProgramme(of, readyProgramme(), actor));
      tablet.merge(office.events);
      const { remarkable } = reviewRecord(tablet.state, tablet.clock, tablet.writer);
      const found = departures(tablet.state, remarkable, writer);
      expect(found.map(({ kind, title }) => [kind, title])).toEqual([
        ["revision issued", "Programme revision 2"],
        ["revision issued", "Programme revision 3"],
      ]);
      expect(found[0]?.says).toMatch(/Largest permitted.*1055 lbf to 844 lbf/);
      expect(found[1]?.says).toMatch(why);
    },
  );

  it("names what the planner changed of the sheet, and what the crew left out, with its reason", () => {
    const programme = readyProgramme();
    const own = {
      id: "own-look",
      title: "Look at the choke",
      instruction: "Look at it.",
      fields: [],
    };
    const job: Programme["job"] = {
      ...programme.job,
      sheet: {
        work: "change out",
        catcher: false,
        changes: { dropped: [], moved: [], own: [{ after: "permit", step: own }] },
      },
    };
    const tablet = new Tablet().start({ ...programme, job }).runTo("injection");
    tablet.act((s) => leaveOut(s, "injection", "Gas plant down"));
    tablet.runTo(undefined);
    tablet.act((s) => closeRun(s, { remark: "", reason: "No photographs: the camera failed." }));
    const { remarkable } = reviewRecord(tablet.state, tablet.clock, tablet.writer);
    const found = departures(tablet.state, remarkable, writer);
    expect(found.map(({ kind }) => kind)).toEqual(["sheet changed", "step left out"]);
    expect(found[0]).toMatchObject({ title: "Look at the choke", event: { actor: planner } });
    expect(found[1]?.says).toBe("Gas plant down");
    // Without a return to injection nothing was read of the well on lift.
    expect(verdictOf(tablet.state, writer)).toMatchObject({ says: "cannot be told", checks: [] });
  });
});
