import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { inOrder, union } from "../../src/jobs/log/order.ts";
import { eventHash, hashOf } from "../../src/jobs/log/seal.ts";
import { brokenLinks, describeBroken } from "../../src/jobs/log/verify.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { Tablet } from "./demo.ts";

describe("hashing", () => {
  it("is SHA-256 of canonical JSON: the worked example of RFC 8785", () => {
    // RFC 8785, section 3.2.2 and 3.2.4: sample input and its canonical form; SHA-256 by Node's own crypto.
    const sample = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    const canonical =
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}';
    expect(hashOf(sample)).toBe(createHash("sha256").update(canonical, "utf8").digest("hex"));
  });

  it("does not depend on the order of keys", () => {
    expect(hashOf({ a: 1, b: [2, { c: 3, d: 4 }] })).toBe(hashOf({ b: [2, { d: 4, c: 3 }], a: 1 }));
  });
});

function someNotes(tablet: Tablet, count: number) {
  for (let i = 0; i < count; i += 1) tablet.write({ type: "note", text: `note ${i}` });
  return tablet.events;
}

describe("a device's chain", () => {
  it("holds when nothing was touched", () => {
    expect(brokenLinks(someNotes(new Tablet(), 5))).toEqual([]);
  });

  it("shows every change of any one event, wherever it is", () => {
    const events = someNotes(new Tablet(), 6);
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 5 }),
        fc.constantFrom("text", "actor", "at", "tick", "id", "previous"),
        (index, what) => {
          const changed = structuredClone(events) as JobEvent[];
          const event = changed[index] as JobEvent;
          if (what === "text") event.body = { type: "note", text: "another text" };
          if (what === "actor") event.actor = { ...event.actor, name: "Somebody else" };
          if (what === "at") event.at = "2020-01-01T00:00:00.000Z";
          if (what === "tick") event.tick += 1;
          if (what === "id") event.id = crypto.randomUUID();
          if (what === "previous") event.previous = "0".repeat(64);
          expect(brokenLinks(changed)).toHaveLength(1);
        },
      ),
    );
  });

  it("shows a changed event even when its own hash was made to fit", () => {
    const events = structuredClone(someNotes(new Tablet(), 4)) as JobEvent[];
    const event = events[1] as JobEvent;
    event.body = { type: "note", text: "forged" };
    event.hash = eventHash(event);
    const [broken] = brokenLinks(events);
    expect(broken).toMatchObject({ sequence: 3, what: "not continuing" });
    expect(describeBroken(broken as never)).toContain("event 3");
  });

  it("shows an event that was taken out, and one that was put in twice", () => {
    const events = someNotes(new Tablet(), 4);
    expect(brokenLinks(events.toSpliced(1, 1))).toMatchObject([{ what: "missing before" }]);
    const twin = { ...(events[1] as JobEvent), hash: "f".repeat(64) };
    expect(brokenLinks([...events, twin])).toMatchObject([{ what: "twice" }]);
  });
});

describe("chains that saw each other", () => {
  /** One device writes, another takes it in and writes, and back. */
  const both = () => {
    const a = new Tablet();
    const b = new Tablet();
    someNotes(a, 2);
    b.merge(a.events);
    someNotes(b, 2);
    a.merge(b.events);
    someNotes(a, 1);
    return { a, b };
  };

  it("are whole together", () => {
    expect(brokenLinks(both().a.events)).toEqual([]);
  });

  it("show that the other's last event was taken out", () => {
    const { a, b } = both();
    const cut = a.events.filter((event) => event.device !== b.device || event.sequence < 2);
    const [broken] = brokenLinks(cut);
    expect(broken).toMatchObject({ what: "missing from another device", sequence: 4 });
    expect(describeBroken(broken as never)).toContain("place 4");
  });

  it("show that an event a review had signed is gone", () => {
    const { a, b } = both();
    const head = a.events.find((event) => event.device === b.device && event.sequence === 2);
    a.write({ type: "review", decision: "approved", heads: { [b.device]: "0".repeat(64) } });
    expect(head).toBeDefined();
    expect(brokenLinks(a.events)).toMatchObject([{ what: "signed and gone" }]);
  });

  it("show an event that says it came before the one it continues", () => {
    const events = structuredClone(someNotes(new Tablet(), 3)) as JobEvent[];
    const last = events[2] as JobEvent;
    last.tick = 2;
    last.hash = eventHash(last);
    expect(brokenLinks(events)).toMatchObject([{ what: "out of order", sequence: 3 }]);
  });
});

describe("two tablets on one job", () => {
  it("merge by union into one order, whichever way round, whatever their clocks say", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.boolean(), fc.integer({ min: -600, max: 600 }), fc.boolean()), {
          maxLength: 20,
        }),
        (moves) => {
          const a = new Tablet("00000000-0000-4000-8000-00000000000a");
          const b = new Tablet("00000000-0000-4000-8000-00000000000b");
          for (const [onA, clockJump, sync] of moves) {
            const tablet = onA ? a : b;
            tablet.wait(clockJump);
            tablet.write({ type: "note", text: "x" });
            if (sync) {
              const both = [...union(a.events, b.events)];
              a.events = both;
              b.events = both;
            }
          }
          const there = union(a.events, b.events);
          const back = union(b.events, a.events);
          expect(there.map((e) => e.hash)).toEqual(back.map((e) => e.hash));
          expect(brokenLinks(there)).toEqual([]);
          for (const device of [a.device, b.device]) {
            const own = there.filter((e) => e.device === device).map((e) => e.sequence);
            expect(own).toEqual([...own].sort((x, y) => x - y));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it("orders a correction behind the reading it corrects although that clock ran ahead", () => {
    const a = new Tablet().start();
    a.now = new Date("2030-01-01T00:00:00Z");
    const [reading] = a.write({
      type: "readings taken",
      step: "as-found",
      takenAt: a.clock,
      entries: [{ field: "gauges", value: { kind: "text", text: "G-1" } }],
    });
    const b = new Tablet();
    b.events = a.events;
    b.write({
      type: "correction",
      corrects: reading?.hash ?? "",
      field: "gauges",
      value: { kind: "text", text: "G-2" },
      reason: "misread",
    });
    const state = foldJob([...b.events].reverse());
    expect(state.readings[0]?.value).toEqual({ kind: "text", text: "G-2" });
    expect(state.readings[0]?.original).toEqual({ kind: "text", text: "G-1" });
    expect(inOrder(b.events)).toEqual(b.events);
  });
});
