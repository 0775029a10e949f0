import { describe, expect, it } from "vitest";
import { goBack } from "../../src/jobs/commands/goBack.ts";
import { correct } from "../../src/jobs/commands/run.ts";
import { settleConflict } from "../../src/jobs/commands/settle.ts";
import { jobEvent } from "../../src/jobs/log/event.ts";
import { latestReading } from "../../src/jobs/state/jobState.ts";
import { Tablet } from "./demo.ts";
import { smallProgramme } from "./smallSheet.ts";

const said = (text: string) => ({ text });
const psig = (text: string) => ({ text, unit: "psig" });
const answers = (pressure: string) => ({ "a-answer": said("yes"), "a-pressure": psig(pressure) });

/** Tablets that have the same log, each with its own device. */
function tablets(count: number) {
  const first = new Tablet("00000000-0000-4000-8000-000000000001").start(smallProgramme());
  const others = Array.from({ length: count - 1 }, (_, i) => {
    const other = new Tablet(`00000000-0000-4000-8000-00000000000${i + 2}`);
    other.merge(first.events);
    return other;
  });
  return [first, ...others];
}

/** Every tablet takes in what the others have. */
function meet(...all: Tablet[]) {
  for (const one of all) for (const other of all) one.merge(other.events);
  for (const one of all) for (const other of all) one.merge(other.events);
}

/** Two tablets, offline, each with its own pressure for step a, then brought together. */
function differing(a = "50", b = "70") {
  const [one, two] = tablets(2) as [Tablet, Tablet];
  one.enter("a", answers(a));
  two.enter("a", answers(b));
  meet(one, two);
  return { one, two };
}

const values = (tablet: Tablet, field = "a-pressure") =>
  (tablet.state.conflicts.get(field) ?? []).map(({ value }) =>
    value.kind === "quantity" ? value.value : value,
  );

const inside = (tablet: Tablet) =>
  tablet.hold("h1").conditions.find(({ condition }) => condition.id === "a-inside");

const settle = (tablet: Tablet, stands: string, field = "a-pressure") =>
  tablet.act((s) => settleConflict(s, field, stands, "Looked at the gauge together."));

const correctTo = (tablet: Tablet, hash: string, pressure: string) =>
  tablet.act((s) =>
    correct(s, { field: "a-pressure", event: { hash } }, psig(pressure), "misread"),
  );

describe("two tablets that read one field differently, offline", () => {
  it("keep open what asks for that field, and nothing else that was read with it", () => {
    const { one } = differing();
    const open = one.hold("h1").unmet.map(({ condition }) => condition.id);
    expect(open).toContain("a-inside");
    expect(open).not.toContain("a-yes");
  });

  it("both stand, and the hold point says so and is locked", () => {
    const { one, two } = differing();
    expect(values(one).sort()).toEqual([50, 70]);
    expect(one.state.readings.filter(({ field }) => field === "a-pressure")).toHaveLength(2);
    expect(inside(one)).toMatchObject({ state: "not known" });
    expect(inside(one)?.says).toContain('Two tablets differ on "Pressure a": 50 psig');
    expect(inside(one)?.says).toContain("70 psig");
    one.sign("h1", "field operator", "J. Corrow");
    expect(() => one.release("h1")).toThrow("Two tablets differ");
    expect(values(two).sort()).toEqual([50, 70]);
  });

  it("who settles picks one; it stands and feeds what follows", () => {
    const { one, two } = differing("50", "170");
    const fifty = one.state.conflicts
      .get("a-pressure")
      ?.find(({ event }) => event.device === one.device);
    const [settled] = settle(two, fifty?.event.hash ?? "");
    expect(jobEvent.safeParse(settled).error?.issues ?? []).toEqual([]);
    expect(two.state.conflicts.size).toBe(0);
    expect(latestReading(two.state, "a-pressure")?.value).toMatchObject({ value: 50 });
    expect(inside(two)).toMatchObject({ state: "met", basis: [settled?.hash] });
    const high = differing("50", "170");
    const other = high.one.state.conflicts
      .get("a-pressure")
      ?.find(({ event }) => event.device === high.two.device);
    settle(high.one, other?.event.hash ?? "");
    expect(latestReading(high.one.state, "a-pressure")?.value).toMatchObject({ value: 170 });
    expect(inside(high.one)?.state).toBe("not met");
  });

  it("is settled once, by the crew, with a reason, for a reading that is one of the two", () => {
    const { one } = differing();
    const [a] = one.state.conflicts.get("a-pressure") ?? [];
    const hash = a?.event.hash ?? "";
    expect(() => settle(one, "0".repeat(64))).toThrow("not one of those that differ");
    expect(() => one.act((s) => settleConflict(s, "a-pressure", hash, " "))).toThrow("Say how");
    settle(one, hash);
    expect(() => settle(one, hash)).toThrow("do not differ any more");
  });

  it("ends with a reading that has seen both", () => {
    const { one } = differing();
    one.enter("a", answers("60"));
    expect(one.state.conflicts.size).toBe(0);
    expect(inside(one)?.state).toBe("met");
  });

  it("does not end with a reading that has seen only its own", () => {
    const [one, two] = tablets(2) as [Tablet, Tablet];
    one.enter("a", answers("50"));
    two.enter("a", answers("70"));
    two.enter("a", answers("80"));
    meet(one, two);
    expect(values(one).sort()).toEqual([50, 80]);
  });

  it("ends with a correction made after they met", () => {
    const { one, two } = differing();
    const mine = one.state.readings.find(
      ({ field, event }) => field === "a-pressure" && event.device === one.device,
    );
    correctTo(two, mine?.event.hash ?? "", "70");
    expect(two.state.conflicts.size).toBe(0);
  });

  it("is none where both read the same", () => {
    const { one } = differing("50", "50");
    expect(one.state.conflicts.size).toBe(0);
    expect(inside(one)?.state).toBe("met");
  });

  it("is none of an attempt that was set aside, and may be one again in the next", () => {
    const { one, two } = differing();
    one.act((s) => goBack(s, "a", "Both read again."));
    expect(one.state.conflicts.size).toBe(0);
    meet(one, two);
    one.enter("a", answers("51"));
    two.enter("a", answers("52"));
    meet(one, two);
    expect(values(one).sort()).toEqual([51, 52]);
  });

  it("is none with a reading whose tablet had not heard that the step is done again", () => {
    const [one, two] = tablets(2) as [Tablet, Tablet];
    one.enter("a", answers("50"));
    one.act((s) => goBack(s, "a", "The gauge was changed."));
    one.enter("a", answers("55"));
    two.enter("a", answers("90"));
    for (let i = 0; i < 6; i += 1) two.write({ type: "note", text: "wind rising" });
    two.enter("a", answers("95"));
    meet(one, two);
    expect(one.state.conflicts.size).toBe(0);
    expect(latestReading(one.state, "a-pressure")?.value).toMatchObject({ value: 55 });
  });
});

describe("three tablets", () => {
  it("that all differ are settled at once", () => {
    const [one, two, three] = tablets(3) as [Tablet, Tablet, Tablet];
    one.enter("a", answers("50"));
    two.enter("a", answers("60"));
    three.enter("a", answers("70"));
    meet(one, two, three);
    for (const each of [one, two, three]) expect(values(each).sort()).toEqual([50, 60, 70]);
    const sixty = one.state.conflicts
      .get("a-pressure")
      ?.find(({ event }) => event.device === two.device);
    settle(three, sixty?.event.hash ?? "");
    meet(one, two, three);
    for (const each of [one, two, three]) {
      expect(each.state.conflicts.size).toBe(0);
      expect(latestReading(each.state, "a-pressure")?.value).toMatchObject({ value: 60 });
    }
  });

  it("of which one had not seen the settling and read otherwise differ again", () => {
    const [one, two, three] = tablets(3) as [Tablet, Tablet, Tablet];
    one.enter("a", answers("50"));
    two.enter("a", answers("60"));
    meet(one, two);
    const [fifty] = one.state.conflicts.get("a-pressure") ?? [];
    settle(one, fifty?.event.hash ?? "");
    three.enter("a", answers("70"));
    meet(one, two, three);
    expect(values(two).sort()).toEqual([50, 70]);
  });

  it("of which two settle one conflict differently, offline, still differ", () => {
    const { one, two } = differing();
    const both = one.state.conflicts.get("a-pressure") ?? [];
    settle(one, both[0]?.event.hash ?? "");
    settle(two, both[1]?.event.hash ?? "");
    meet(one, two);
    expect(values(one).sort()).toEqual([50, 70]);
  });
});

describe("one reading that two tablets correct differently, offline", () => {
  const corrected = (a: string, b: string) => {
    const [one, two] = tablets(2) as [Tablet, Tablet];
    const [reading] = one.enter("a", answers("50"));
    meet(one, two);
    correctTo(one, reading?.hash ?? "", a);
    correctTo(two, reading?.hash ?? "", b);
    meet(one, two);
    return { one, two, hash: reading?.hash ?? "" };
  };

  it("is a conflict: neither correction is lost in silence", () => {
    const { one } = corrected("52", "58");
    expect(values(one).sort()).toEqual([52, 58]);
    expect(inside(one)?.state).toBe("not known");
    expect(latestReading(one.state, "a-pressure")?.corrections).toHaveLength(2);
  });

  it("is none where they correct it alike", () => {
    expect(corrected("52", "52").one.state.conflicts.size).toBe(0);
  });

  it.each([52, 58])("is settled by the correction that stands: %d", (wanted) => {
    const { one, two } = corrected("52", "58");
    const stands = one.state.conflicts
      .get("a-pressure")
      ?.find(({ value }) => value.kind === "quantity" && value.value === wanted);
    const [settled] = settle(one, stands?.standsOn ?? "");
    expect(jobEvent.safeParse(settled).success).toBe(true);
    meet(one, two);
    for (const each of [one, two]) {
      expect(each.state.conflicts.size).toBe(0);
      expect(latestReading(each.state, "a-pressure")?.value).toMatchObject({ value: wanted });
      expect(each.state.readings.filter(({ field }) => field === "a-pressure")).toHaveLength(1);
    }
  });

  it("ends with a correction that has seen both", () => {
    const { one, hash } = corrected("52", "58");
    correctTo(one, hash, "54");
    expect(one.state.conflicts.size).toBe(0);
  });
});

describe("a release while another tablet reads otherwise", () => {
  /** Ticks decide where the log has the other's reading; the outcome must not hang on that. */
  const places = ["before the reading", "before the release", "after the release"] as const;
  const released = (place: (typeof places)[number], pressure: string) => {
    const [one, two] = tablets(2) as [Tablet, Tablet];
    const later = (tablet: Tablet) => {
      for (let i = 0; i < 9; i += 1) tablet.write({ type: "note", text: "wind rising" });
    };
    if (place === "before the reading") later(one);
    if (place === "after the release") later(two);
    two.enter("a", answers(pressure));
    one.enter("a", answers("50"));
    if (place === "before the release") later(one);
    one.sign("h1", "field operator", "J. Corrow");
    one.release("h1");
    meet(one, two);
    return { one, two };
  };

  it.each(places)("is voided by it and names it: %s", (place) => {
    const { one, two } = released(place, "70");
    const hold = one.hold("h1");
    expect(hold.status).toBe("voided");
    expect(hold.voidedBy?.device).toBe(two.device);
    expect(hold.history[0]?.rejected).toBeUndefined();
  });

  it("stands where the other reads the same", () => {
    for (const place of places) {
      expect(released(place, "50").one.hold("h1").status, place).toBe("released");
    }
  });

  it("is voided when the other's reading is settled to stand after the guarded step was done", () => {
    const [one, two] = tablets(2) as [Tablet, Tablet];
    one.enter("a", answers("50"));
    one.sign("h1", "field operator", "J. Corrow");
    one.release("h1");
    one.enter("b", { "b-count": said("1") });
    for (let i = 0; i < 12; i += 1) two.write({ type: "note", text: "wind rising" });
    const [high] = two.enter("a", answers("300"));
    meet(one, two);
    expect(one.hold("h1").status).toBe("released");
    const low = one.state.conflicts
      .get("a-pressure")
      ?.find(({ event }) => event.device === one.device);
    settle(two, low?.event.hash ?? "");
    expect(two.hold("h1").status).toBe("released");
    settle(one, high?.hash ?? "");
    expect(one.hold("h1").status).toBe("voided");
    expect(one.hold("h1").voidedBy?.body.type).toBe("conflict settled");
  });

  it("is not made good by a release that came after another tablet had done the guarded step", () => {
    const [one, two] = tablets(2) as [Tablet, Tablet];
    const work = (tablet: Tablet) => {
      tablet.sign("h1", "field operator", "J. Corrow");
      tablet.release("h1");
    };
    one.enter("a", answers("50"));
    meet(one, two);
    work(one);
    one.enter("b", { "b-count": said("1") });
    two.enter("a", answers("300"));
    for (let i = 0; i < 12; i += 1) two.write({ type: "note", text: "wind rising" });
    two.enter("a", answers("60"));
    work(two);
    meet(one, two);
    const hold = one.hold("h1");
    expect(hold).toMatchObject({ status: "voided", served: true, stands: false });
    expect(hold.history.at(-1)?.rejected).toContain("done on another tablet");
  });

  it("is not taken away by a later one that never counted", () => {
    const [one] = tablets(1) as [Tablet];
    one.enter("a", answers("50"));
    one.sign("h1", "field operator", "J. Corrow");
    one.release("h1");
    one.actor = { name: "E. Rowan", role: "planner" };
    one.write({ type: "hold released", hold: "h1", basis: [] });
    expect(one.hold("h1").history.at(-1)?.rejected).toContain("who may not");
    expect(one.hold("h1").status).toBe("released");
  });
});
