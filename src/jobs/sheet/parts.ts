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
  readonly most?: ResultId;
  readonly optional?: boolean;
}

export const quantity = (
  id: string,
  label: string,
  dimension: Dimension,
  options: QuantityOptions = {},
): Field => ({ kind: "quantity", id, label, dimension, ...options });

export const words = (id: string, label: string, optional = false): Field => ({
  kind: "text",
  id,
  label,
  ...(optional && { optional }),
});

export const count = (id: string, label: string, optional = false): Field => ({
  kind: "count",
  id,
  label,
  ...(optional && { optional }),
});

export const choice = (
  id: string,
  label: string,
  choices: readonly (readonly [value: string, label: string])[],
): Field => ({
  kind: "choice",
  id,
  label,
  choices: choices.map(([value, text]) => ({ value, label: text })),
});

export const step = (of: Step): SheetItem => ({ type: "step", step: of });
export const hold = (of: HoldPoint): SheetItem => ({ type: "hold", hold: of });

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
 * @param turns  whether the crown valve's turns are counted here because a string came through it
 */
export function barriers(
  name: string,
  before: string,
  guards: string,
  stringCameOut: boolean,
): SheetItem[] {
  const held = [
    ["held", "Held, no flow"],
    ["leaks", "Leaks"],
  ] as const;
  return [
    step({
      id: `${name}-barriers`,
      title: "Close and prove two barriers",
      instruction: `Close the crown valve and count its turns, close a second valve. Inflow-test each by itself, bleed the cavity and watch the gauge stay at zero. Then ${before}.`,
      expect: stringCameOut
        ? "The full number of turns. A short count can mean that the string hangs across the valve."
        : "The full number of turns on each valve, written on the board.",
      caution:
        "Look for trapped pressure before and while anything is loosened. No hammering on pressure.",
      fields: [
        count(`${name}-turns`, "Turns of the crown valve to close"),
        choice(`${name}-crown`, "Crown valve, inflow test", held),
        choice(`${name}-second`, "Second barrier, inflow test", held),
        quantity(`${name}-cavity`, "Cavity pressure after bleeding", "pressure"),
      ],
    }),
    hold({
      id: `${name}-barriers-hold`,
      title: "Two barriers proved",
      purpose: `Before ${before}.`,
      conditions: [
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
          kind: "at most",
          id: `${name}-zero`,
          text: "Zero proved in the cavity",
          field: `${name}-cavity`,
          value: 0,
          unit: "psig",
          otherwise:
            "Pressure stands in the cavity. Bleed it, find where it comes from, and read zero before anything is opened.",
        },
      ],
      releasedBy: ["wireline supervisor"],
      guards,
    }),
  ];
}

/** Both gauges, read at one moment. */
export const bothGauges = (name: string): Field[] => [
  quantity(`${name}-casing`, "Casing pressure at surface", "pressure", {
    channel: "casing pressure",
  }),
  quantity(`${name}-wellhead`, "Wellhead pressure", "pressure", { channel: "wellhead pressure" }),
];
