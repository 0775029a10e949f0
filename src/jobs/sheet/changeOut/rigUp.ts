import {
  adverse,
  answer,
  barriers,
  bothGauges,
  check,
  choice,
  crownTurns,
  hold,
  mustBeYes,
  quantity,
  signature,
  step,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";

export const rigUp: Phase = {
  id: "rig-up",
  title: "Rig up and prove",
  items: [
    step({
      id: "measure-strings",
      title: "Measure and draw the strings",
      instruction:
        "Measure every part: length closed and extended, diameter, fishing neck. Photograph the laid-out strings. A part without dimensions does not go in.",
      caution: "Pinched fingers, falling stem.",
      figures: ["lubricator-spare", "drift-clearance"],
      fields: [
        choice("strings-measured", "Strings as in the programme", [
          ["yes", "Yes, every part"],
          ["no", "No, something differs", adverse],
        ]),
      ],
    }),
    ...barriers("first", "the tree cap comes off", "stack-up"),
    step({
      id: "stack-up",
      title: "Cap off, stack up",
      instruction:
        "Take the cap off. Make up adapter, wireline valves (blowout preventer for line), lubricator with the gauge string pulled into the catcher, packing. Function-test the wireline valves: rams of this wire size, on still wire. Guy it or hang it on the crane.",
      caution: "Lifting. Nobody under the load. Wind above the limit stops the lift.",
      fields: [
        mustBeYes(
          "wire-valves-work",
          "Wireline valves function-tested",
          "The wireline valves were not function-tested, or did not work. Mend that first.",
        ),
      ],
      string: "gauge",
      stringAt: "surface",
    }),
    step({
      id: "low-test",
      title: "Low pressure test",
      instruction:
        "Fill with liquid, vent the air, pump up against the closed crown valve. Hold and watch.",
      caution:
        "Stand clear of the stack while it is under test. A leak is bled off, never tightened under pressure.",
      figures: ["low-test", "low-test-hold"],
      answers: ["low test"],
      fields: [
        quantity("low-start", "Pressure at the start", "pressure"),
        quantity("low-end", "Pressure at the end", "pressure"),
        quantity("low-held", "Time held", "duration"),
      ],
      string: "gauge",
      stringAt: "surface",
      startsEmpty: true,
    }),
    step({
      id: "high-test",
      title: "High pressure test",
      instruction:
        "Pump to the test pressure and hold. Keep the chart. The string does not hang on a union that is tested.",
      caution: "Never above the lowest rating in the stack, hose and gauge included.",
      figures: ["test-pressure", "high-test-hold", "lowest-rating"],
      answers: ["high test"],
      fields: [
        quantity("high-start", "Pressure at the start", "pressure", { most: "lowest-rating" }),
        quantity("high-end", "Pressure at the end", "pressure"),
        quantity("high-held", "Time held", "duration"),
      ],
      string: "gauge",
      stringAt: "surface",
      startsEmpty: true,
    }),
    hold({
      id: "pressure-test-hold",
      title: "Stack pressure-tested",
      purpose: "Before well pressure is let into the stack.",
      conditions: [
        check(
          "wire-valves-there",
          "wire valves in the stack",
          "Wireline valves in the stack",
          undefined,
          ["production engineer", "well owner's representative"],
        ),
        answer(
          "wire-valves-tested",
          "wire-valves-work",
          ["yes"],
          "Wireline valves function-tested",
          "The wireline valves were not function-tested, or did not work. Mend that first.",
        ),
        check("rating", "stack covers the test pressure", "Lowest rating covers the test pressure"),
        check("lubricator", "lubricator length", "Longest string fits with the valve on"),
        answer(
          "strings-as-planned",
          "strings-measured",
          ["yes"],
          "Strings as in the programme",
          "Something differs from the programme's strings: what fits, what passes and what can be fished has changed. Have the planner mend the records, or the engineer accept it.",
          ["production engineer"],
        ),
        check("low", "low test", "Low test held", {
          start: "low-start",
          end: "low-end",
          held: "low-held",
        }),
        check("high", "high test", "High test held", {
          start: "high-start",
          end: "high-end",
          held: "high-held",
        }),
        signature("well owner's representative", "Well owner's representative has seen the test"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "let-in",
    }),
    step({
      id: "let-in",
      title: "Let well pressure in",
      instruction:
        "Inhibitor in if the gas is wet. Open the second valve, turns counted. Equalise over the needle valve, count the seconds, then open the crown valve slowly. Read both gauges.",
      expect: "Pressure in the stack rises to the wellhead pressure and stays.",
      caution:
        "Wet gas that is throttled cools and can freeze. A union is never broken on a suspected plug.",
      figures: ["hydrate-wellhead"],
      answers: ["inside what was tested"],
      fields: [
        crownTurns("open-turns", "Turns of the crown valve to open"),
        ...bothGauges("let-in"),
      ],
      string: "gauge",
      stringAt: "surface",
    }),
    hold({
      id: "push-out-hold",
      title: "Weight beats push-out",
      purpose: "Before the string leaves the lubricator.",
      conditions: [
        check(
          "push-out-ok",
          "push-out beaten",
          "Effective weight beats push-out and packing friction",
        ),
        check("bore-ok", "clear bore", "Largest tool clears the narrowest bore"),
        check("open-full", "full turns", "Crown valve fully open", { opened: "open-turns" }),
        check("tested-ok", "inside what was tested", "Well pressure is inside what was tested", {
          tested: "high-start",
          ended: "high-end",
          "let in": "let-in-wellhead",
        }),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "zero",
    }),
  ],
};
