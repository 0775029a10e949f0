import { describe, expect, it } from "vitest";
import { writer } from "../../../src/jobs/display.ts";
import { keepable } from "../../../src/jobs/planning/keep.ts";
import { mendOf } from "../../../src/jobs/planning/mend.ts";
import { propose, refusalFor } from "../../../src/jobs/planning/proposal.ts";
import { worksFor } from "../../../src/jobs/planning/refusal.ts";
import { job as jobSchema } from "../../../src/jobs/records/job.ts";
import type { Valve } from "../../../src/jobs/records/valve.ts";
import type { Library } from "../../../src/jobs/store/library.ts";
import { demo, draftOf, first, lineOf, proposed, withMandrel } from "./office.ts";

const pocket = "em-07-mandrel-2";
const withValves = (change: (valve: Valve) => Valve): Library => ({
  ...demo,
  valves: demo.valves.map(change),
});
const says = (of: ReturnType<typeof proposed>) => of.points.map((point) => point.says).join("\n");

describe("a change-out planned on a well that was worked on before", () => {
  const plan = proposed();

  it("is a job that can be kept and issued, with nothing left to enter", () => {
    expect(plan.points.filter(({ stops }) => stops)).toEqual([]);
    const kept = keepable(plan.job, draftOf());
    expect(kept.ok && jobSchema.parse(kept.job)).toMatchObject({
      well: "em-07",
      mandrel: pocket,
      day: "2026-11-27",
      reason: "Port cut.",
      replacement: "valve-em-2051",
      strings: { gauge: "string-gauge", pull: "string-pull", set: "string-set" },
      line: "line-108",
      stack: "stack-5k",
      policy: "policy-house",
      pins: { material: "brass", count: 2 },
      crew: { supervisor: "R. Tamsin", fieldOperator: "J. Corrow", engineer: "L. Ashgrove" },
    });
    expect(plan.holdPoints).toContain("Equalised before unseating");
  });

  it("says of every line where it comes from", () => {
    for (const line of plan.lines) expect(line.why, line.key).not.toBe("");
    expect(lineOf(plan, `kind of ${pocket}`)).toMatchObject({ source: "on record" });
    expect(lineOf(plan, `opening of ${pocket}`)).toMatchObject({ source: "worked out" });
    expect(lineOf(plan, `opening of ${pocket}`).why).toContain(
      "EM-0712 opens at there by its card",
    );
    expect(lineOf(plan, "policy")).toMatchObject({ source: "only one" });
    expect(lineOf(plan, "wellhead").why).toBe("As in the job on EM-07 of 2026-11-25.");
    // The job of the day after names no engineer: the one before does.
    expect(lineOf(plan, "engineer").why).toBe("As in the job on EM-07 of 2026-11-25.");
  });

  it("takes what the planner puts in the place of a proposal, and goes back to it", () => {
    const mine = proposed({
      mine: { wellhead: { text: "25", unit: "barg" }, supervisor: { text: "N. Other" } },
    });
    expect(mine.job.expected.wellheadPressure).toEqual({ value: 25, unit: "barg" });
    expect(mine.job.crew.supervisor).toBe("N. Other");
    expect(lineOf(mine, "wellhead").source).toBe("yours");
    expect(proposed({ mine: { policy: { text: "" } } }).job.policy).toBeUndefined();
    // A choice that is gone from the library is the proposal again.
    expect(proposed({ mine: { line: { text: "gone" } } }).job.line).toBe("line-108");
  });

  it("does not take what cannot be understood, says so, and keeps what was typed", () => {
    const mine = proposed({ mine: { level: { text: "2,900", unit: "ft" } } });
    expect(mine.job.expected.fluidLevelAlongHole).toBeUndefined();
    const line = lineOf(mine, "level");
    expect(line.kind !== "choice" && line.problem).toContain("could mean 2900 or 2.900");
    const [worst] = mine.points;
    expect(worst).toMatchObject({ weight: "fails", stops: true });
    expect(worst && mendOf(worst, mine)).toMatchObject({ at: "line", key: "level" });
  });
});

describe("which valve goes in", () => {
  const replacement = (of: Parameters<typeof proposed>[0], library?: Library) =>
    lineOf(proposed(of, library), `replacement of ${of?.pockets?.[0]?.mandrel ?? pocket}`);

  it("is the nearest by its card of those that fit and are free", () => {
    const line = replacement({});
    expect(line.kind === "choice" && line.options.map(({ id }) => id)).toEqual([
      "valve-em-2051",
      "valve-em-2052",
    ]);
    expect(line.why).toBe(
      "Nearest of 2 that fit and are free. Its card is 2 psi below what is needed, within the 5 psi allowed.",
    );
    expect(line.kind === "choice" && line.options[1]?.says).toContain("it has to be set again");
  });

  it.each([
    { when: "another size", change: { size: "1-1/2 in" } },
    { when: "another latch", change: { latch: "collet latch" } },
    { when: "another kind", change: { kind: "orifice" } },
    { when: "scrapped", change: { state: "scrapped" } },
    { when: "pulled", change: { state: "pulled" } },
  ] as const)("is not one of $when", ({ change }) => {
    const library = withValves((valve) =>
      valve.id === "valve-em-2051" ? { ...valve, ...change } : valve,
    );
    expect(replacement({}, library)).toMatchObject({ chosen: "valve-em-2052" });
  });

  it("is not one that sits in a pocket, or that another job takes", () => {
    const line = replacement({});
    const offered = line.kind === "choice" ? line.options.map(({ id }) => id) : [];
    expect(offered).not.toContain("valve-em-0712");
    expect(offered).not.toContain("valve-em-2041");
  });

  it("is not one that a mandrel names whose pocket is not known for certain", () => {
    const library = withMandrel(1, { valve: "valve-em-2051", pocketState: "not known" });
    expect(replacement({}, library)).toMatchObject({ chosen: "valve-em-2052" });
  });

  it("is free again when its job was approved and something befell it since", () => {
    const came = { day: "2026-12-02", what: "tested" } as const;
    const library = withValves((valve) =>
      valve.id === "valve-em-2037" ? { ...valve, history: [came] } : valve,
    );
    const stages = new Map([["job-em-03-3", "approved"]] as const);
    const offered = (of: Library) => {
      const plan = propose(draftOf(), { library: of, stages, writer: writer("field") });
      const line = plan && lineOf(plan, `replacement of ${pocket}`);
      return line?.kind === "choice" ? line.options.map(({ id }) => id) : [];
    };
    expect(offered(library)).toContain("valve-em-2037");
    expect(offered(demo)).not.toContain("valve-em-2037");
  });

  it("is a dummy where the pocket is dummied off, and no pressures are asked", () => {
    const plan = proposed({ pockets: [{ mandrel: pocket, work: "pull and dummy off" }] });
    expect(plan.job).toMatchObject({ replacement: "valve-em-2060", design: {} });
    expect(plan.lines.some(({ key }) => key.startsWith("opening"))).toBe(false);
  });

  it("says what to look for where none is free", () => {
    const library = {
      ...demo,
      valves: demo.valves.filter(({ id }) => !id.startsWith("valve-em-205")),
    };
    const plan = proposed({}, library);
    const { why, source } = lineOf(plan, `replacement of ${pocket}`);
    expect(source).toBe("open");
    expect(why).toContain("EM-2041 is taken by the job on EM-07 of 2026-11-25");
    expect(why).toMatch(
      /Look for: injection-operated, 1 in, latch "ring latch, 1 in", port 0.1875 in as EM-0712 has, set to \d+ psig on the test rack at 60 °F/,
    );
    expect(says(plan)).toContain("What goes in: No valve that fits is free.");
  });

  it("is asked for by kind where the pocket is empty or its valve has no record", () => {
    const library = withMandrel(2, { pocketState: "empty", valve: undefined } as never);
    const empty = { pockets: [{ mandrel: pocket, work: "set into an empty pocket" as const }] };
    expect(lineOf(proposed(empty, library), `kind of ${pocket}`)).toMatchObject({ source: "open" });
    const told = proposed(
      { ...empty, mine: { [`kind of ${pocket}`]: { text: "injection-operated" } } },
      library,
    );
    const opening = lineOf(told, `opening of ${pocket}`);
    expect(opening.source).toBe("open");
    expect(opening.why).toContain("Asked of the engineer");
    // Several fit, and which is nearest nobody knows without the opening that is wanted.
    expect(lineOf(told, `replacement of ${pocket}`)).toMatchObject({ chosen: undefined });
  });
});

describe("design pressures", () => {
  it("are those of the last job in the pocket where the well on lift is not known", () => {
    const { onLift: _, ...well } = first(demo.wells.filter(({ id }) => id === "em-07"));
    const library = { ...demo, wells: [well] } as Library;
    const third = "em-07-mandrel-3";
    const plan = proposed({ pockets: [{ mandrel: third, work: "change out" }] }, library);
    expect(plan.job.design).toEqual({
      openingAtMandrel: { value: 1085, unit: "psig" },
      productionAtMandrel: { value: 520, unit: "psig" },
    });
    expect(lineOf(plan, `seat of ${third}`).source).toBe("last job");
    // In another pocket nothing was ever asked for.
    const other = proposed({}, library);
    expect(other.job.design).toEqual({});
    expect(lineOf(other, `seat of ${pocket}`).why).toContain("mend the well's record");
  });
});

describe("what wireline cannot do", () => {
  it("is refused with the reason, and offers no job and no run sheet", () => {
    const library = withMandrel(2, { construction: "conventional" });
    const office = { library, stages: new Map(), writer: writer("field") };
    expect(propose(draftOf(), office)).toBeUndefined();
    const refusal = refusalFor(draftOf(), library);
    expect(refusal?.why).toContain("its valve sits outside, as part of the tubing string");
    expect(refusal?.instead).toContain("the tubing must be pulled");
    // Also as a further pocket of a rig-up that begins elsewhere.
    const both = draftOf({
      pockets: [
        { mandrel: "em-07-mandrel-3", work: "change out" },
        { mandrel: pocket, work: "change out" },
      ],
    });
    expect(propose(both, office)).toBeUndefined();
  });
});

describe("sleeve and kickover tool", () => {
  const mismatch = [
    { sleeve: "no", has: "has no orienting sleeve", carries: "an orienting sleeve" },
    {
      sleeve: "yes",
      has: "has an orienting sleeve",
      carries: "a mandrel without an orienting sleeve",
    },
  ] as const;
  it.each(mismatch)("that do not match are named: sleeve $sleeve", ({ sleeve, has, carries }) => {
    const made = sleeve === "yes" ? "not orienting" : "orienting";
    const library: Library = {
      ...withMandrel(2, { orientingSleeve: sleeve }),
      strings: demo.strings.map((string) => ({
        ...string,
        tools: string.tools.map((tool) => (tool.kickover ? { ...tool, kickover: made } : tool)),
      })),
    };
    const plan = proposed({}, library);
    expect(plan.job.strings.pull).toBeUndefined();
    const [worst] = plan.points;
    expect(worst).toMatchObject({ weight: "fails", stops: true });
    expect(worst?.says).toContain(has);
    expect(worst?.says).toContain(`made for ${carries}`);
    // Taken all the same, it stays named and keeps the plan from being issued.
    const taken = proposed({ mine: { pull: { text: "string-pull" } } }, library);
    expect(says(taken)).toContain(`made for ${carries}`);
  });

  it("are asked for where nobody knows", () => {
    const plan = proposed({}, withMandrel(2, { orientingSleeve: "not known" }));
    const [worst] = plan.points;
    expect(worst?.says).toContain("not known whether it has an orienting sleeve");
    expect(worst && mendOf(worst, plan)).toMatchObject({ at: "record", href: "/edit/wells/em-07" });
  });
});

describe("what is lacking in a record", () => {
  const placeOf = (plan: ReturnType<typeof proposed>, says: string) => {
    const point = plan.points.find((each) => each.says.includes(says));
    return point && mendOf(point, plan);
  };
  const withWell = (lacking: string): Library => ({
    ...demo,
    wells: demo.wells.map((well) => {
      if (well.id !== "em-07") return well;
      const { [lacking]: _, ...rest } = well as unknown as Record<string, unknown>;
      return rest as unknown as typeof well;
    }),
  });

  it("leads to the field of the well that takes it", () => {
    const place = (lacking: string, says: string) => placeOf(proposed({}, withWell(lacking)), says);
    expect(place("crownValveTurns", "Turns of the crown valve")).toMatchObject({
      href: "/edit/wells/em-07",
      field: "crownValveTurns",
    });
    expect(place("tubingLiquidGradient", "Gradient of the tubing liquid")).toMatchObject({
      field: "tubingLiquidGradient",
    });
    const unnamed = proposed({}, withMandrel(2, { latchProfile: undefined }));
    expect(placeOf(unnamed, "latch profile of mandrel 2")).toMatchObject({
      field: "mandrels.1.latchProfile",
    });
  });

  it("leads to the valve that hangs on the string, not to one that stays in another pocket", () => {
    const { length: _, ...pulled } = first(
      demo.valves.filter(({ serial }) => serial === "EM-0712"),
    );
    const others = demo.valves.map(({ length: __, ...valve }) => valve as Valve);
    const taken = { [`replacement of ${pocket}`]: { text: "valve-em-2051" } };
    const isIn = demo.valves.find(({ id }) => id === "valve-em-2051");
    const library = {
      ...demo,
      valves: others.map((valve) => (valve.id === isIn?.id ? isIn : valve)),
    };
    expect(placeOf(proposed({ mine: taken }, library), "length of the valve on it")).toMatchObject({
      href: `/edit/valves/${pulled.id}`,
      field: "length",
    });
  });

  it("puts first, of what is missing, what keeps it from being issued", () => {
    const library = withWell("crownValveTurns");
    const unknown = library.wells.map((well) =>
      well.id === "em-07" ? { ...well, annulusLiquid: { state: "not known" as const } } : well,
    );
    const missing = proposed({}, { ...library, wells: unknown }).points.filter(
      ({ weight }) => weight === "missing",
    );
    expect(missing.map(({ stops }) => stops)).toContain(false);
    expect(missing.map(({ stops }) => stops)).toEqual(
      missing.map(({ stops }) => stops).toSorted((a, b) => Number(b) - Number(a)),
    );
  });
});

describe("several pockets of one rig-up", () => {
  const pockets = [
    { mandrel: pocket, work: "change out" as const },
    { mandrel: "em-07-mandrel-5", work: "pull and dummy off" as const },
  ];

  it("take a valve each, none twice", () => {
    const plan = proposed({ pockets });
    expect(plan.job.also).toEqual([
      {
        mandrel: "em-07-mandrel-5",
        work: "pull and dummy off",
        design: {},
        replacement: "valve-em-2060",
      },
    ]);
    const both = [first(pockets), { mandrel: "em-07-mandrel-1", work: "change out" as const }];
    const { job } = proposed({ pockets: both });
    expect(job.also?.[0]?.replacement).toBe("valve-em-2052");
  });

  it("need a kickover tool that serves all of them", () => {
    const plan = proposed({ pockets }, withMandrel(5, { orientingSleeve: "no" }));
    expect(lineOf(plan, "pull").why).toContain("Mandrel 5 has no orienting sleeve");
  });
});

describe("strings", () => {
  it("that do not pass the narrowest bore are not proposed", () => {
    const library = {
      ...demo,
      wells: demo.wells.map((well) => ({
        ...well,
        restrictions: [
          ...well.restrictions,
          {
            name: "patch",
            kind: "other" as const,
            depthAlongHole: { value: 900, unit: "ft" as const },
            bore: { value: 2.2, unit: "in" as const },
          },
        ],
      })),
    };
    expect(lineOf(proposed({}, library), "pull").why).toContain(
      "Its largest tool, 2.250 in, does not pass the patch of 2.200 in.",
    );
  });

  it("after a gauge that is narrower than they are go down unproved, and the plan says so", () => {
    const library = {
      ...demo,
      strings: demo.strings.map((string) => ({
        ...string,
        tools: string.tools.map((tool) =>
          tool.kind === "gauge cutter"
            ? { ...tool, outsideDiameter: { value: 1.9, unit: "in" as const } }
            : tool,
        ),
      })),
    };
    expect(lineOf(proposed({}, library), "gauge").why).toContain(
      "At 1.900 in it proves no way for the 2.250 in of the strings after it.",
    );
  });
});

describe("equipment of which there are several", () => {
  const other = { ...first(demo.policies), id: "policy-other", name: "Another" };
  it("is the one used last, and says so", () => {
    const library = { ...demo, policies: [other, ...demo.policies] };
    expect(lineOf(proposed({}, library), "policy")).toMatchObject({
      chosen: "policy-house",
      why: "One of 2; as in the job on EM-12 of 2026-11-26.",
    });
  });

  it("is proposed as one to look at where none was used before", () => {
    const library = { ...demo, policies: [other, ...demo.policies], jobs: [] };
    expect(lineOf(proposed({}, library), "policy").why).toBe(
      "One of 2; none was used before: look whether it is the right one.",
    );
  });

  it("that is too weak for the well comes after one that is not", () => {
    const weak = {
      ...first(demo.stacks),
      id: "stack-weak",
      name: "A weak stack",
      items: first(demo.stacks).items.map((item) => ({
        ...item,
        rating: { value: 1000, unit: "psig" as const },
      })),
    };
    const line = lineOf(proposed({}, { ...demo, stacks: [weak, ...demo.stacks] }), "stack");
    expect(line).toMatchObject({ chosen: "stack-5k" });
    expect(line.kind === "choice" && line.options[1]?.says).toContain("is rated 1000 psig");
  });
});

describe("a well that nobody worked on yet", () => {
  it("has what is on record, what is common practice, and open lines for the rest", () => {
    const plan = proposed({}, { ...demo, jobs: [] });
    expect(lineOf(plan, "wellhead").why).toContain(
      "Found on lift on 2026-11-20. Shut in it may stand higher",
    );
    expect(lineOf(plan, "level").source).toBe("open");
    expect(lineOf(plan, "packing").source).toBe("common practice");
    expect(lineOf(plan, "pins.material").why).toContain("common practice");
    expect(lineOf(plan, "supervisor").source).toBe("open");
    // Each of them leads somewhere.
    for (const point of plan.points) expect(mendOf(point, plan), point.says).toBeDefined();
  });
});

describe("keeping a plan", () => {
  it("asks for a reason and a day, and for nothing else", () => {
    const { job } = proposed();
    expect(keepable(job, draftOf({ reason: " " }))).toMatchObject({ ok: false, at: "reason" });
    const { day: _, ...draft } = draftOf();
    expect(keepable(job, draft)).toMatchObject({ ok: false, at: "day" });
    expect(keepable(job, draftOf({ reason: "x".repeat(500) }))).toMatchObject({ at: "reason" });
  });
});

describe("the work that a pocket allows", () => {
  it.each([
    { pocketState: "empty", works: ["set into an empty pocket"] },
    { pocketState: "holds a valve", works: ["change out", "pull and dummy off"] },
  ] as const)("$pocketState", ({ pocketState, works }) => {
    const mandrel = first(first(demo.wells).mandrels);
    expect(worksFor({ ...mandrel, pocketState })).toEqual(works);
  });
});
