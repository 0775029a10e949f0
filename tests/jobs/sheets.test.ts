import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import type { Typed } from "../../src/jobs/commands/entry.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import { job } from "../../src/jobs/records/job.ts";
import { changeOut, changeOutSheet } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { type SheetOptions, works } from "../../src/jobs/sheet/changeOut/options.ts";
import { sheet } from "../../src/jobs/sheet/sheet.ts";
import { noChanges, sheetWanted } from "../../src/jobs/sheet/sheetWanted.ts";
import {
  contingencyById,
  fieldById,
  holdPointsOf,
  stepById,
  stepsOf,
} from "../../src/jobs/sheet/walk.ts";
import { programmeFor, Tablet } from "./demo.ts";

const said = (text: string): Typed => ({ text });
const ft = (text: string): Typed => ({ text, unit: "ft" });
const psig = (text: string): Typed => ({ text, unit: "psig" });

const variants = works.flatMap((work) =>
  (["orienting", "non-orienting"] as const).flatMap((kickover) =>
    [false, true].map((catcher): SheetOptions => ({ work, kickover, catcher })),
  ),
);
const named = variants.map(
  (options) =>
    [
      `${options.work}, ${options.kickover}, ${options.catcher ? "with" : "without"} catcher`,
      options,
    ] as const,
);

describe("every kind of sheet", () => {
  it.each(named)("hangs together: %s", (_, options) => {
    expect(sheet.safeParse(changeOutSheet(options)).error?.issues ?? []).toEqual([]);
  });

  it.each(named)("says nothing is safe, and every instruction is short: %s", (_, options) => {
    for (const step of stepsOf(changeOutSheet(options))) {
      expect(JSON.stringify(step)).not.toMatch(/\bsafe\b/i);
      expect(step.instruction.length, step.id).toBeLessThan(320);
    }
  });

  it.each(named)("warns where a pull, a blow or a string coming out can hurt: %s", (_, options) => {
    const steps = stepsOf(changeOutSheet(options));
    const cautions = (of: (step: (typeof steps)[number]) => boolean) =>
      steps.filter(of).map((step) => [step.id, step.caution ?? ""] as const);
    const pulls = ["jar-out", "drive", "test-pull", "shear", "fetch"];
    for (const [id, words] of cautions(({ id: of }) => pulls.includes(of))) {
      expect(words, id).toMatch(/clear of the line/);
    }
    for (const [id, words] of cautions(({ id: of }) => of === "jar-out")) {
      expect(words, id).toContain("surge");
    }
    const outs = cautions(({ title }) => title.startsWith("Come out"));
    expect(outs.length).toBeGreaterThanOrEqual(3);
    for (const [id, words] of outs) expect(words, id).toMatch(/Gas .* jammed in the lubricator/);
  });

  it.each(named)("proves with the level found anew, by a plan that there is: %s", (_, options) => {
    const steps = stepsOf(changeOutSheet(options)).filter(({ id }) => /^proof.*-start$/.test(id));
    expect(steps.length).toBeGreaterThan(0);
    for (const { id, instruction, fields } of steps) {
      expect(instruction, id).not.toContain("programme names");
      const level = fields.find((field) => field.id === `${id}-level`);
      expect(level, id).toMatchObject({ channel: "fluid level" });
      expect(level, id).not.toHaveProperty("asBefore");
    }
  });

  it.each(named)(
    "shows what the counter should read where a string goes to the pocket: %s",
    (_, options) => {
      const steps = stepsOf(changeOutSheet(options));
      for (const id of ["locate", "enter"]) {
        const figures = steps.find((step) => step.id === id)?.figures ?? [];
        expect(figures, id).toContain("counter-at-mandrel");
        expect(figures, id).not.toContain("target-depth");
      }
    },
  );

  it.each(named)("carries a whole job through its rules: %s", (_, options) => {
    const programme = programmeFor(options);
    expect(readinessOf(programme).points.filter((point) => point.stops)).toEqual([]);
    const tablet = new Tablet().start(programme).runTo(undefined);
    for (const hold of holdPointsOf(programme.sheet)) {
      expect(tablet.hold(hold.id).status, hold.title).toBe("released");
    }
    tablet.close();
    expect(tablet.state.stage).toBe("closed");
  });
});

const usual: SheetOptions = { work: "change out", kickover: "orienting", catcher: false };
const dummy = changeOutSheet({ ...usual, work: "pull and dummy off" });
const empty = changeOutSheet({ ...usual, work: "set into an empty pocket" });
const plain = changeOutSheet({ ...usual, kickover: "non-orienting" });
const caught = changeOutSheet({ ...usual, catcher: true });

describe("sheets differ where the job differs", () => {
  it("without a sleeve the tool works by depth and feel, and there is no pull of a key", () => {
    expect(stepById(changeOut, "locate")?.instruction).toContain("key");
    expect(stepById(plain, "locate")?.instruction).toMatch(/by depth and feel/);
    expect(fieldById(changeOut, "key-pull")).toBeDefined();
    expect(fieldById(plain, "key-pull")).toBeUndefined();
    expect(contingencyById(plain, "no-sleeve")).toBeUndefined();
    expect(stepById(plain, "enter")?.instruction).toContain("By depth and feel");
  });

  it("a dummy has no set pressure, is proved both ways, and its gas goes to the next valve", () => {
    const checks = holdPointsOf(dummy).flatMap((hold) =>
      hold.conditions.flatMap((each) => (each.kind === "check" ? [each.check] : [])),
    );
    expect(checks).not.toContain("set pressure");
    expect(checks.filter((check) => check === "proof of seat")).toHaveLength(2);
    expect(fieldById(dummy, "new-card")).toBeUndefined();
    expect(stepById(dummy, "injection")?.expect).toContain("next valve below");
  });

  it("an empty pocket has nothing pulled and nothing of it looked at, and is looked into instead", () => {
    const ids = stepsOf(empty).map((step) => step.id);
    expect(ids).not.toContain("jar-out");
    expect(ids).not.toContain("inspect");
    expect(ids).toContain("look-block");
    expect(contingencyById(empty, "will-not-come")).toBeUndefined();
  });

  it("a catcher is set before the pull run, and comes out after the proof, level first", () => {
    const ids = [...stepsOf(caught)].map((step) => step.id);
    const order = ["gauge-out", "catcher-set", "pull-string-on", "proof-end", "fetch", "stack-off"];
    expect([...order].sort((a, b) => ids.indexOf(a) - ids.indexOf(b))).toEqual(order);
    expect(holdPointsOf(caught).find((hold) => hold.guards === "fetch")?.title).toBe(
      "Level across the catcher",
    );
  });

  it.each(named)("asks two barriers, and a plan before each unseating: %s", (_, options) => {
    const ids = stepsOf(changeOutSheet(options)).map((step) => step.id);
    const opens = (step: string) => {
      const hold = holdPointsOf(changeOutSheet(options)).filter((each) => each.guards === step);
      return hold.some((each) => each.title === "Two barriers proved");
    };
    const openings = ["stack-up", "pull-string-on", "inspect", "look-block", "look-tool"];
    const all = [...openings, "stack-off", "catcher-string-on", "fetch-string-on", "caught-look"];
    expect(all.filter((step) => ids.includes(step) && !opens(step))).toEqual([]);
    expect(ids.indexOf("level-plan")).toBeGreaterThan(-1);
    expect(ids.includes("catcher-plan")).toBe(options.catcher);
  });
});

/** What locks in the sheets that the usual one does not have. */
const locks: {
  when: string;
  options: SheetOptions;
  hold: string;
  step: string;
  bad: Record<string, Typed>;
  reason: RegExp;
}[] = [
  {
    when: "the print shows a neck",
    options: { ...usual, work: "set into an empty pocket" },
    hold: "pocket-hold",
    step: "look-block",
    bad: { "block-shows": said("neck") },
    reason: /the print does not show an open pocket.*not driven onto something/,
  },
  {
    when: "the pressures with the pocket open wander out of the band",
    options: { ...usual, work: "set into an empty pocket" },
    hold: "set-go-hold",
    step: "pocket-open",
    bad: { "pocket-open-casing": psig("900") },
    reason: /Annulus is \d+ psi above tubing/,
  },
  {
    when: "both proofs of a dummy were made the same way round",
    options: { ...usual, work: "pull and dummy off" },
    hold: "proof-hold",
    step: "proof-back-start",
    bad: {
      "proof-back-start-casing": psig("701"),
      "proof-back-start-wellhead": psig("53"),
    },
    reason: /both the same way round/,
  },
  {
    when: "a dummy leaks the second way",
    options: { ...usual, work: "pull and dummy off" },
    hold: "proof-hold",
    step: "proof-back-end",
    bad: { "proof-back-end-casing": psig("460") },
    reason: /casing gauge moved by 60 psi/,
  },
  {
    when: "the catcher stands where no nipple is",
    options: { ...usual, catcher: true },
    hold: "catcher-hold",
    step: "catcher-set",
    bad: { "catcher-depth": ft("5900") },
    reason: /no nipple within 10\.0 ft/,
  },
  {
    when: "the catcher stands above the mandrel",
    options: { ...usual, catcher: true },
    hold: "catcher-hold",
    step: "catcher-set",
    bad: { "catcher-depth": ft("4300") },
    reason: /catches nothing/,
  },
  {
    when: "the well stands above what was tested with the wire across the valve",
    options: { ...usual, catcher: true },
    hold: "fetch-hold",
    step: "catcher-level",
    bad: { "catcher-level-casing": psig("1450") },
    reason: /Bring the pressure down first, or come out and test the stack higher/,
  },
  {
    when: "something is left on the catcher",
    options: { ...usual, catcher: true },
    hold: "fetch-hold",
    step: "catcher-debris",
    bad: { debris: said("left") },
    reason: /Recover it first/,
  },
];

describe("hold points of the other sheets lock", () => {
  it.each(locks)("$hold when $when", ({ options, hold, step, bad, reason }) => {
    const tablet = new Tablet()
      .start(programmeFor(options))
      .runTo(hold, { [step]: bad }, "stood by in a test");
    tablet.signAll(hold);
    expect(() => tablet.release(hold)).toThrow(reason);
  });
});

describe("which sheet a job wants", () => {
  it("is read from jobs of before as well, which stay as they are", () => {
    const before = { ...jobs.ready, sheet: "change-out" as const };
    expect(job.parse(before)).toEqual(before);
    expect(sheetWanted(before)).toEqual({
      work: "change out",
      catcher: false,
      changes: noChanges,
    });
    expect(assemble(before, library).sheet).toEqual(changeOut);
  });

  it("is refused when it is neither", () => {
    const odd = { ...jobs.ready, sheet: "plug" };
    expect(job.safeParse(odd).error?.issues[0]?.message).toContain("work, catcher and changes");
  });

  it("takes the kickover tool from the mandrel's record", () => {
    const programme = programmeFor({ ...usual, kickover: "non-orienting" });
    expect(programme.sheet).toEqual(plain);
  });
});
