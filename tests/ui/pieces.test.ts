import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { library } from "../../demo-data/emberMesa.ts";
import { unitsOf } from "../../src/jobs/quantity.ts";
import { type ToolString, toolString } from "../../src/jobs/records/equipment.ts";
import { recordKinds } from "../../src/jobs/store/library.ts";
import { at, check, type Draft, withAt } from "../../src/ui/RecordEditor/draft.ts";
import { isEdited, sections } from "../../src/ui/RecordEditor/fields.ts";
import { initialsOf } from "../../src/ui/Ring/Ring.tsx";
import { spread } from "../../src/ui/WellDrawing/spread.ts";

describe("labels beside the well", () => {
  it("keep their order and their distance, and stay on the paper where there is room", () => {
    const places = fc.array(fc.double({ min: 30, max: 590, noNaN: true }), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(places, (wanted) => {
        const rising = [...wanted].sort((a, b) => a - b);
        const got = spread(rising, 40, 30, 590);
        got.slice(1).forEach((place, i) => {
          expect(place - (got[i] ?? 0)).toBeGreaterThan(40 - 1e-9);
        });
        expect(Math.max(...got)).toBeLessThanOrEqual(590);
        expect(Math.min(...got)).toBeGreaterThan(30 - 1e-9);
      }),
    );
  });
});

describe("units in the editor", () => {
  it("let no atmosphere be entered in gauge, which would count from itself", () => {
    const asked = Object.values(sections).flatMap((all) =>
      all.flatMap(({ fields }) => fields.filter(({ path }) => /atmosphere$/.test(path))),
    );
    expect(asked.map(({ path }) => path)).toEqual(["atmosphere", "card.atmosphere"]);
    for (const field of asked) {
      const units = field.kind === "quantity" ? unitsOf(field.dimension) : [];
      expect(units).toContain("psia");
      expect(units.filter((unit) => unit.endsWith("g"))).toEqual([]);
    }
  });
});

describe("a record while it is changed", () => {
  const draft = (record: object) => structuredClone(record) as Draft;

  it("comes back unchanged when nothing was changed, for every record there is", () => {
    for (const kind of recordKinds.filter(isEdited)) {
      for (const record of library[kind]) {
        expect(check(kind, draft(record)), record.id).toEqual({ ok: true, record });
      }
    }
  });

  it("names the field of what cannot be, one by one", () => {
    const [well] = library.wells;
    let changed = draft(well ?? {});
    changed = withAt(changed, "mandrels.1.depthAlongHole", { value: "32o0", unit: "ft" });
    changed = withAt(changed, "pressures.maximumShutInWellhead", { value: "90000", unit: "psig" });
    changed = withAt(changed, "name", "");
    const checked = check("wells", changed);
    expect(checked.ok).toBe(false);
    if (checked.ok) return;
    expect(checked.problems["mandrels.1.depthAlongHole"]).toContain('"32o0" is not a number');
    expect(checked.problems.name).toBe("Name: nothing entered.");
  });

  it("says by field what the record's own rules refuse", () => {
    const changed = withAt(draft(library.wells[0] ?? {}), "pressures.maximumShutInWellhead", {
      value: "90000",
      unit: "psig",
    });
    const checked = check("wells", changed);
    expect(checked).toMatchObject({
      ok: false,
      problems: {
        "pressures.maximumShutInWellhead":
          "Maximum shut-in wellhead: a pressure lies between -14.7 and 50,000 psig.",
      },
    });
  });

  it("takes no tool of 0, by field, and reads one that was kept before", () => {
    const [string] = library.strings;
    let changed = draft(string ?? {});
    changed = withAt(changed, "tools.0.weight.value", "0");
    changed = withAt(changed, "tools.1.length.value", "-5");
    changed = withAt(changed, "tools.2.outsideDiameter.value", "0");
    changed = withAt(changed, "tools.3.lengthExtended.value", "4");
    const checked = check("strings", changed);
    expect(checked.ok).toBe(false);
    if (checked.ok) return;
    const above = "has to be above 0: measure the part, what has no dimensions does not go in.";
    expect(checked.problems).toEqual({
      "tools.0.weight": `Weight: ${above}`,
      "tools.1.length": `Length, closed: ${above}`,
      "tools.2.outsideDiameter": `Outside diameter: ${above}`,
      "tools.3.lengthExtended": "Length, extended: is less than the length closed.",
    });
    const old = structuredClone(string) as ToolString;
    const [first, ...rest] = old.tools as [ToolString["tools"][number]];
    const kept = { ...old, tools: [{ ...first, weight: { value: 0, unit: "lb" } }, ...rest] };
    expect(toolString.parse(kept)).toEqual(kept);
  });

  it("drops what was entered of a group that is emptied, and of a liquid that does not stand there", () => {
    let changed = draft(library.wells[0] ?? {});
    for (const part of ["specificGravity", "co2", "h2s", "n2"]) {
      changed = withAt(changed, `injectionGas.${part}.value`, "");
    }
    changed = withAt(changed, "annulusLiquid", {
      state: "none",
      topTrueVertical: { value: "3000", unit: "ft" },
      gradient: { value: "0.44", unit: "psi/ft" },
    });
    const checked = check("wells", changed);
    expect(checked.ok).toBe(true);
    if (!checked.ok) return;
    expect(at(checked.record, "injectionGas")).toBeUndefined();
    expect(at(checked.record, "annulusLiquid")).toEqual({ state: "none" });
  });
});

describe("a gas in a record that is changed", () => {
  const emptied = () => {
    let changed = structuredClone(library.wells[0] ?? {}) as Draft;
    for (const part of ["specificGravity", "co2", "h2s", "n2"]) {
      changed = withAt(changed, `injectionGas.${part}.value`, "");
    }
    return changed;
  };
  const percent = (value: string) => ({ value, unit: "mol %" });

  it("may be given by an analysis in place of its gravity", () => {
    let changed = withAt(emptied(), "injectionGas.analysis.methane", percent("91.2"));
    changed = withAt(changed, "injectionGas.analysis.ethane", percent("8.8"));
    const checked = check("wells", changed);
    expect(checked.ok && at(checked.record, "injectionGas")).toEqual({
      analysis: {
        methane: { value: 91.2, unit: "mol %" },
        ethane: { value: 8.8, unit: "mol %" },
      },
    });
  });

  it("says at the analysis that it does not add up, and at the gravity that there are two", () => {
    const short = withAt(emptied(), "injectionGas.analysis.methane", percent("91.2"));
    expect(check("wells", short)).toMatchObject({
      ok: false,
      problems: {
        "injectionGas.analysis.methane": "The fractions add up to 91.20 mol %, not to 100.",
      },
    });
    const both = withAt(
      structuredClone(library.wells[0] ?? {}),
      "injectionGas.analysis.methane",
      percent("100"),
    );
    expect(check("wells", both)).toMatchObject({
      ok: false,
      problems: {
        "injectionGas.specificGravity":
          "Gravity, air = 1: leave it empty: the gas is given by an analysis.",
      },
    });
  });
});

describe("initials", () => {
  it.each([
    ["R. Tamsin", "RT"],
    ["Lee", "L"],
    ["Ana Maria Dow", "AD"],
    ["", ""],
  ])("of %s are %s", (name, letters) => {
    expect(initialsOf(name)).toBe(letters);
  });
});
