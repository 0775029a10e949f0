import {
  adverse,
  answer,
  barriers,
  check,
  choice,
  comingOut,
  depth,
  hold,
  mustBeYes,
  person,
  quantity,
  step,
  words,
} from "../parts.ts";
import type { Field, Phase } from "../sheet.ts";

/** Line pull at one stop on the way down, with its depth. */
const weights = (name: string, stop: string): Field[] => [
  depth(`${name}-stop`, stop),
  quantity(`${name}-hanging`, `${stop}: line pull hanging`, "force", { most: "largest-pull" }),
  quantity(`${name}-pick-up`, `${stop}: picking up`, "force", { most: "largest-pull" }),
  quantity(`${name}-slack-off`, `${stop}: slacking off`, "force"),
];

/**
 * The gauge before every other string.
 *
 * @param next the step at which the next string goes on
 * @param name of the barriers before it
 */
export const gaugeRun = ({
  next,
  name,
}: {
  readonly next: string;
  readonly name: string;
}): Phase => ({
  id: "gauge",
  title: "Gauge run",
  items: [
    step({
      id: "zero",
      title: "Zero the counter",
      instruction:
        "A named point of the string at a named reference, counter set to the depth reference. A second person looks.",
      figures: ["depth-reference"],
      fields: [words("zero-at", "Zero taken at"), person("zero-seen", "Second person")],
      string: "gauge",
      stringAt: "surface",
    }),
    step({
      id: "friction",
      title: "Measure packing friction",
      instruction:
        "In the first 100 ft, dead slow: note the line pull moving in and moving out. Half of the difference is packing friction.",
      expect: "Moving out pulls more than moving in.",
      answers: ["push-out beaten"],
      fields: [
        quantity("pull-in", "Line pull moving in", "force", { channel: "pull going in" }),
        quantity("pull-out", "Line pull moving out", "force", { channel: "pull coming out" }),
        quantity("line-angle", "Angle between the lines at the hay pulley", "line angle", {
          channel: "line angle",
          optional: true,
        }),
      ],
      string: "gauge",
      stringAt: "surface",
    }),
    hold({
      id: "friction-hold",
      title: "Push-out beaten by what was measured",
      purpose: "Before the string goes down on its own weight.",
      conditions: [
        check(
          "friction-push-out",
          "push-out beaten",
          "Effective weight beats push-out and the friction measured",
        ),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "weights-down",
    }),
    step({
      id: "weights-down",
      title: "First weights on the way down",
      instruction:
        "Stop every 1,000 to 2,000 ft (common practice) and weigh: hanging, picking up, slacking off. Note two of the stops at least.",
      expect:
        "Picking up pulls more than hanging, slacking off less; the gap grows with angle. It shows the drag before it matters.",
      caution: "Dead slow through tree, hanger, safety valve, nipples and mandrels.",
      fields: [...weights("upper", "Upper stop"), ...weights("lower", "Lower stop")],
      string: "gauge",
    }),
    step({
      id: "gauge-down",
      title: "Run the gauge below the mandrel",
      instruction:
        "On down, dead slow at nipples and mandrels; pass the target twice. Mark the fluid level. Weigh at the mandrel.",
      expect:
        "At the fluid level weight falls a little and the string falls more slowly. Sitting down: weight goes while the counter still turns. Stop at once.",
      caution: "Slack wire makes a nest in seconds.",
      figures: ["target-depth", "hanging-gauge"],
      fields: [
        quantity("gauge-diameter", "Diameter of the gauge", "diameter", {
          channel: "gauge diameter",
        }),
        depth("gauge-depth", "Deepest point reached", {
          channel: "gauge depth reached",
        }),
        depth("fluid-level", "Fluid level", { channel: "fluid level" }),
        quantity("hanging", "Line pull hanging at the mandrel", "force", {
          expected: "hanging-gauge",
          band: "pull",
          most: "largest-pull",
        }),
        quantity("pick-up", "Line pull picking up there", "force", {
          expected: "out-gauge",
          band: "pull",
          most: "largest-pull",
        }),
        quantity("slack-off", "Line pull slacking off there", "force", {
          expected: "in-gauge",
          band: "pull",
        }),
      ],
      string: "gauge",
      stringAt: "below mandrel",
    }),
    step({
      id: "correlate",
      title: "Correct the counter on a known point",
      instruction:
        "Tag a point whose depth is known: a nipple or the end of tubing. Correct the counter by it, stretch counted in, and tag it again.",
      caution: "A wrong pocket costs days. Depth from paper is not depth.",
      answers: ["counter agrees"],
      fields: [
        words("known-is", "Known point"),
        depth("known-depth", "Its depth on the schematic", { channel: "known depth" }),
        depth("known-counter", "Tagged at", { channel: "known counter" }),
      ],
      string: "gauge",
      stringAt: "below mandrel",
    }),
    step({
      id: "gauge-out",
      title: "Come out, read the gauge",
      instruction:
        "Count down to surface, slow for the last 200 ft, feel the catcher. Look at what is on the gauge before it is wiped.",
      caution: comingOut,
      fields: [
        mustBeYes(
          "gauge-all-out",
          "Whole string counted in the lubricator",
          "The crown valve stays open: pull up, feel the catcher, count again.",
        ),
        choice("gauge-found", "On the gauge", [
          ["clean", "Clean"],
          ["wax", "Wax or paraffin"],
          ["scale", "Scale"],
          ["sand", "Sand"],
          ["metal", "Metal marks", adverse],
        ]),
      ],
      string: "gauge",
      stringAt: "surface",
    }),
    hold({
      id: "depth-hold",
      title: "Bore and depth proved",
      purpose: "Before another string goes in.",
      conditions: [
        check("zero-witnessed", "witnessed by another", "Counter zero seen by a second person", {
          witness: "zero-seen",
        }),
        check(
          "gauge-passes",
          "gauge proves the bore",
          "Gauge as large as the tools passed below the mandrel",
          { diameter: "gauge-diameter", depth: "gauge-depth", counter: "known-counter" },
        ),
        check(
          "counter-ok",
          "counter agrees",
          "Counter agrees on a known point",
          { counter: "known-counter", known: "known-depth" },
          ["production engineer"],
        ),
        answer(
          "gauge-clean",
          "gauge-found",
          ["clean", "wax", "scale", "sand"],
          "No metal marks on the gauge",
          "Metal marks: take an impression, the engineer decides.",
          ["production engineer"],
        ),
        check("kickover", "kickover tool matches", "Kickover tools match the mandrel"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: next,
    }),
    ...barriers(name, "the lubricator is broken to change strings", next, "gauge-all-out"),
  ],
});
