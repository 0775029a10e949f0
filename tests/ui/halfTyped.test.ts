import { expect, it } from "vitest";
import { joined } from "../../src/ui/RunSheet/useHalfTyped.ts";

const since = "2026-03-02T08:00:00.000Z";
const gauge = { text: "G-21" };
const found = { since, fields: { casing: { text: "1003" }, gauge: { text: "G-22" } } };

it("brings back what was typed, over what the step held before", () => {
  expect(joined({ gauge }, found, { gauge })).toEqual(found);
});

it("keeps what was typed while that was on its way, and all the rest of what was there", () => {
  const typed = { gauge, casing: { text: "1" } };
  expect(joined(typed, found, { gauge })).toEqual({
    since,
    fields: { casing: { text: "1" }, gauge: { text: "G-22" } },
  });
});

it("keeps a field that was emptied meanwhile empty", () => {
  expect(joined({ gauge: { text: "" } }, found, { gauge }).fields.gauge).toEqual({ text: "" });
});
