import type { CheckName } from "../checks/checkNames.ts";
import type { Dimension } from "../quantity.ts";
import type { Channel } from "../results/measurements.ts";
import type { ResultId } from "../results/traced.ts";
import type { Role } from "../roles.ts";
import type { Condition, Field, HoldPoint, SheetItem, Step } from "./sheet.ts";

/** Short ways to write a sheet's parts, so that a sheet reads like a sheet. */

interface QuantityOptions {
  readonly channel?: Channel;
  readonly expected?: ResultId;
  /** the policy's band about what is expected */
  readonly band?: "pull" | "pressure" | "depth";
  readonly most?: ResultId;
  readonly optional?: boolean;
  /** the last reading of its channel is offered as a tap */
  readonly asBefore?: boolean;
}

export const quantity = (
  id: string,
  label: string,
  dimension: Dimension,
  options: QuantityOptions = {},
): Field => ({ kind: "quantity", id, label, dimension, ...options });

/** A depth along hole. */
export const depth = (id: string, label: string, options: QuantityOptions = {}): Field => ({
  kind: "quantity",
  id,
  label: `${label}, along hole`,
  dimension: "length",
  alongHole: true,
  ...options,
});

export const words = (id: string, label: string, optional = false): Field => ({
  kind: "text",
  id,
  label,
  ...(optional && { optional }),
});

/** A serial number, which a camera may read. */
export const serial = (id: string, label: string): Field => ({
  kind: "text",
  id,
  label,
  serial: true,
});

export const person = (id: string, label: string): Field => ({
  kind: "text",
  id,
  label,
  person: true,
});

export const count = (id: string, label: string): Field => ({ kind: "count", id, label });

export const crownTurns = (id: string, label: string): Field => ({
  kind: "count",
  id,
  label,
  crownValveTurns: true,
});

type ChoiceField = Extract<Field, { kind: "choice" }>;

/** An answer: what is stored, what is read, and what follows from it. One that stops the work is adverse, too. */
type Answer = readonly [
  value: string,
  label: string,
  follows?: Pick<ChoiceField["choices"][number], "adverse" | "stop" | "pocketHolds">,
];

export const choice = (
  id: string,
  label: string,
  answers: readonly Answer[],
  optional = false,
): Field => ({
  kind: "choice",
  id,
  label,
  ...(optional && { optional }),
  choices: answers.map(([value, text, follows]) => ({
    value,
    label: text,
    ...follows,
    ...(follows?.stop !== undefined && { adverse: true }),
  })),
});

/** Yes or no, where no stops the work. */
export const mustBeYes = (id: string, label: string, stop: string): Field =>
  choice(id, label, [
    ["yes", "Yes"],
    ["no", "No", { stop }],
  ]);

/** Answers that an engineer looks at. */
export const adverse = { adverse: true } as const;

export const step = (of: Step): SheetItem => ({ type: "step", step: of });
/** Whoever goes on after a crew change or a stand-by looks at it again. */
export const hold = (of: HoldPoint): SheetItem => ({
  type: "hold",
  hold: { ...of, releasedAnewAfterStop: true },
});

export const answer = (
  id: string,
  field: string,
  oneOf: string[],
  text: string,
  otherwise: string,
  exceptionBy?: Role[],
): Condition => ({
  kind: "answer",
  id,
  field,
  oneOf,
  text,
  otherwise,
  ...(exceptionBy && { exceptionBy }),
});

export const check = (
  id: string,
  name: CheckName,
  text: string,
  fields?: Record<string, string>,
  exceptionBy?: Role[],
): Condition => ({
  kind: "check",
  id,
  check: name,
  text,
  ...(fields && { fields }),
  ...(exceptionBy && { exceptionBy }),
});

export const signature = (role: Role, text: string): Condition => ({
  kind: "signature",
  id: `signed by ${role}`,
  role,
  text,
});

/**
 * Two proved barriers before the well is opened to atmosphere: a step that records them and the hold
 * point that stands on it. The same every time, since a crew that knows it by heart does it faster.
 *
 * @param name   unique within the sheet, e.g. `first`
 * @param before what is about to be opened, e.g. `the tree cap comes off`
 * @param guards the step that opens
 * @param allOut the field that says the string just run is in the lubricator, where one was
 */
export function barriers(
  name: string,
  before: string,
  guards: string,
  allOut?: string,
): SheetItem[] {
  const held: readonly Answer[] = [
    ["held", "Held, no flow"],
    ["leaks", "Leaks", adverse],
  ];
  return [
    step({
      id: `${name}-barriers`,
      title: "Close and prove two barriers",
      instruction: `Close the crown valve and a second valve, turns counted. Inflow-test each by itself, bleed the cavity, watch the gauge stay at zero. Then ${before}.`,
      ...(allOut !== undefined && {
        expect: "A short count can mean that the string hangs across the valve.",
      }),
      caution:
        "Look for trapped pressure before and while anything is loosened. No hammering on pressure.",
      fields: [
        crownTurns(`${name}-turns`, "Turns of the crown valve to close"),
        choice(`${name}-crown`, "Crown valve, inflow test", held),
        words(`${name}-second-is`, "Second barrier is"),
        choice(`${name}-second`, "Second barrier, inflow test", held),
        quantity(`${name}-cavity`, "Cavity pressure after bleeding", "pressure"),
        choice(`${name}-trapped`, "Trapped pressure", [
          ["none", "Looked for, none found"],
          ["bled", "Found, and bled to zero"],
          [
            "not looked",
            "Not looked for",
            { stop: "Look for trapped pressure at every union and cavity that will be opened." },
          ],
        ]),
      ],
      startsEmpty: true,
    }),
    hold({
      id: `${name}-barriers-hold`,
      title: "Two barriers proved",
      purpose: `Before ${before}.`,
      conditions: [
        ...(allOut === undefined
          ? []
          : [
              answer(
                `${name}-all-out`,
                allOut,
                ["yes"],
                "Every tool counted in the lubricator",
                "The tools were not all counted in the lubricator: something may hang across the valve. Open it, pull up, count again.",
              ),
            ]),
        check(`${name}-full-turns`, "full turns", "Full turns on the crown valve", {
          closed: `${name}-turns`,
        }),
        answer(
          `${name}-crown-held`,
          `${name}-crown`,
          ["held"],
          "Crown valve holds",
          "The crown valve leaks: it is no barrier. Grease or cycle it, or close another valve and test that.",
        ),
        answer(
          `${name}-second-held`,
          `${name}-second`,
          ["held"],
          "Second barrier holds",
          "The second barrier leaks. Two are wanted before anything is opened.",
          // Only where the tree has no second valve; whoever owns the well says so by name.
          ["well owner's representative"],
        ),
        {
          kind: "within",
          id: `${name}-zero`,
          text: "Zero proved in the cavity",
          field: `${name}-cavity`,
          least: -1,
          most: 0,
          unit: "psig",
          otherwise:
            "Zero is not proved in the cavity. Bleed it, find where pressure comes from or why the gauge does not read, and read zero before anything is opened.",
        },
        answer(
          `${name}-trapped-ok`,
          `${name}-trapped`,
          ["none", "bled"],
          "Trapped pressure looked for",
          "Trapped pressure was not looked for. Look at every union and cavity that will be opened.",
        ),
      ],
      releasedBy: ["wireline supervisor"],
      guards,
    }),
  ];
}

/**
 * The plan agreed before anything that holds a difference is unseated: by which route it is levelled, what the
 * checks below do, how long it has to stay level, and which barrier stands meanwhile. `planAgreed` are the
 * conditions that go with it.
 *
 * @param name   unique within the sheet, e.g. `level`
 * @param before what is about to be done, e.g. `the valve is unseated`
 */
export const equalisingPlan = (name: string, before: string): SheetItem =>
  step({
    id: `${name}-plan`,
    title: "Agree how to equalise",
    instruction: `With the field operator, before ${before}: by which route the two sides are brought level, how long they have to stay so, and what holds the well meanwhile.`,
    caution: "Each route has its own permission. What is bled goes where the permit allows.",
    figures: ["watch"],
    answers: ["steady time agreed"],
    fields: [
      choice(`${name}-route`, "Route", [
        ["waited", "Shut in and wait"],
        ["bled annulus", "Bleed the annulus"],
        ["jumper", "Equalise through a jumper"],
        ["gas to tubing", "Gas into the tubing"],
        ["filled", "Fill the tubing"],
      ]),
      choice(`${name}-lower-checks`, "Checks of the valves below", [
        ["hold", "Hold, as far as known"],
        ["none below", "No valve below"],
        ["leak", "Leak, or stuck open", adverse],
        ["not known", "Not known", adverse],
      ]),
      quantity(`${name}-time`, "Has to stay level for", "duration"),
      words(`${name}-barrier`, "Barrier that stands meanwhile"),
    ],
  });

export const planAgreed = (name: string): Condition[] => [
  {
    kind: "reading",
    id: `${name}-route-agreed`,
    text: "Equalising route agreed",
    field: `${name}-route`,
  },
  answer(
    `${name}-checks-known`,
    `${name}-lower-checks`,
    ["hold", "none below"],
    "Checks below hold",
    "The checks below leak or are not known: what is levelled refills through them, and tubing pressure can go to the annulus. The engineer decides how the pocket is opened.",
    ["production engineer"],
  ),
  check(`${name}-time-agreed`, "steady time agreed", "Steady time not below the policy's", {
    time: `${name}-time`,
  }),
  {
    kind: "reading",
    id: `${name}-barrier-named`,
    text: "Barrier named that stands meanwhile",
    field: `${name}-barrier`,
  },
];

const BROKEN_UNION = "A union that was broken is tested before it sees the well. Test it first.";

/** The union that was broken for a string: to which pressure it was tested, and whether it held. `unionProved` stands on it. */
export const unionTest = (name: string): Field[] => [
  quantity(`${name}-union-pressure`, "Broken union tested to", "pressure"),
  mustBeYes(`${name}-union`, "Broken union held", BROKEN_UNION),
];

export const unionProved = (name: string): Condition[] => [
  answer(`${name}-union-tested`, `${name}-union`, ["yes"], "Broken union held", BROKEN_UNION),
  check(
    `${name}-union-covers`,
    "union covers the well",
    "Broken union tested to what the well can put on it",
    { tested: `${name}-union-pressure` },
  ),
];

/** Both gauges, read at one moment. */
export const bothGauges = (name: string): Field[] => [
  quantity(`${name}-casing`, "Casing pressure at surface", "pressure", {
    channel: "casing pressure",
  }),
  quantity(`${name}-wellhead`, "Wellhead pressure", "pressure", { channel: "wellhead pressure" }),
];

/** The level the columns are worked out from: filling, gas or an open pocket moves it, so it is asked for anew. */
export const fluidLevelNow = (name: string): Field =>
  depth(`${name}-level`, "Fluid level in the tubing now", {
    channel: "fluid level",
    asBefore: true,
  });

/** The same after a side was bled: it is not where it was, and what was read before is not offered. */
export const fluidLevelAnew = (name: string): Field =>
  depth(`${name}-level`, "Fluid level in the tubing now", { channel: "fluid level" });

/** What hurts when a string comes out, whatever hangs on it. */
export const comingOut =
  "Pulled hard into the stuffing box the line parts at the socket and the string drops. Gas comes out with the line: watch packing and wind. Tools jammed in the lubricator can hang across the valve.";
