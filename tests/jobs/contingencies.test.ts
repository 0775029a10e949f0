import { describe, expect, it } from "vitest";
import { noteContingency, openContingency } from "../../src/jobs/commands/contingency.ts";
import { changeOut, changeOutSheet } from "../../src/jobs/sheet/changeOut/changeOut.ts";
import { contingencies } from "../../src/jobs/sheet/changeOut/contingencies.ts";
import { contingenciesAt } from "../../src/jobs/sheet/contingenciesAt.ts";
import { type Contingency, sheet } from "../../src/jobs/sheet/sheet.ts";
import { contingenciesOf, contingencyById, fieldById, stepsOf } from "../../src/jobs/sheet/walk.ts";
import { Tablet } from "./demo.ts";

const caught = changeOutSheet({ work: "change out", kickover: "orienting", catcher: true });

const words = (of: Contingency) =>
  [
    of.title,
    of.stop,
    ...of.makeSafe,
    ...of.tell,
    of.caution ?? "",
    ...of.options.flatMap((option) => [option.label, option.says]),
    ...of.fields.map((field) => field.label),
  ].join(" ");

describe("contingencies", () => {
  it("cover what crews meet", () => {
    expect(contingenciesOf(changeOut).map((each) => each.title)).toEqual([
      "Cannot get down",
      "Tool does not find the sleeve",
      "Pulling tool does not latch",
      "Valve will not come",
      "Running tool sheared early",
      "Pins will not shear",
      "Leak at the packing",
      "Hydrate or ice",
      "Wire parted",
      "Tool blown up the hole",
      "String stuck in the hole",
      "Tools jammed in the lubricator",
      "Leak below the wireline valves",
      "Surge or kick",
      "Gas alarm or H2S",
      "Somebody is hurt",
      "Weather stops the work",
      "Something else",
    ]);
  });

  it.each(contingencies.map((each) => [each.id, each] as const))(
    "%s speaks the trade's words and promises nothing",
    (_, each) => {
      expect(words(each)).not.toMatch(/\bsafe/i);
      // A figure without a source says that it is common practice.
      for (const sentence of words(each).split(/(?<=[.:;]) /)) {
        if (/\d+ (ft|min|lbf|psi)/.test(sentence)) expect(sentence).toContain("common practice");
      }
    },
  );

  it("take a run up again at proved barriers when the string came out for it", () => {
    const out = contingencies.flatMap(({ options }) =>
      options.filter(({ label }) => /come out|came back|all of it is out|next run/i.test(label)),
    );
    expect(out.length).toBeGreaterThanOrEqual(9);
    for (const { id, rejoins } of out) {
      expect(rejoins, id).not.toEqual([]);
      for (const place of rejoins) expect(place, id).toMatch(/-barriers$/);
    }
  });

  it("lead nowhere that lies ahead: each way has a place done before, or where it stood", () => {
    const order = stepsOf(caught).map(({ id }) => id);
    for (const { id, near, options } of contingenciesOf(caught)) {
      for (const at of near) {
        for (const { id: way, rejoins } of options) {
          const reached = rejoins.filter((place) => order.indexOf(place) <= order.indexOf(at));
          if (rejoins.length > 0) expect(reached, `${id}, ${way}, at ${at}`).not.toEqual([]);
        }
      }
    }
  });

  it("take a word on anything, and the pressures with it, at every step", () => {
    const other = contingencyById(changeOut, "something-else");
    expect(other?.near).toEqual([]);
    expect(other?.fields.map(({ kind }) => kind)).toEqual(["text", "quantity", "quantity"]);
    for (const each of contingenciesOf(changeOut)) {
      if (each.near.length > 0) continue;
      expect(
        each.options.some(({ rejoins }) => rejoins.length === 0),
        each.id,
      ).toBe(true);
    }
  });

  it("count what they note of casing and wellhead as readings of those", () => {
    const pressures = contingencies.flatMap(({ fields }) =>
      fields.filter(({ label }) => /^(casing|wellhead) pressure/i.test(label)),
    );
    expect(pressures.length).toBeGreaterThan(8);
    for (const field of pressures) {
      const channel = `${field.label.split(" ")[0]?.toLowerCase()} pressure`;
      expect(field, field.id).toMatchObject({ channel });
    }
  });

  it("void what was released on the pressures when those noted meanwhile are outside of it", () => {
    const tablet = new Tablet().start().runTo("first-blow");
    tablet.act((s) => openContingency(s, "will-not-come"));
    tablet.wait(2);
    const psig = (text: string) => ({ text, unit: "psig" });
    const noted = { "come-casing": psig("1000"), "come-wellhead": psig("250") };
    tablet.act((s) => noteContingency(s, noted, s.now));
    const hold = tablet.hold("level-hold");
    expect(hold).toMatchObject({ status: "voided", stands: false });
    expect(hold.unmet.map(({ says }) => says).join(" ")).toMatch(/Annulus is \d+ psi above tubing/);
  });

  it("have their fields found by id, like those of steps", () => {
    expect(fieldById(changeOut, "come-hits")).toMatchObject({ kind: "count" });
    expect(contingencyById(changeOut, "wire-parted")?.options).toHaveLength(2);
  });

  it("stay with a sheet that a job of before carries without them", () => {
    const { contingencies: _, ...old } = changeOut;
    const parsed = sheet.parse(old);
    expect(parsed).toEqual(old);
    expect(contingenciesOf(parsed)).toEqual([]);
  });

  it("lose the places that a sheet does not have, and with its last place a way out", () => {
    const steps = new Set(stepsOf(changeOut).map((step) => step.id));
    steps.delete("second-barriers");
    const kept = contingenciesAt(contingencies, steps);
    const latch = kept.find((each) => each.id === "no-latch");
    expect(latch?.options.map((option) => option.id)).toEqual(["again"]);
    // "leave-it" was free before and still is.
    const come = kept.find((each) => each.id === "will-not-come");
    expect(come?.options.map((option) => option.rejoins.length > 0)).toEqual([true, true, false]);
    // What can happen anywhere stays on a sheet of any kind.
    expect(contingenciesAt(contingencies, new Set(["zero"])).map((each) => each.id)).toEqual([
      "gas-alarm",
      "hurt",
      "weather",
      "something-else",
    ]);
  });

  it.each<[string, (of: Contingency) => void, string]>([
    ["a place that is not there", (of) => of.near.push("nowhere"), 'names a step "nowhere"'],
    [
      "a way out to a place that is not there",
      (of) => of.options[0]?.rejoins.push("permit-hold"),
      'names a step "permit-hold"',
    ],
    [
      "a field that a step takes already",
      (of) => of.fields.push({ kind: "count", id: "pull-hits", label: "Hits" }),
      'field "pull-hits" is used twice',
    ],
  ])("are refused with %s", (_, spoil, message) => {
    const broken = structuredClone(changeOut);
    spoil(contingenciesOf(broken)[0] as Contingency);
    expect(
      sheet
        .safeParse(broken)
        .error?.issues.map((issue) => issue.message)
        .join(),
    ).toContain(message);
  });
});
