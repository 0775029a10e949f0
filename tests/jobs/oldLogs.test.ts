import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { writer } from "../../src/jobs/display.ts";
import { type JobEvent, jobEvent } from "../../src/jobs/log/event.ts";
import { hashOf, headOf, seal } from "../../src/jobs/log/seal.ts";
import { hadSeen } from "../../src/jobs/log/seen.ts";
import { brokenLinks } from "../../src/jobs/log/verify.ts";
import { holdStates } from "../../src/jobs/state/holdState.ts";
import { foldJob, type JobState, type Reading } from "../../src/jobs/state/jobState.ts";
import { engineer, Tablet } from "./demo.ts";

/**
 * A log of format 1, invented, as it was written when there was no other, with what it was read as then. Tablets
 * carry such logs; whatever the log learns since, they are read as they were.
 */
interface Kept {
  readonly then: {
    readonly stage: string;
    readonly done: readonly string[];
    readonly readings: number;
    readonly readingsHash: string;
    readonly notes: number;
    readonly signatures: number;
    readonly releases: number;
    readonly exceptions: number;
    readonly unfollowed: number;
    readonly holds: Readonly<Record<string, string>>;
    readonly corrected: readonly [string, Reading["original"], Reading["value"]][];
  };
  readonly events: readonly JobEvent[];
}
const { then, events } = JSON.parse(
  readFileSync("tests/jobs/fixtures/format1.json", "utf8"),
) as Kept;

/** What the fold of that time said of a reading. */
const asThen = ({ event, corrections, setAside: _, ...reading }: Reading) => ({
  ...reading,
  corrections: corrections.length,
  event: event.hash,
});

describe("a log of format 1", () => {
  let state: JobState;
  beforeAll(() => {
    state = foldJob([...events].reverse());
  });

  it("is one that a pack may carry, and verifies", () => {
    expect(events.every(({ format }) => format === 1)).toBe(true);
    for (const event of events) {
      expect(jobEvent.safeParse(event).error?.issues ?? [], event.body.type).toEqual([]);
    }
    expect(brokenLinks(events)).toEqual([]);
  });

  it("folds to the same stage, steps and readings", () => {
    expect(state.stage).toBe(then.stage);
    expect([...state.done.keys()]).toEqual(then.done);
    expect(state.readings).toHaveLength(then.readings);
    expect(hashOf(state.readings.map(asThen))).toBe(then.readingsHash);
    expect(state.readings.filter(({ setAside }) => setAside)).toEqual([]);
    expect(state.conflicts.size).toBe(0);
    const corrected = state.readings.filter(({ corrections }) => corrections.length > 0);
    expect(corrected.map(({ field, original, value }) => [field, original, value])).toEqual(
      then.corrected,
    );
    for (const list of ["notes", "signatures", "releases", "exceptions", "unfollowed"] as const) {
      expect(state[list], list).toHaveLength(then[list]);
    }
  });

  it("has the hold points where they stood", () => {
    const holds = holdStates(state, "2026-11-25T06:00:00.000Z", writer("field"));
    expect(Object.fromEntries([...holds].map(([id, { status }]) => [id, status]))).toEqual(
      then.holds,
    );
  });

  it("still shows what was changed in it, taken out of it or put in twice", () => {
    for (const index of [0, 1, 60, events.length - 1]) {
      const changed = structuredClone(events) as JobEvent[];
      const event = changed[index];
      if (!event) throw new Error("no event");
      event.actor = { ...event.actor, name: "Somebody else" };
      expect(brokenLinks(changed), `event ${index}`).toMatchObject([{ what: "changed" }]);
    }
    expect(brokenLinks(events.toSpliced(60, 1))).toMatchObject([{ what: "missing before" }]);
    expect(brokenLinks([...events, events[60] as JobEvent])).toMatchObject([{ what: "twice" }]);
  });

  it("is continued by an event of format 2 that says what it had seen", () => {
    const { device } = events.at(-1) as JobEvent;
    const draft = {
      id: crypto.randomUUID(),
      job: events[0]?.job ?? "",
      at: "2026-11-26T06:00:00.000Z",
      actor: engineer,
      body: { type: "note" as const, text: "read again" },
    };
    for (const of of ["00000000-0000-4000-8000-00000000000c", device]) {
      const [next] = seal([draft], of, headOf(events, of));
      const longer = [...events, next as JobEvent];
      expect(next?.format).toBe(2);
      expect(brokenLinks(longer)).toEqual([]);
      expect(foldJob(longer).notes).toHaveLength(then.notes + 1);
      expect(events.every((event) => hadSeen(next as JobEvent, event))).toBe(true);
      // What it had seen cannot be cut off behind its back.
      expect(brokenLinks(longer.filter((event) => event !== events.at(-1)))).toHaveLength(1);
    }
  });

  it("goes on as a run with what the log has learnt since, when it is sent back", () => {
    const tablet = new Tablet();
    tablet.merge(events);
    tablet.actor = engineer;
    tablet.write({ type: "review", decision: "sent back", heads: {}, remark: "Once more." });
    const [went] = tablet.write({ type: "went back", to: "left-location", reason: "by mistake" });
    expect(tablet.state.stage).toBe("sent back");
    expect(tablet.state.done.has("left-location")).toBe(false);
    expect(tablet.state.doneBefore).toMatchObject([{ step: "left-location", again: went }]);
  });
});
