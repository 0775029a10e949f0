import { describe, expect, it } from "vitest";
import { notYetExported } from "../../src/jobs/log/exported.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { Tablet } from "./demo.ts";

const log = (count: number, tablet = new Tablet()) => {
  for (let i = 0; i < count; i += 1) tablet.write({ type: "note", text: `${i}` });
  return tablet.events;
};

describe("what has not left the tablet in a file", () => {
  const events = log(5);
  it.each([
    ["everything, while no file was saved", undefined, 5],
    ["nothing, after all of it was saved", headsOf(events), 0],
    ["what came after the last file", headsOf(events.slice(0, 3)), 2],
    ["everything, when the file's log is not this one", headsOf(log(5)), 5],
  ])("is %s", (_, heads, count) => {
    expect(notYetExported(events, heads)).toBe(count);
  });
});
