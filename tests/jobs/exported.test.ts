import { describe, expect, it } from "vitest";
import { notYetExported } from "../../src/jobs/log/exported.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { Tablet } from "./demo.ts";

describe("what has not left the tablet in a file", () => {
  const tablet = new Tablet();
  for (let count = 1; count <= 5; count += 1) tablet.write({ type: "note", text: `${count}` });
  const { events, device } = tablet;
  const other = new Tablet();
  other.write({ type: "note", text: "on another tablet" });

  it.each([
    ["everything, while no file was saved", undefined, 5],
    ["nothing, after all of it was saved", headsOf(events), 0],
    ["what came after the last file", headsOf(events.slice(0, 3)), 2],
    ["everything, when the file held another log", headsOf(other.events), 5],
  ])("is %s", (_, heads, count) => {
    expect(notYetExported(events, device, heads)).toBe(count);
  });

  it("is nothing of what came from another tablet: that one has it", () => {
    expect(notYetExported(other.events, device, undefined)).toBe(0);
  });
});
