import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import { job, type SheetChanges } from "../../src/jobs/records/job.ts";
import {
  arranged,
  leftOut,
  movedBy,
  type Tried,
  takenBack,
  takenIn,
  takenOut,
  written,
} from "../../src/jobs/sheet/arrange.ts";
import { changeOut, changeOutSheet } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { applyChanges, TOP } from "../../src/jobs/sheet/changes.ts";
import { differences } from "../../src/jobs/sheet/differences.ts";
import {
  emptyField,
  emptyStep,
  ownStep,
  type TypedStep,
  typedStep,
} from "../../src/jobs/sheet/ownStep.ts";
import { type Step, sheet } from "../../src/jobs/sheet/sheet.ts";
import { noChanges, sheetWanted } from "../../src/jobs/sheet/sheetWanted.ts";
import {
  contingenciesOf,
  holdPointsOf,
  itemId,
  itemsOf,
  stepById,
  stepsOf,
} from "../../src/jobs/sheet/walk.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { planner, Tablet } from "./demo.ts";

const changed = (changes: Partial<SheetChanges>) =>
  applyChanges(changeOut, { ...noChanges, ...changes });
const applied = (changes: Partial<SheetChanges>) => {
  const result = changed(changes);
  if (!result.ok) throw new Error(result.problems.map(({ says }) => says).join(" "));
  expect(sheet.safeParse(result.sheet).error?.issues ?? []).toEqual([]);
  return result.sheet;
};
const problemsOf = (changes: Partial<SheetChanges>) => {
  const result = changed(changes);
  return result.ok ? [] : result.problems;
};
const order = (of: typeof changeOut) => itemsOf(of).map(itemId);

const own: Step = {
  id: "own-1",
  title: "Noise log",
  instruction: "Listen at the casing valve for two minutes.",
  fields: [
    {
      kind: "choice",
      id: "own-1-heard",
      label: "Heard something",
      choices: [
        { value: "yes", label: "Yes" },
        { value: "no", label: "No" },
      ],
    },
  ],
};

describe("the planner's changes", () => {
  it("are none: the sheet is the very same", () => {
    const result = changed({});
    expect(result.ok && result.sheet).toBe(changeOut);
  });

  it("leave a step out, and the contingencies do not name it any more", () => {
    const without = applied({ dropped: ["jar-out"] });
    expect(order(without)).toEqual(order(changeOut).filter((id) => id !== "jar-out"));
    expect(JSON.stringify(contingenciesOf(without))).not.toContain('"jar-out"');
  });

  it("take a phase away when nothing is left in it", () => {
    const small = {
      ...changeOut,
      phases: [
        ...changeOut.phases,
        { id: "extra", title: "Extra", items: [{ type: "step" as const, step: own }] },
      ],
    };
    const result = applyChanges(small, { ...noChanges, dropped: ["own-1"] });
    expect(result.ok && result.sheet.phases.map((phase) => phase.id)).not.toContain("extra");
  });

  it("move a step behind another, into that one's phase", () => {
    const moved = applied({ moved: [{ step: "as-found", after: "permit" }] });
    expect(order(moved).slice(0, 3)).toEqual(["permit", "as-found", "briefing"]);
    const away = applied({ moved: [{ step: "line-left", after: "account" }] });
    expect(order(away).indexOf("line-left")).toBe(order(away).indexOf("account") + 1);
  });

  it("move a step to the very top", () => {
    expect(order(applied({ moved: [{ step: "briefing", after: TOP }] }))[0]).toBe("briefing");
  });

  it("put the planner's own steps in, one behind the other", () => {
    const second: Step = { ...own, id: "own-2", title: "Second", fields: [] };
    const of = applied({
      own: [
        { after: "as-found", step: own },
        { after: "own-1", step: second },
      ],
    });
    const at = order(of).indexOf("as-found");
    expect(order(of).slice(at, at + 4)).toEqual(["as-found", "own-1", "own-2", "permit-hold"]);
  });

  it("keep a place that is itself left out", () => {
    const of = applied({ dropped: ["as-found"], own: [{ after: "as-found", step: own }] });
    expect(order(of)).not.toContain("as-found");
    expect(order(of)[order(of).indexOf("own-1") + 1]).toBe("permit-hold");
  });
});

describe("what a hold point needs", () => {
  it.each<[string, Partial<SheetChanges>, string, RegExp]>([
    [
      "a hold point left out",
      { dropped: ["level-hold"] },
      "level-hold",
      /hold point "Equalised before unseating" cannot be left out/,
    ],
    [
      "a hold point moved",
      { moved: [{ step: "level-hold", after: "jar-out" }] },
      "level-hold",
      /hold point "Equalised before unseating" cannot be moved/,
    ],
    [
      "a guarded step left out",
      { dropped: ["first-blow"] },
      "first-blow",
      /"Equalised before unseating" guards this step/,
    ],
    [
      "a guarded step moved",
      { moved: [{ step: "first-blow", after: "jar-out" }] },
      "first-blow",
      /guards this step: it stays where it is/,
    ],
    [
      "a step whose answer it asks for left out",
      { dropped: ["pins"] },
      "pins",
      /"Replacement verified" asks for it: Running-tool pins are brass/,
    ],
    [
      "the last reading of the gauges before it left out",
      { dropped: ["level-last"] },
      "level-last",
      /"Equalised before unseating" asks for it: Annulus and tubing within the band/,
    ],
    [
      "the measured friction left out",
      { dropped: ["friction"] },
      "friction",
      /"Push-out beaten by what was measured" asks for it: Effective weight/,
    ],
    [
      "a step whose answer it asks for moved behind it",
      { moved: [{ step: "briefing", after: "permit-hold" }] },
      "briefing",
      /"Permit and briefing" asks for it: Gas test clear\. It cannot be moved behind it/,
    ],
    [
      "a step moved before the hold point it waited for",
      { moved: [{ step: "jar-out", after: "level-last" }] },
      "jar-out",
      /after the hold point "Equalised before unseating" and waits for its release/,
    ],
    [
      "a step this sheet does not have left out",
      { dropped: ["look-block"] },
      "look-block",
      /does not have\. Take the change back/,
    ],
    [
      "a place that is not there",
      { own: [{ after: "look-block", step: own }] },
      "own-1",
      /"Noise log" was to stand after "look-block"/,
    ],
    [
      "a name that is taken",
      { own: [{ after: "permit", step: { ...own, id: "briefing" } }] },
      "briefing",
      /There is a step "briefing" already/,
    ],
    [
      "a field that is taken",
      {
        own: [
          {
            after: "permit",
            step: { ...own, fields: [{ kind: "count", id: "people", label: "People" }] },
          },
        ],
      },
      "own-1",
      /There is a field "people" already/,
    ],
  ])("refuses %s, by name", (_, changes, at, says) => {
    const found = problemsOf(changes).filter((problem) => problem.at === at);
    expect(found.map((problem) => problem.says).join(" ")).toMatch(says);
  });

  it("holds for every step that may be left out: the sheet still hangs together without it", () => {
    const free = stepsOf(changeOut).filter(
      (step) => problemsOf({ dropped: [step.id] }).length === 0,
    );
    expect(free.map((step) => step.id)).toEqual(
      expect.arrayContaining(["as-found", "jar-out", "injection", "line-left"]),
    );
    for (const step of free) applied({ dropped: [step.id] });
    // What is guarded, or asked for, is not among them.
    const guarded = holdPointsOf(changeOut).map((hold) => hold.guards);
    expect(free.filter((step) => guarded.includes(step.id))).toEqual([]);
  });
});

describe("a job with changes", () => {
  const planned = (changes: Partial<SheetChanges>) => ({
    ...jobs.ready,
    sheet: { ...sheetWanted(jobs.ready), changes: { ...noChanges, ...changes } },
  });

  it("is issued and worked with the sheet as changed", () => {
    const given = planned({
      dropped: ["as-found"],
      own: [{ after: "briefing", step: own }],
      moved: [{ step: "lift-gas-off", after: "permit" }],
    });
    expect(job.parse(given)).toEqual(given);
    const tablet = new Tablet().start(assemble(given, library));
    tablet.runTo("own-1");
    tablet.enter("own-1", { "own-1-heard": { text: "no" } });
    tablet.runTo("permit-hold");
    expect([...tablet.state.done.keys()]).toEqual([
      "permit",
      "lift-gas-off",
      "briefing",
      "own-1",
      "safety-valves",
    ]);
    expect(stepById(tablet.state.programme?.sheet ?? changeOut, "as-found")).toBeUndefined();
  });

  it("is not issued while a change cannot be, and shows the sheet without any", () => {
    const programme = assemble(planned({ dropped: ["pins", "as-found"] }), library);
    expect(programme.sheet).toEqual(changeOut);
    expect(readinessOf(programme).groups.sheet).toBe("fails");
    const issue = issueProgramme(foldJob([]), programme, planner);
    expect(issue).toMatchObject({ ok: false });
  });
});

describe("in what a sheet differs", () => {
  it("is said by title: left out, moved, the planner's own, a catcher", () => {
    const [well] = library.wells.filter((each) => each.id === jobs.ready.well);
    const differs = (changes: Partial<SheetChanges>, catcher = false) =>
      differences(
        {
          mandrel: jobs.ready.mandrel,
          sheet: { work: "change out", catcher, changes: { ...noChanges, ...changes } },
        },
        well,
      );
    expect(differences(jobs.ready, well)).toEqual([]);
    expect(
      differs({
        dropped: ["jar-out"],
        moved: [{ step: "briefing", after: TOP }],
        own: [{ after: "briefing", step: own }],
      }),
    ).toEqual([
      'Left out: "Jar the valve out".',
      'Moved: "Briefing", first of all.',
      'The planner\'s own: "Noise log", after "Briefing".',
    ]);
    expect(differs({}, true)).toEqual(["A catcher is set before the pull run and taken out last."]);
  });
});

describe("arranging the sheet", () => {
  const take = (tried: Tried) => {
    if (!tried.ok) throw new Error(tried.why);
    return tried.changes;
  };
  const shown = (changes: SheetChanges) =>
    arranged(changeOut, changes).phases.flatMap(({ lines }) => lines.map(({ id }) => id));

  it("moves a step past its neighbours and back, and is then as it was", () => {
    const down = take(movedBy(changeOut, noChanges, "permit", 1));
    expect(down.moved).toEqual([{ step: "permit", after: "briefing" }]);
    expect(take(movedBy(changeOut, down, "permit", -1))).toEqual(noChanges);
    const up = take(movedBy(changeOut, noChanges, "briefing", -1));
    expect(up.moved).toEqual([{ step: "briefing", after: TOP }]);
  });

  it("shows the order that the crew will have, whatever is done in which order", () => {
    let changes = take(written(changeOut, noChanges, own, "as-found"));
    changes = take(movedBy(changeOut, changes, "as-found", -1));
    changes = take(movedBy(changeOut, changes, "own-1", -1));
    changes = take(movedBy(changeOut, changes, "as-found", 1));
    changes = take(movedBy(changeOut, changes, "briefing", 1));
    changes = take(written(changeOut, changes, { ...own, id: "own-2", fields: [] }, "briefing"));
    changes = take(movedBy(changeOut, changes, "own-2", -1));
    changes = take(leftOut(changeOut, changes, "as-found"));
    const order = shown(changes);
    expect(order.slice(0, 8)).toEqual([
      "permit",
      "lift-gas-off",
      "own-2",
      "briefing",
      "own-1",
      "as-found",
      "safety-valves",
      "permit-hold",
    ]);
    expect(itemsOf(applied(changes)).map(itemId)).toEqual(order.filter((id) => id !== "as-found"));
  });

  it("says why a change cannot be and leaves everything as it was", () => {
    expect(leftOut(changeOut, noChanges, "pins")).toMatchObject({
      ok: false,
      why: expect.stringContaining('"Replacement verified" asks for it'),
    });
    expect(movedBy(changeOut, noChanges, "briefing", 1)).toMatchObject({ ok: true });
    expect(movedBy(changeOut, noChanges, "measure-strings", -1)).toMatchObject({
      ok: false,
      why: expect.stringContaining('"Permit and briefing" guards this step'),
    });
    expect(movedBy(changeOut, noChanges, "permit", -1)).toMatchObject({
      ok: false,
      why: "It is the first already.",
    });
  });

  it("keeps changes that a sheet for other work has no place for, and names them", () => {
    const changes = take(leftOut(changeOut, noChanges, "jar-out"));
    const other = changeOutSheet({
      work: "set into an empty pocket",
      kickover: "orienting",
      catcher: false,
    });
    const { strays } = arranged(other, changes);
    expect(strays).toMatchObject([
      { at: "jar-out", says: expect.stringContaining("Take the change back") },
    ]);
    expect(takenBack(changes, "jar-out")).toEqual(noChanges);
    // What was wrong before does not keep a change away that is not.
    expect(leftOut(other, changes, "as-found")).toMatchObject({ ok: true });
  });

  it("takes a step of one's own out again, and what stood behind it stays", () => {
    let changes = take(written(changeOut, noChanges, own, "permit"));
    changes = take(written(changeOut, changes, { ...own, id: "own-2", fields: [] }, "own-1"));
    changes = takenOut(changeOut, changes, "own-1");
    expect(shown(changes).slice(0, 3)).toEqual(["permit", "own-2", "briefing"]);
    expect(takenIn({ ...changes, dropped: ["as-found"] }, "as-found").dropped).toEqual([]);
  });
});

describe("a step of the planner's own", () => {
  const typed: TypedStep = {
    title: " Noise log ",
    instruction: "Listen at the casing valve.",
    caution: "",
    fields: [
      { label: "Heard", kind: "yes or no", dimension: "pressure" },
      { label: "Casing", kind: "quantity", dimension: "pressure" },
      { label: "Turns", kind: "count", dimension: "pressure" },
      { label: "Remarks", kind: "words", dimension: "pressure" },
    ],
  };

  it("is read with names of its own, and typed again it is the same", () => {
    const read = ownStep(typed, noChanges);
    if (!read.ok) throw new Error("not read");
    expect(read.step).toMatchObject({ id: "own-1", title: "Noise log" });
    expect(read.step.fields.map(({ id, kind }) => [id, kind])).toEqual([
      ["own-1-1", "choice"],
      ["own-1-2", "quantity"],
      ["own-1-3", "count"],
      ["own-1-4", "text"],
    ]);
    expect(ownStep(typedStep(read.step), noChanges)).toEqual(read);
    const more = ownStep(typed, { ...noChanges, own: [{ after: "permit", step: read.step }] });
    expect(more).toMatchObject({ ok: true, step: { id: "own-2" } });
    applied({ own: [{ after: "permit", step: read.step }] });
  });

  it("gives a new entry a name that no other of the step has", () => {
    const read = ownStep(
      {
        ...typed,
        id: "own-4",
        fields: [
          { id: "own-4-2", label: "Kept", kind: "words", dimension: "pressure" },
          { label: "First", kind: "words", dimension: "pressure" },
          { label: "Second", kind: "words", dimension: "pressure" },
        ],
      },
      noChanges,
    );
    expect(read.ok && read.step.fields.map(({ id }) => id)).toEqual([
      "own-4-2",
      "own-4-1",
      "own-4-3",
    ]);
  });

  it("says what is missing and what is too long, by part", () => {
    const read = ownStep(
      {
        title: "",
        instruction: "x".repeat(4001),
        caution: "",
        fields: Array.from({ length: 9 }, () => emptyField),
      },
      noChanges,
    );
    expect(read).toMatchObject({
      ok: false,
      problems: {
        title: "Title: nothing entered.",
        instruction: "What to do: 4001 letters, and 4000 is the most. Shorten it.",
        "field 0": "Entry 1: nothing entered.",
        fields: "9 entries in one step; 8 is the most. Write a second step.",
      },
    });
    expect(ownStep(emptyStep, noChanges).ok).toBe(false);
  });
});
