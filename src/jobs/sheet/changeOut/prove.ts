import {
  answer,
  barriers,
  bothGauges,
  check,
  fluidLevelNow,
  hold,
  signature,
  step,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";

export const prove: Phase = {
  id: "prove",
  title: "Prove",
  items: [
    step({
      id: "proof-start",
      title: "Make a difference across the valve",
      instruction:
        "Bleed the side that the programme names, slowly. A check or orifice holds with the tubing above only, a closed valve or dummy both ways as far as rated. Read both gauges at one moment.",
      caution: "Bleed only where the permit allows. H2S, ignition, freezing at the choke.",
      figures: ["proof-difference", "watch"],
      fields: [fluidLevelNow("proof-start"), ...bothGauges("proof-start")],
      startsEmpty: true,
    }),
    step({
      id: "proof-end",
      title: "Read again after the watch",
      instruction: "Watch both gauges, then read them at one moment.",
      expect: "No change. A move of either gauge means packing, latch or seat leaks.",
      figures: ["watch"],
      answers: ["proof of seat"],
      fields: bothGauges("proof-end"),
      startsEmpty: true,
    }),
    hold({
      id: "proof-hold",
      title: "Seated, sheared off, proved",
      purpose: "Before the stack comes off and the well goes back to injection.",
      conditions: [
        answer(
          "shear-clear",
          "shear-sign",
          ["clear"],
          "Clear shear sign",
          "The shear sign was not clear: the valve may be half in. A tag and a light pull decide, nothing is assumed.",
          ["production engineer"],
        ),
        answer(
          "sheared",
          "tool-pins",
          ["sheared"],
          "Pins seen sheared at surface",
          "The pins were not all seen sheared. The next run is a tag and a light pull, nothing is assumed.",
        ),
        answer(
          "left",
          "tool-valve",
          ["left in pocket"],
          "Valve is not on the tool",
          "The valve came back on the tool. It is not set.",
        ),
        check(
          "holds",
          "proof of seat",
          "The valve holds a difference",
          {
            "start casing": "proof-start-casing",
            "start wellhead": "proof-start-wellhead",
            "end casing": "proof-end-casing",
            "end wellhead": "proof-end-wellhead",
          },
          ["production engineer"],
        ),
        signature("production engineer", "Production engineer accepts the proof"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "stack-off",
    }),
    ...barriers("fifth", "the stack comes off", "stack-off"),
  ],
};
