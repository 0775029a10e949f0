import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { assemble } from "../../src/jobs/assemble.ts";
import { issueProgramme } from "../../src/jobs/commands/issue.ts";
import { readinessOf } from "../../src/jobs/readiness.ts";
import type { Job, SheetChanges } from "../../src/jobs/records/job.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import type { Well } from "../../src/jobs/records/well.ts";
import { noChanges, sheetWanted } from "../../src/jobs/sheet/sheetWanted.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { emptyLibrary } from "../../src/jobs/store/library.ts";
import { planner, programmeFor, readyProgramme, supervisor } from "./demo.ts";

const usual = { work: "change out", kickover: "orienting", catcher: false } as const;
const withChanges = (changes: Partial<SheetChanges>): Job => ({
  ...jobs.ready,
  sheet: { ...sheetWanted(jobs.ready), changes: { ...noChanges, ...changes } },
});
const withWell = (change: (well: Well) => Partial<Well>): Programme => {
  const programme = readyProgramme();
  if (!programme.well) throw new Error("no well");
  return { ...programme, well: { ...programme.well, ...change(programme.well) } };
};
const target = (well: Well, change: object) => ({
  mandrels: well.mandrels.map((mandrel) =>
    mandrel.number === 3 ? { ...mandrel, ...change } : mandrel,
  ),
});

describe("readiness", () => {
  it("has nothing to say of the ready job", () => {
    expect(readinessOf(readyProgramme()).points).toEqual([]);
  });

  it("puts what fails before what is missing before what to ask", () => {
    const { points, groups } = readinessOf(assemble(jobs.notReady, library));
    const weights = points.map((point) => point.weight);
    expect(weights).toEqual(
      [...weights].sort(
        (a, b) => ["fails", "missing", "ask"].indexOf(a) - ["fails", "missing", "ask"].indexOf(b),
      ),
    );
    expect(groups).toEqual({
      well: "missing",
      valve: "fails",
      string: "fails",
      stack: "ready",
      people: "missing",
      sheet: "ready",
    });
  });

  it.each<[string, () => Programme, RegExp]>([
    [
      "a conventional mandrel",
      () => withWell((w) => target(w, { construction: "conventional" })),
      /conventional.*Wireline cannot serve it/,
    ],
    [
      "a pocket of unknown size",
      () => withWell((w) => target(w, { pocket: "not known" })),
      /Ask before mobilising/,
    ],
    [
      "an unknown sleeve",
      () => withWell((w) => target(w, { orientingSleeve: "not known" })),
      /orienting sleeve. Ask/,
    ],
    [
      "a mandrel without sleeve",
      () => withWell((w) => target(w, { orientingSleeve: "no" })),
      /no orienting sleeve/,
    ],
    [
      "a crown valve whose turns nobody counted",
      () => {
        const p = readyProgramme();
        const { crownValveTurns: _, ...well } = p.well as Well;
        return { ...p, well };
      },
      /Turns of the crown valve: not known/,
    ],
    [
      "an empty pocket",
      () => withWell((w) => target(w, { pocketState: "empty" })),
      /pocket is empty/,
    ],
    [
      "no gas",
      () => {
        const p = readyProgramme();
        const { injectionGas: _, ...well } = p.well as Well;
        return { ...p, well };
      },
      /Injection gas, by gravity or analysis: not known/,
    ],
    [
      "an impossible gas",
      () =>
        withWell(() => ({
          injectionGas: {
            specificGravity: { value: 0.3, unit: "" },
            co2: { value: 20, unit: "%" },
            h2s: { value: 0, unit: "%" },
            n2: { value: 0, unit: "%" },
          },
        })),
      /Injection gas, by gravity or analysis \(as entered: specific_gravity must be/,
    ],
    [
      "a valve too large",
      () => {
        const p = readyProgramme();
        return {
          ...p,
          replacement: p.replacement && { ...p.replacement, size: "1-1/2 in" },
        } as Programme;
      },
      /is 1-1\/2 in, the pocket is 1 in/,
    ],
    [
      "a latch for another profile",
      () => {
        const p = readyProgramme();
        return {
          ...p,
          replacement: p.replacement && { ...p.replacement, latch: "collet latch" },
        } as Programme;
      },
      /collet latch, the pocket takes ring latch/,
    ],
    [
      "a certificate that has ended",
      () => {
        const p = readyProgramme();
        return {
          ...p,
          stack: p.stack && {
            ...p.stack,
            items: p.stack.items.map((i) => ({ ...i, certificateUntil: "2026-01-01" })),
          },
        };
      },
      /certificate ended 2026-01-01/,
    ],
    [
      "a stack too weak",
      () => {
        const p = readyProgramme();
        return {
          ...p,
          stack: p.stack && {
            ...p.stack,
            items: p.stack.items.map((i) => ({
              ...i,
              rating: { value: 1000, unit: "psig" as const },
            })),
          },
        };
      },
      /below the test pressure of 1210 psig/,
    ],
    [
      "a lubricator too short",
      () => {
        const p = readyProgramme();
        return { ...p, stack: p.stack && { ...p.stack, items: p.stack.items.slice(0, 4) } };
      },
      /ft short/,
    ],
    [
      "a tool too large",
      () =>
        withWell(() => ({
          restrictions: [
            {
              name: "nipple",
              kind: "nipple",
              depthAlongHole: { value: 900, unit: "ft" },
              bore: { value: 2.2, unit: "in" },
            },
          ],
        })),
      /too large for the narrowest bore/,
    ],
    [
      "a pocket that is not empty, to be set into",
      () => {
        const { well, ...rest } = programmeFor({ ...usual, work: "set into an empty pocket" });
        return { ...rest, well: readyProgramme().well } as Programme;
      },
      /the pocket holds a valve, and the job is to set into an empty pocket/,
    ],
    [
      "a valve where a dummy is to go in",
      () => {
        const { replacement } = readyProgramme();
        return {
          ...programmeFor({ ...usual, work: "pull and dummy off" }),
          replacement,
        } as Programme;
      },
      /is of kind injection-operated; the pocket is to be blanked with a dummy/,
    ],
    [
      "a catcher without a nipple for it",
      () => {
        const programme = programmeFor({ ...usual, catcher: true });
        const well = programme.well && { ...programme.well, restrictions: [] };
        return { ...programme, well } as Programme;
      },
      /no nipple below mandrel 3/,
    ],
    [
      "a catcher without a string for it",
      () => {
        const programme = programmeFor({ ...usual, catcher: true });
        const { catcher: _, ...strings } = programme.strings;
        return { ...programme, strings };
      },
      /The sheet sets a catcher, and no catcher string is chosen/,
    ],
    [
      "a catcher string that push-out holds up",
      () => {
        const programme = programmeFor({ ...usual, catcher: true });
        const { catcher } = programme.strings;
        const tools = catcher?.tools.filter(({ kind }) => kind === "rope socket") ?? [];
        return {
          ...programme,
          strings: { ...programme.strings, catcher: catcher && { ...catcher, tools } },
        } as Programme;
      },
      /^Catcher string: .*lb/,
    ],
    [
      "a tool for a sleeve in a mandrel that has none, whatever the work",
      () => {
        const programme = programmeFor({
          work: "pull and dummy off",
          kickover: "non-orienting",
          catcher: false,
        });
        return { ...programme, strings: readyProgramme().strings };
      },
      /Mandrel 3 has no orienting sleeve, and the pull string carries a kickover tool made for an orienting sleeve/,
    ],
    [
      "a hold point's reading left out",
      () => assemble(withChanges({ dropped: ["pins"] }), library),
      /Run sheet: The hold point "Replacement verified" asks for it/,
    ],
    ["an empty library", () => assemble(jobs.ready, emptyLibrary), /not in the library/],
  ])("says what is wrong with %s", (_, programme, message) => {
    const { points } = readinessOf(programme());
    const point = points.find((each) => message.test(each.says));
    expect(point?.says ?? points.map((each) => each.says).join(" | ")).toMatch(message);
    expect(point?.stops).toBe(true);
    expect(issueProgramme(foldJob([]), programme(), planner).ok).toBe(false);
  });

  it.each([
    { when: "scrapped", change: { state: "scrapped" }, weight: "fails", says: /is scrapped/ },
    { when: "pulled", change: { state: "pulled" }, weight: "ask", says: /Was it repaired/ },
    {
      when: "in this well",
      change: { id: "valve-em-0712" },
      weight: "fails",
      says: /sits in mandrel 2/,
    },
  ] as const)("looks where the replacement is: $when", ({ change, weight, says }) => {
    const programme = readyProgramme();
    const replacement = { ...programme.replacement, ...change };
    const { points } = readinessOf({ ...programme, replacement } as Programme);
    const point = points.find((each) => says.test(each.says));
    expect(point).toMatchObject({ group: "valve", weight, stops: weight === "fails" });
  });

  it("asks about a dummy where a valve is to go in, and issues all the same", () => {
    const programme = readyProgramme();
    const replacement = programme.replacement && { ...programme.replacement, kind: "dummy" };
    const { points } = readinessOf({ ...programme, replacement } as Programme);
    const asked = points.find((point) => point.says.includes("Should the pocket be blanked?"));
    expect(asked).toMatchObject({ weight: "ask", stops: false });
  });

  it("does not count a restriction below the mandrel", () => {
    const programme = withWell(() => ({
      restrictions: [
        {
          name: "nipple",
          kind: "nipple",
          depthAlongHole: { value: 6000, unit: "ft" },
          bore: { value: 1.5, unit: "in" },
        },
      ],
    }));
    expect(readinessOf(programme).points).toEqual([]);
  });

  it("is the planner's or the engineer's to issue", () => {
    expect(issueProgramme(foldJob([]), readyProgramme(), supervisor)).toMatchObject({ ok: false });
    expect(issueProgramme(foldJob([]), readyProgramme(), planner)).toMatchObject({ ok: true });
  });
});
