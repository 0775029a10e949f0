import { format, parseISO } from "date-fns";
import { describe, expect, it } from "vitest";
import { goBack } from "../../src/jobs/commands/goBack.ts";
import type { JobEvent } from "../../src/jobs/log/event.ts";
import { reviewRecord } from "../../src/jobs/review/record.ts";
import { foldJob } from "../../src/jobs/state/jobState.ts";
import { Tablet } from "./demo.ts";
import { smallProgramme } from "./smallSheet.ts";

const entries = {
  "a-answer": { text: "yes" },
  "a-pressure": { text: "50", unit: "psig" },
};

/** Two tablets with the same log, then each for itself. */
function tablets(): [Tablet, Tablet] {
  const one = new Tablet("00000000-0000-4000-8000-000000000001").start(smallProgramme());
  const two = new Tablet("00000000-0000-4000-8000-000000000002");
  two.merge(one.events);
  two.actor = { name: "L. Brandt", role: "wireline supervisor" };
  return [one, two];
}

function meet(one: Tablet, two: Tablet) {
  one.merge(two.events);
  two.merge(one.events);
}

const doneIn = (events: readonly JobEvent[]) => {
  const done = events.find(({ body }) => body.type === "step done");
  if (!done) throw new Error("no step was done");
  return done;
};
const named = (tablet: Tablet) =>
  tablet.state.doneApart.map(({ step, other, event }) => [step, other.hash, event.hash]);
const remarks = (tablet: Tablet) =>
  reviewRecord(tablet.state, tablet.clock, tablet.writer).remarkable.filter(
    ({ kind }) => kind === "done on two tablets",
  );

describe("a step that two tablets did without knowing of each other", () => {
  it("is done, keeps both, and the review says who did it and when", () => {
    const [one, two] = tablets();
    const first = doneIn(one.enter("a", entries));
    const second = doneIn(two.enter("a", entries));
    expect(named(one)).toEqual([]);
    meet(one, two);
    for (const tablet of [one, two]) {
      expect(tablet.state.done.get("a")?.hash).toBe(first.hash);
      expect(named(tablet)).toEqual([["a", first.hash, second.hash]]);
      const at = (event: JobEvent) =>
        `on ${format(parseISO(event.at), "d MMM")} at ${format(parseISO(event.at), "HH:mm")}`;
      expect(remarks(tablet).map(({ title, says, event }) => [title, says, event?.hash])).toEqual([
        [
          "Step a",
          `Recorded as done by ${first.actor.name}, wireline supervisor, ${at(first)}, and by L. Brandt, wireline supervisor, ${at(second)}, on two tablets that did not know of each other. What each of them entered is kept.`,
          second.hash,
        ],
      ]);
    }
    expect(foldJob([...one.events].reverse())).toEqual(one.state);
  });

  it("is named once, however often each records it again before and after they meet", () => {
    const [one, two] = tablets();
    const first = doneIn(one.enter("a", entries));
    one.enter("a", entries);
    const second = doneIn(two.enter("a", entries));
    two.enter("a", entries);
    meet(one, two);
    one.enter("a", entries);
    meet(one, two);
    expect(named(two)).toEqual([["a", first.hash, second.hash]]);
    expect(remarks(two)).toHaveLength(1);
  });

  it("is named, too, when one of them went back to it before they met", () => {
    const [one, two] = tablets();
    const first = doneIn(one.enter("a", entries));
    one.act((s) => goBack(s, "a", "The gauge was changed."));
    const second = doneIn(two.enter("a", entries));
    meet(one, two);
    expect(one.state.done.has("a")).toBe(false);
    expect(one.state.doneBefore.map(({ event }) => event.hash)).toEqual([first.hash]);
    expect(named(one)).toEqual([["a", first.hash, second.hash]]);
    expect(remarks(one)).toHaveLength(1);
  });

  it("is nothing of the kind where the second tablet knew of the first", () => {
    const [one, two] = tablets();
    one.enter("a", entries);
    meet(one, two);
    two.enter("a", entries);
    meet(one, two);
    expect(named(one)).toEqual([]);
    expect(remarks(one)).toEqual([]);
  });
});
