import { describe, expect, it } from "vitest";
import { backTo, placeIn } from "../../src/ui/RecordEditor/place.ts";

describe("the place of what is lacking", () => {
  it("is a field of a record, with the way back", () => {
    const address = placeIn({ href: "/edit/wells/em-07", field: "crownValveTurns" }, "jobs/j-1");
    expect(address).toBe("/edit/wells/em-07?back=jobs%2Fj-1&at=crownValveTurns");
    expect(backTo(address.split("?")[1] ?? "")).toEqual({
      href: "/jobs/j-1",
      says: "Back to the brief",
    });
    expect(backTo("back=plan")).toEqual({ href: "/plan", says: "Back to the plan" });
  });

  it("names the job that a string is looked at for", () => {
    expect(placeIn({ href: "/strings/s-1" }, "jobs/j-1")).toBe(
      "/strings/s-1?back=jobs%2Fj-1&job=j-1",
    );
    expect(placeIn({ href: "/strings/s-1" }, "plan")).toBe("/strings/s-1?back=plan");
  });

  it.each(["", "back=https://elsewhere", "back=jobs/../..//elsewhere", "back=jobs/"])(
    "leads nowhere else: %s",
    (search) => expect(backTo(search)).toBeUndefined(),
  );
});
