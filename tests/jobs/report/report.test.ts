import { describe, expect, it } from "vitest";
import { review } from "../../../src/jobs/commands/review.ts";
import { type UnitSystem, writer } from "../../../src/jobs/display.ts";
import { fieldInWords } from "../../../src/jobs/entryInWords.ts";
import type { JobEvent } from "../../../src/jobs/log/event.ts";
import { headsOf } from "../../../src/jobs/log/heads.ts";
import type { Cell, ReportDocument } from "../../../src/jobs/report/document.ts";
import { reportOf } from "../../../src/jobs/report/reportOf.ts";
import { siteAtmosphere } from "../../../src/jobs/results/context.ts";
import { serialInWords } from "../../../src/jobs/serial.ts";
import { fieldById } from "../../../src/jobs/sheet/walk.ts";
import { closingHash, inFours } from "../../../src/jobs/state/closingHash.ts";
import { foldJob, type JobState } from "../../../src/jobs/state/jobState.ts";
import { demoText, engineer, Tablet } from "../demo.ts";
import { answers, twoPocketProgramme } from "../twoPockets.ts";
import { eventfulRun, kept, LONG_NOTE, LOST } from "./eventfulRun.ts";

const NOW = "2026-11-27T06:00:00.000Z";
const demoEvents = (job: string): JobEvent[] =>
  JSON.parse(demoText()).content.events.filter((event: JobEvent) => event.job === job);
const demoRun = () => foldJob(demoEvents("job-em-03-3"));

function reported(state: JobState, system: UnitSystem = "field", missing: string[] = []) {
  const { programme } = state;
  const units = writer(system, programme && siteAtmosphere(programme));
  const report = reportOf(state, NOW, units, { missing: new Set(missing) });
  if (!report) throw new Error("nothing to report on");
  return report;
}

const textOf = (cell: Cell) => (typeof cell === "string" ? cell : cell.text);

/** A part's tables, as rows of words. */
const rowsOf = ({ parts }: ReportDocument, id: string): string[][] =>
  (parts.find((part) => part.id === id)?.blocks ?? []).flatMap((block) =>
    block.kind === "table" ? block.rows.map((row) => row.map(textOf)) : [],
  );

const factsOf = ({ parts }: ReportDocument, id: string): Map<string, string> =>
  new Map(
    (parts.find((part) => part.id === id)?.blocks ?? []).flatMap((block) =>
      block.kind === "facts"
        ? block.rows.map(([name, value]) => [name, textOf(value)] as const)
        : [],
    ),
  );

const calculationTables = ({ parts }: ReportDocument) =>
  (parts.find(({ id }) => id === "calculations")?.blocks ?? []).flatMap((block) =>
    block.kind === "table" ? [block] : [],
  );

/** What came of every numbered result, wherever it stands: alone, beside others, or as it was recorded. */
function workedOut(report: ReportDocument): Map<number, string> {
  const found = new Map<number, string>();
  let heading = "";
  for (const block of report.parts.find(({ id }) => id === "calculations")?.blocks ?? []) {
    if (block.kind === "heading") heading = block.text;
    if (block.kind !== "table") continue;
    const outcome = block.rows.find(([symbol]) => symbol === "=")?.map(textOf);
    const beside = block.columns.flatMap(({ title }, index) => {
      const number = /^\((\d+)\)/.exec(title)?.[1];
      return number === undefined ? [] : [[Number(number), outcome?.[index] ?? ""] as const];
    });
    for (const [number, says] of beside) found.set(number, says);
    const alone = /^\((\d+)\) (?!to )/.exec(heading)?.[1];
    if (alone !== undefined) found.set(Number(alone), outcome?.[2] ?? "");
    for (const row of block.rows.map((each) => each.map(textOf))) {
      const recorded = /^\((\d+)\)$/.exec(row[0] ?? "")?.[1];
      if (recorded !== undefined) found.set(Number(recorded), row[2] ?? "");
    }
  }
  return found;
}

const eventful = eventfulRun();

describe.each([
  { which: "the finished demonstration run", state: demoRun() },
  { which: "a run in which much happened", state: eventful.state },
])("the report of $which, held against its log", ({ state }) => {
  const report = reported(state, "field", [LOST]);
  const { programme } = state;
  if (!programme) throw new Error("no programme");
  const worked = rowsOf(report, "run-sheet");

  it("has every reading with its entry's number and what was entered, corrections beside it", () => {
    expect(state.readings.length).toBeGreaterThan(80);
    for (const reading of state.readings) {
      const field = fieldById(programme.sheet, reading.field);
      const number = String(state.events.indexOf(reading.event) + 1);
      const row = worked.find(([entry, , what]) => entry === number && what === field?.label);
      expect(row, `${reading.field}, entry ${number}`).toBeDefined();
      const says = row?.[3] ?? "";
      expect(says.startsWith(fieldInWords(field, reading.value))).toBe(true);
      if (reading.corrections.length === 0) continue;
      expect(says).toContain(`entered as ${fieldInWords(field, reading.original)}`);
      for (const { reason, event } of reading.corrections) {
        expect(says).toContain(`by ${event.actor.name}: ${reason}`);
      }
    }
  });

  it("has every release, with what it stands on, and every exception with its reason", () => {
    for (const { event, basis } of state.releases) {
      const number = String(state.events.indexOf(event) + 1);
      const says = worked.find(([entry]) => entry === number)?.[3] ?? "";
      for (const hash of basis) {
        const place = state.events.findIndex((each) => each.hash === hash) + 1;
        expect(says.match(/\d+/g)?.map(Number)).toContain(place);
      }
    }
    for (const { event, reason, covers, authoriser } of state.exceptions) {
      const number = String(state.events.indexOf(event) + 1);
      const row = worked.find(([entry]) => entry === number);
      expect(row?.[3]).toContain(`${covers} Reason: ${reason}`);
      expect(row?.[4]).toBe(`${authoriser.name}, ${authoriser.role}`);
    }
  });

  it("has everybody who signed, and who approved", () => {
    const signed = report.parts
      .flatMap(({ blocks }) => blocks)
      .flatMap((block) => (block.kind === "signature" ? [`${block.name}, ${block.role}`] : []));
    const approved = state.stage === "approved" ? state.decidedBy?.event.actor : undefined;
    const all = [...state.signatures.map(({ by }) => by), ...(approved ? [approved] : [])];
    expect(signed).toEqual(all.map(({ name, role }) => `${name}, ${role}`));
  });

  it("says which result of the page of results comes from where, and the closing hash", () => {
    const facts = factsOf(report, "result");
    expect(facts.get("Closing hash")).toBe(inFours(closingHash(state) ?? ""));
    const counted = facts.get("Exceptions and deviations");
    const exceptions = state.exceptions.length;
    expect(counted).toContain(exceptions === 0 ? "no exception" : `exception ${exceptions}`);
    expect(facts.get("Taken over by")).toContain("J. Corrow, field operator");
    expect(facts.get("Log")).toBe(`${state.events.length} events, unbroken`);
  });

  it("leads from every calculated figure to its own working", () => {
    const worked = workedOut(report);
    expect(worked.size).toBeGreaterThan(50);
    let led = 0;
    for (const { columns, rows } of calculationTables(report)) {
      for (const row of rows) {
        const [, , ...cells] = row.map(textOf);
        for (const cell of cells) {
          // Alone, its number stands in the last column; beside others, in the same cell.
          const alone = /^calculated \((\d+)\)$/.exec(cell)?.[1];
          const isBeside = columns.some(({ title }) => title.startsWith("("));
          const beside = isBeside ? /^(.+) \((\d+)\)$/.exec(cell) : undefined;
          const number = alone ?? beside?.[2];
          if (number === undefined) {
            expect(cell).not.toMatch(/calculated/);
            continue;
          }
          expect(worked.get(Number(number)), `${number}`).toBe(
            alone ? textOf(row[2] ?? "") : beside?.[1],
          );
          led += 1;
        }
      }
    }
    expect(led).toBeGreaterThan(60);
  });

  it("tells the source of every method that it names, once", () => {
    const tables = calculationTables(report);
    const methods = tables.find(
      ({ columns }) => columns[0]?.title === "No." && columns[1]?.title === "Method",
    );
    const told = (methods?.rows ?? []).map((row) => row.map(textOf));
    const named = tables
      .flatMap(({ rows }) => rows.map((row) => row.map(textOf)))
      .filter(([symbol]) => symbol === "=")
      .map(([, what]) => /^(.*) \((M\d+)\)$/.exec(what ?? ""));
    expect(named.length).toBeGreaterThan(40);
    for (const name of named) {
      const method = told.filter(([number]) => number === name?.[2]);
      expect(method).toHaveLength(1);
      expect(method[0]?.[1]).toBe(name?.[1]);
      expect(method[0]?.[2]).not.toBe("");
    }
    expect(new Set(told.map(([, name, source]) => `${name} ${source}`)).size).toBe(told.length);
  });
});

describe("figures of the report", () => {
  const closeOut = (report: ReportDocument) =>
    new Map(rowsOf(report, "close-out").map(([what = "", says = ""]) => [what, says]));

  it("are in the units of whoever reads it, on the page of results as in the close-out", () => {
    const metric = reported(eventful.state, "metric");
    const facts = factsOf(metric, "result");
    // 4380 ft is 1335.0 m, 4383 ft 1335.9 m; 948 psi is 65.36 bar, 949, 947 and 950 psi 65.43, 65.29 and 65.50 bar.
    expect(facts.get("Mandrel")).toBe("3, 1335 m along hole");
    expect(facts.get("Depth by the counter")).toBe("1336 m");
    expect(facts.get("Set pressure at 60 °F")).toBe(
      "65.4 barg on the card, read on location; 65.4 barg on record",
    );
    const says = closeOut(metric);
    expect(says.get("Standing in the pocket, set string")).toBe("1336 m");
    expect(says.get("Set pressure, test rack at 60 °F")).toBe(
      "65.4 barg by the card read on location; bench: 65.4 barg at 60 °F, 65.3 barg at 60 °F, 65.5 barg at 61 °F",
    );
    // 410 Mscf/d: 0.0283168 m3 each thousandth, 11.6 thousand a day.
    expect(facts.get("Pressures when left")).toContain("gas 11.6 kSm³/d");
  });

  it("and serials are those of the records where the same valve was read in other letters", () => {
    const report = reported(eventful.state);
    expect(factsOf(report, "result").get("Set")).toBe("EM-2041");
    const serials = rowsOf(report, "close-out").filter(([what]) => what === "Serial");
    expect(serials.map(([, says]) => says)).toEqual(["EM-0713", "EM-2041"]);
    expect(JSON.stringify(report.parts.find(({ id }) => id === "run-sheet"))).toContain("em 2041");
    expect(serialInWords("em 2041", undefined)).toBe("em 2041");
    expect(serialInWords("EM-2042", "EM-2041")).toBe("EM-2042; on record is EM-2041");
  });

  it("of a reading's band stand beside what was expected", () => {
    const lies = rowsOf(reported(eventful.state), "plan-actual").map((row) => row.at(-1) ?? "");
    expect(lies).toContain("within the limit");
    expect(lies.filter((each) => /^inside, band ± \d/.test(each)).length).toBeGreaterThan(10);
  });

  it("say no opening pressure of an orifice, and do not call it not known", () => {
    const report = reported(eventful.state);
    for (const [part, opens] of [
      ["verdict", 4],
      ["charts", 4],
    ] as const) {
      const orifice = rowsOf(report, part).filter((row) => row[0] === "5");
      expect(orifice.map((row) => row[opens])).toContain("no bellows");
      expect(orifice.flat()).not.toContain("not known");
    }
  });

  it("say on the first page, too, that a verdict is near the edge", () => {
    // By what the run sheet took it is not; 960 psig stands above where the valve in mandrel 4 opens, by less than the doubt.
    const plain = factsOf(reported(eventful.state), "result").get("Verdict on the well");
    expect(plain).toMatch(/^consistent: what was read/);
    const tablet = new Tablet();
    tablet.events = [...eventful.events];
    tablet.now = eventful.now;
    tablet.write({
      type: "lift observed",
      takenAt: tablet.clock,
      source: "recorder",
      injectionAtSurface: { value: 960, unit: "psig" },
      wellhead: { value: 120, unit: "psig" },
      injectionRate: { value: 640, unit: "Mscf/d" },
    });
    const edge = factsOf(reported(tablet.state), "result").get("Verdict on the well");
    expect(edge).toMatch(/^consistent, near the edge: what was read/);
    const beside = rowsOf(reported(tablet.state), "run-sheet").find(
      ([, , what]) => what === "The well on lift",
    );
    expect(beside?.[3]).toBe(
      "Casing pressure at surface 960 psig; Wellhead pressure 120 psig; Injection gas rate 640 Mscf/d. From recorder.",
    );

    // Corrected, it stays in both lists with who, when and why, and the verdict does not go by it any more.
    const wrong = tablet.state.observed[0];
    if (!wrong) throw new Error("not observed");
    tablet.write({
      ...wrong.observed,
      injectionAtSurface: { value: 868, unit: "psig" },
      wellhead: { value: 262, unit: "psig" },
      corrects: { event: wrong.event.hash, reason: "Digits swapped" },
    });
    const mended = reported(tablet.state);
    expect(factsOf(mended, "result").get("Verdict on the well")).toMatch(/^consistent: what was/);
    const why = /corrected on 2\d Nov \d\d:\d\d by R\. Tamsin: Digits swapped/;
    const [was, is, ...more] = rowsOf(mended, "run-sheet").filter(
      ([, , what]) => what === "The well on lift",
    );
    expect(more).toEqual([]);
    expect(was?.[3]).toMatch(
      /^Casing pressure at surface 960 psig; .* From recorder\. \(corrected/,
    );
    expect(was?.[3]).toMatch(why);
    expect(is?.[3]).toMatch(/^Casing pressure at surface 868 psig; .* From recorder\.$/);
    const [then, now] = rowsOf(mended, "verdict").filter((row) => row[6]?.startsWith("recorder"));
    expect([then?.[2], now?.[2]]).toEqual(["960 psig", "868 psig"]);
    expect(then?.[6]).toMatch(why);
    expect(now?.[6]).toBe("recorder");
  });

  it("say the verdict's words once", () => {
    const says = JSON.stringify(reported(eventful.state).parts.find(({ id }) => id === "verdict"));
    expect(says.split("The open valves pass")).toHaveLength(2);
  });

  it("of the verdict have their working: every valve's pressures, its gate and the gas it passes", () => {
    const report = reported(demoRun());
    const worked = workedOut(report);
    const outcomes = [...worked.values()];
    const caption = "Mandrels at the pressures read";
    const table = report.parts
      .find(({ id }) => id === "verdict")
      ?.blocks.find((block) => block.kind === "table" && block.caption === caption);
    const mandrels = table?.kind === "table" ? table.rows.map((row) => row.map(textOf)) : [];
    expect(mandrels.length).toBeGreaterThan(3);
    const figures = mandrels.flatMap(([, , ...of]) => of.filter((each) => /psig$/.test(each)));
    expect(figures.length).toBeGreaterThan(12);
    for (const each of figures) expect(outcomes).toContain(each);
    const words = JSON.stringify(report.parts.find(({ id }) => id === "calculations"));
    expect(words).toMatch(/Open or shut, with its doubt \(M\d+\)/);
    expect(words).toContain("by the figures shut, good for");
    expect(words).toContain("Used for the verdict on the well on lift");
    // What the report says the open valves pass stands there as it is said.
    const [, least, most] =
      /pass (\d+ Mscf\/d) to (\d+ Mscf\/d)/.exec(JSON.stringify(report)) ?? [];
    expect(outcomes).toContain(least);
    expect(outcomes).toContain(most);
  });
});

describe("what happened beside the plan", () => {
  const report = reported(eventful.state, "field", [LOST]);
  const all = JSON.stringify(report);

  it("is counted on the page of results and listed", () => {
    const ordinary = factsOf(report, "result").get("Exceptions and deviations");
    for (const kind of ["exception 1", "limit exceeded 1", "correction 1", "contingency 1"]) {
      expect(ordinary).toContain(kind);
    }
    const kinds = rowsOf(report, "out-of-the-ordinary").map(([, , kind]) => kind);
    expect(kinds).toContain("done again");
    expect(factsOf(report, "result").get("Plan against actual")).toContain("over its limit");
  });

  it("shows attempts that were set aside as such", () => {
    const aside = eventful.state.readings.filter(({ setAside }) => setAside);
    expect(aside.length).toBeGreaterThan(0);
    const rows = rowsOf(report, "run-sheet").filter(([, , , says]) => /set aside/.test(says ?? ""));
    expect(rows).toHaveLength(aside.length);
  });

  it("keeps long words whole, and what is asked and answered", () => {
    expect(all).toContain(LONG_NOTE);
    expect(all).toContain("A broken pin, <2 mm, in the sump & no more");
    const said = rowsOf(report, "questions").map(([, , says]) => says);
    expect(said).toEqual(["Which gauge was that?", "The load cell at the hay pulley."]);
    expect(factsOf(report, "result").get("Questions")).toBe("1, all answered");
  });

  it("has the picture that is here, and says which is not", () => {
    const blocks = report.parts.find(({ id }) => id === "photographs")?.blocks ?? [];
    expect(blocks).toMatchObject([
      { kind: "photograph", picture: kept.sha256, caption: expect.stringContaining("Groove") },
      { kind: "words", tone: "problem", text: expect.stringContaining(LOST) },
    ]);
  });
});

describe("how far a record is", () => {
  const first = ({ parts }: ReportDocument) => {
    const [block] = parts[0]?.blocks ?? [];
    return block?.kind === "words" ? block.text : "";
  };

  it("is said on the first page and in the foot until it is closed and approved", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    expect(first(reported(tablet.state))).toContain("Not closed");
    expect(reported(tablet.state).foot).toContain("NOT CLOSED");
    tablet.runTo(undefined);
    tablet.close();
    expect(first(reported(tablet.state))).toContain("not approved yet");
    expect(reported(tablet.state).foot).toContain("NOT APPROVED");
    tablet.actor = engineer;
    tablet.act((s) =>
      review(s, "approved with remarks", "Look in a week.", headsOf(tablet.events)),
    );
    const approved = reported(tablet.state);
    expect(first(approved)).toContain("Invented for the demonstration");
    expect(approved.foot).toContain("Approved with remarks");
    const facts = factsOf(approved, "result");
    expect(facts.get("Decision")).toContain("L. Ashgrove, production engineer");
    expect(facts.get("Remark of the engineer")).toBe("Look in a week.");
    expect(approved.parts.find(({ id }) => id === "signatures")?.blocks.at(-1)).toMatchObject({
      name: "L. Ashgrove",
      of: "The record, approved with remarks",
    });
    tablet.write({ type: "note", text: "slipped in" });
    expect(first(reported(tablet.state))).toContain("after the approval");
  });

  it("says that a log does not hold, and where", () => {
    const events = structuredClone(demoEvents("job-em-03-3"));
    const tenth = events[9];
    if (tenth) events[9] = { ...tenth, at: "2020-01-01T00:00:00.000Z" };
    const report = reported(foldJob(events));
    expect(first(report)).toContain("event 9 was changed");
    expect(report.foot).toContain("DOES NOT HOLD");
    expect(factsOf(report, "result").get("Log")).toContain("it does not hold");
    // The hashes that were left in place are those of the log that was: they would compare as right.
    for (const part of ["result", "log"]) {
      expect(factsOf(report, part).get("Closing hash")).toBe("none: the log does not hold");
    }
    const items = (report.parts.find(({ id }) => id === "log")?.blocks ?? []).flatMap((block) =>
      block.kind === "list" ? block.items.map(textOf) : [],
    );
    expect(items[0]).toContain("Event 9 was changed");
  });

  it("is nothing before a programme is issued", () => {
    const report = reportOf(foldJob([]), NOW, writer("field"), { missing: new Set() });
    expect(report).toBeUndefined();
  });
});

describe("no stage and no unit leaves a hole in the words", () => {
  /** Every text of a document, and every number of its charts. */
  const leaves = (value: unknown): unknown[] =>
    typeof value === "object" && value !== null ? Object.values(value).flatMap(leaves) : [value];

  const stages = [
    ...["job-em-07-3", "job-em-03-3"].map((job) => ({
      name: job,
      state: foldJob(demoEvents(job)),
    })),
    ...[2, 20, 60, 90, 110].map((count) => ({
      name: `job-em-03-3 up to entry ${count}`,
      state: foldJob(demoEvents("job-em-03-3").slice(0, count)),
    })),
    { name: "much happened", state: eventful.state },
    {
      name: "two pockets",
      state: new Tablet().start(twoPocketProgramme()).runTo(undefined, answers).state,
    },
  ];
  it.each(
    stages.flatMap((each) => [
      { ...each, system: "field" as const },
      { ...each, system: "metric" as const },
    ]),
  )("$name, $system", ({ state, system }) => {
    const found = leaves(reported(state, system));
    expect(found.filter((each) => typeof each === "number" && !Number.isFinite(each))).toEqual([]);
    const words = found.filter((each) => typeof each === "string");
    expect(words.filter((each) => /undefined|NaN|\[object|Infinity/.test(each))).toEqual([]);
  });

  it("a calculated figure is in the units that were chosen", () => {
    const blocks = reported(demoRun(), "metric").parts.flatMap((part) => part.blocks);
    const figures = blocks.flatMap((block) =>
      block.kind === "table"
        ? block.rows
            .flat()
            .flatMap((cell) =>
              typeof cell === "object" && cell.tone === "calculated" ? [cell.text] : [],
            )
        : [],
    );
    expect(figures.length).toBeGreaterThan(100);
    expect(figures.filter((each) => /\b(psig?|lbf|ft|°F)\b/.test(each))).toEqual([]);
  });
});
