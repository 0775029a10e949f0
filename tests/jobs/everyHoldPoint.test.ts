import { describe, expect, it } from "vitest";
import { grantException } from "../../src/jobs/commands/run.ts";
import type { Programme } from "../../src/jobs/records/programme.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import { type Role, roles } from "../../src/jobs/roles.ts";
import { changeOutSheet } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { type SheetOptions, works } from "../../src/jobs/sheet/changeOut/options.ts";
import type { HoldPoint } from "../../src/jobs/sheet/sheet.ts";
import { holdPointsOf, stepById } from "../../src/jobs/sheet/walk.ts";
import { goodRun, planner, programmeFor, supervisor, Tablet } from "./demo.ts";
import { type Broken, type HoldCase, holdCases, unmatched } from "./holdCases.ts";

/**
 * Every hold point of every sheet, condition by condition. The rows are made from the sheets: a hold point or
 * condition that nobody says how to break fails here. The usual sheet comes first; of the others, only what they ask
 * for otherwise.
 */
const variants = works.flatMap((work) =>
  (["orienting", "non-orienting"] as const).flatMap((kickover) =>
    [false, true].map((catcher): SheetOptions => ({ work, kickover, catcher })),
  ),
);
const sheets = variants.map(changeOutSheet);
const asked = new Set<string>();
const holds = variants.flatMap((options) => {
  const sheet = changeOutSheet(options);
  return holdPointsOf(sheet).flatMap((hold) => {
    const asks = JSON.stringify([hold.id, hold.conditions]);
    if (asked.has(asks)) return [];
    asked.add(asks);
    const unusual = [options.work, options.kickover, options.catcher ? "with catcher" : ""];
    const name = options === variants[0] ? hold.id : `${hold.id} (${unusual.join(" ").trim()})`;
    return [{ name, hold, options, sheet }];
  });
});
type At = Pick<(typeof holds)[number], "hold" | "options">;

const cases = holds.flatMap((each) =>
  holdCases(each.sheet, each.hold).map((row) => ({
    ...each,
    ...row,
    name: `${each.name}, ${row.condition.id}`,
  })),
);
type Row = (typeof cases)[number];
const broken = (...by: Broken["by"][]) => cases.filter((each) => by.includes(each.broken.by));

/** A good run as it stood when each hold point came up, unsigned: made once, since every row begins there. */
const arrived = new Map<HoldPoint, Pick<Tablet, "events" | "now">>();
for (const options of new Set(holds.map((each) => each.options))) {
  const tablet = new Tablet().start(programmeFor(options));
  for (const { hold } of holds.filter((each) => each.options === options)) {
    tablet.runTo(hold.id);
    arrived.set(hold, { events: tablet.events, now: tablet.now });
  }
}

/** A tablet whose run stands at a hold point with everything good. */
function at({ hold }: At): Tablet {
  const then = arrived.get(hold);
  if (!then) throw new Error(`never came to ${hold.id}`);
  const tablet = new Tablet();
  tablet.events = then.events;
  tablet.now = then.now;
  return tablet;
}

/** A run of a programme that readiness would not let out: a log from elsewhere may carry it. */
function on(programme: Programme, hold: string): Tablet {
  const tablet = new Tablet();
  tablet.actor = planner;
  const [issued] = tablet.write({ type: "programme issued", revision: 1, programme });
  tablet.actor = supervisor;
  tablet.write({ type: "run started", programme: issued?.hash ?? "" });
  return tablet.runTo(hold, {}, "stood by in a test");
}

/** Takes a step's readings again, one of them bad, stood by where that is in doubt. */
function breakBy(tablet: Tablet, bad: Broken): void {
  if (bad.by === "time") tablet.wait(bad.minutes);
  if (bad.by !== "reading") return;
  const good = goodRun[bad.step]?.fields ?? {};
  tablet.enter(bad.step, { ...good, ...bad.typed }, "stood by in a test");
}

/** Whether the bad answer is one with which work stops: its step is open again, and the hold point waits for that. */
function stops({ sheet, broken: bad }: Row): boolean {
  if (bad.by !== "reading") return false;
  return (stepById(sheet, bad.step)?.fields ?? []).some(
    (field) =>
      field.kind === "choice" &&
      field.choices.some(({ value, stop }) => stop && value === bad.typed[field.id]?.text),
  );
}

/** At the hold point with one condition broken and everything signed that asks for it. */
function brokenAt(row: Row): Tablet {
  const { hold, options, broken: bad } = row;
  const tablet =
    bad.by === "programme" ? on(bad.programme(programmeFor(options)), hold.id) : at(row);
  breakBy(tablet, bad);
  if (bad.by !== "nothing" && !stops(row)) tablet.signAll(hold.id);
  return tablet;
}

const found = (tablet: Tablet, { hold, condition }: HoldCase) => {
  const state = tablet.hold(hold.id).conditions.find((each) => each.condition.id === condition.id);
  if (!state) throw new Error(`no condition ${condition.id}`);
  return state;
};

const REASON = "Looked at on location and agreed by radio.";
const names: Readonly<Record<Role, string>> = {
  planner: "E. Rowan",
  "wireline supervisor": "D. Quill",
  "winch operator": "A. Brack",
  "field operator": "J. Corrow",
  "production engineer": "L. Ashgrove",
  "well owner's representative": "M. Estery",
};
const grant = (
  tablet: Tablet,
  { hold, condition }: Pick<HoldCase, "hold" | "condition">,
  role: Role,
) =>
  tablet.act((s) => grantException(s, hold.id, condition.id, REASON, { name: names[role], role }));

it("has a row for every condition of every hold point, and no row for one that is gone", () => {
  expect(unmatched(sheets)).toEqual([]);
  expect(new Set(cases.map(({ hold }) => hold))).toEqual(new Set(holds.map(({ hold }) => hold)));
});

describe("a hold point is locked, and says why", () => {
  it.each(broken("reading", "programme", "time"))("$name", (row) => {
    const tablet = brokenAt(row);
    const { state, says } = found(tablet, row);
    expect(["not met", "not known"]).toContain(state);
    expect(says).toMatch(row.broken.says);
    expect(tablet.hold(row.hold.id)).toMatchObject({ status: "locked", stands: false });
    expect(() => tablet.release(row.hold.id)).toThrow(stops(row) ? "comes first" : row.broken.says);
  });

  it.each(broken("nothing").filter(({ condition }) => condition.kind === "signature"))(
    "$name, until it is signed",
    (row) => {
      const tablet = at(row);
      expect(() => tablet.release(row.hold.id)).toThrow(row.broken.says);
      tablet.signAll(row.hold.id);
      expect(found(tablet, row).state).toBe("met");
    },
  );

  it.each(broken("nothing").filter(({ condition }) => condition.kind === "reading"))(
    "$name, until it is entered",
    (row) => {
      expect(found(new Tablet().start(programmeFor(row.options)), row).says).toMatch(
        row.broken.says,
      );
      expect(found(at(row), row).state).toBe("met");
    },
  );
});

describe("a hold point is released by whom it names, and by nobody else", () => {
  it.each(holds)("$name", ({ hold, options }) => {
    const tablet = at({ hold, options });
    tablet.signAll(hold.id);
    expect(tablet.hold(hold.id).status).toBe("ready");
    for (const role of roles.filter((each) => !hold.releasedBy.includes(each))) {
      tablet.actor = { name: names[role], role };
      expect(() => tablet.release(hold.id)).toThrow(
        `The ${hold.releasedBy.join(" or ")} releases this hold point; ${names[role]} is here as ${role}.`,
      );
    }
    const before = tablet.events;
    for (const role of hold.releasedBy) {
      tablet.events = before;
      tablet.actor = { name: names[role], role };
      tablet.release(hold.id);
      expect(tablet.hold(hold.id)).toMatchObject({ status: "released", stands: true });
      expect(tablet.hold(hold.id).release?.event.actor).toEqual(tablet.actor);
      expect(() => tablet.release(hold.id)).toThrow("released already");
    }
  });
});

describe("an exception is given with a reason, by whom the condition names, and where it names nobody not at all", () => {
  const may = (row: HoldCase) => row.condition.exceptionBy !== undefined;

  it.each(cases.filter((row) => !may(row) && row.condition.kind !== "reading"))(
    "$name: nobody",
    (row) => {
      const tablet = brokenAt(row);
      for (const role of roles.filter((each) => each !== supervisor.role)) {
        expect(() => grant(tablet, row, role)).toThrow(
          stops(row) ? "comes first" : "admits no exception",
        );
      }
    },
  );

  it.each(cases.filter(may))("$name", (row) => {
    const { hold, condition } = row;
    const by = condition.exceptionBy ?? [];
    const tablet = brokenAt(row);
    const before = tablet.events;
    for (const role of roles.filter((each) => !by.includes(each))) {
      expect(() => grant(tablet, row, role)).toThrow(`Only the ${by.join(" or the ")}`);
    }
    for (const role of by) {
      tablet.events = before;
      const authoriser = { name: names[role], role };
      const ask = (reason: string, name: string) =>
        tablet.act((s) => grantException(s, hold.id, condition.id, reason, { name, role }));
      expect(() => ask("too few", authoriser.name)).toThrow("at least ten letters");
      expect(() => ask(REASON, " ")).toThrow("Enter who authorises it");
      expect(() => ask(REASON, supervisor.name)).toThrow("is another person");
      grant(tablet, row, role);
      expect(found(tablet, row)).toMatchObject({
        state: "excepted",
        exception: { reason: REASON, authoriser },
      });
      expect(() => grant(tablet, row, role)).toThrow("needs no exception");
      // One bad reading can break more than one condition; each is let pass by itself, or keeps it locked.
      for (const other of tablet.hold(hold.id).unmet) {
        expect(() => tablet.release(hold.id)).toThrow(other.says);
        const [its] = other.condition.exceptionBy ?? [];
        if (its) grant(tablet, { hold, condition: other.condition }, its);
      }
      tablet.release(hold.id);
      expect(tablet.hold(hold.id).status).toBe("released under exception");
    }
  });

  it.each(cases.filter((row) => may(row) && row.broken.by === "reading"))(
    "$name: on these readings and no others",
    (row) => {
      const tablet = brokenAt(row);
      for (const { condition } of tablet.hold(row.hold.id).unmet) {
        const [role] = condition.exceptionBy ?? [];
        if (role) grant(tablet, { hold: row.hold, condition }, role);
      }
      tablet.release(row.hold.id);
      breakBy(tablet, row.broken);
      expect(tablet.hold(row.hold.id)).toMatchObject({ status: "voided", stands: false });
    },
  );
});

describe("a release is voided when something it stands on is not so any more", () => {
  const released = (row: Row) => {
    const { hold } = row;
    const tablet = at(row);
    tablet.signAll(hold.id);
    tablet.release(hold.id);
    return tablet;
  };

  it.each(broken("reading"))("$name", (row) => {
    const tablet = released(row);
    tablet.wait(1);
    breakBy(tablet, row.broken);
    const state = tablet.hold(row.hold.id);
    expect(state).toMatchObject({ status: "voided", stands: false, lapsed: false });
    expect(state.voidedBy?.body).toMatchObject({ type: "readings taken" });
    expect(found(tablet, row).says).toMatch(row.broken.says);
    // The step it guards is not to be had until it is released anew, and a step that work stops at is done again.
    const { broken: bad } = row;
    const again = stops(row) && bad.by === "reading" ? bad.step : row.hold.id;
    expect(tablet.current?.id).toBe(again);
    expect(() => tablet.enter(row.hold.guards, goodRun[row.hold.guards]?.fields ?? {})).toThrow(
      again === row.hold.id ? row.hold.title : "comes first",
    );
  });

  it.each(broken("time"))("$name: it lapses", (row) => {
    const tablet = released(row);
    breakBy(tablet, row.broken);
    expect(tablet.hold(row.hold.id)).toMatchObject({ status: "voided", lapsed: true });
    expect(() => tablet.enter(row.hold.guards, {})).toThrow(row.hold.title);
  });

  it.each(holds)("$name: whoever goes on after a stop looks again", ({ hold, options }) => {
    const { id, guards } = hold;
    const next = { name: "T. Ferrow", role: supervisor.role };
    const stops = [
      [
        (tablet: Tablet) =>
          tablet.write({ type: "standby started", reason: "Wind." }, { type: "standby ended" }),
        "The crew stood by",
      ],
      [
        (tablet: Tablet) => {
          tablet.write({
            type: "crew changed",
            by: supervisor,
            to: next,
            state: "Said and heard.",
            drawn: {},
          });
          tablet.actor = next;
        },
        "The crew changed",
      ],
    ] as const;
    for (const [stop, words] of stops) {
      const tablet = at({ hold, options });
      tablet.signAll(id);
      tablet.release(id);
      tablet.wait(1);
      stop(tablet);
      expect(tablet.hold(id)).toMatchObject({ status: "voided", stands: false, unmet: [] });
      // Another one that guards the same step is taken back with it, and may be named first.
      expect(() => tablet.enter(guards, goodRun[guards]?.fields ?? {})).toThrow("The hold point");
      const said = reviewRecord(tablet.state, tablet.clock, tablet.writer).remarkable;
      expect(
        said.find(({ title, kind }) => title === hold.title && kind === "hold point voided")?.says,
      ).toContain(words);
      tablet.release(id);
      expect(tablet.hold(id)).toMatchObject({ status: "released", stands: true });
    }
  });

  it.each(holds)("$name has a condition that a later reading breaks", ({ hold }) => {
    expect(broken("reading").some((row) => row.hold === hold)).toBe(true);
  });
});
