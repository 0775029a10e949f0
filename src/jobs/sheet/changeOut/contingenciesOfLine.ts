import { choice, depth, person, quantity, words } from "../parts.ts";
import type { Contingency } from "../sheet.ts";
import { beforeString } from "./openings.ts";

/** Packing, ice, wire and pressure: what puts the way out of the well in question. */
export const withLineAndStack: readonly Contingency[] = [
  {
    id: "packing-leak",
    title: "Leak at the packing",
    stop: "Stop the line. Nothing on the packing is touched while wire moves.",
    makeSafe: [
      "Know where the string is: depth, and what lies across the tree.",
      "Close the wireline valves on still wire.",
      "Pump grease or tighten the packing remotely, as its maker allows.",
      "Equalise across the wireline valves before they are opened again.",
    ],
    tell: [
      "Everybody on location: gas at the packing, wind, who moves where.",
      "Field operator: that the wireline valves are shut.",
    ],
    caution:
      "Gas, H2S, ignition. A leak below the wireline valves is a matter for the tree valves: who cuts, on whose word, is the programme's.",
    options: [
      {
        id: "holds-again",
        label: "It holds again: go on",
        says: "Watched without a leak, with weight still moving through it.",
        rejoins: [],
      },
      {
        id: "out-and-repack",
        label: "Come out and repack",
        says: "Out dead slow, all tools counted, two barriers proved; the stack is tested again before it sees the well.",
        rejoins: beforeString.any,
      },
    ],
    fields: [
      depth("leak-depth", "Depth of the string"),
      quantity("leak-wellhead", "Wellhead pressure", "pressure", { channel: "wellhead pressure" }),
      choice("leak-stopped", "Leak stopped by", [
        ["grease", "Grease or packing"],
        ["wire valves", "Wireline valves"],
        ["tree", "Tree valves"],
      ]),
    ],
    near: ["let-in", "friction", "gauge-down", "locate", "enter"],
  },
  {
    id: "hydrate",
    title: "Hydrate or ice",
    stop: "Stop bleeding and stop the winch. A plug can hold full pressure behind it while the gauge reads zero.",
    makeSafe: [
      "Keep the pressure level on both sides of the place.",
      "Inject inhibitor and wait; warm the stack with water or steam where the permit allows.",
      "Break no union while a plug is suspected.",
    ],
    tell: [
      "Supervisor: where it froze, what was bled or throttled.",
      "Field operator: inhibitor used, gas still shut off.",
    ],
    caution: "No hammering and no open flame. A plug that lets go travels like a bullet.",
    options: [
      {
        id: "gone",
        label: "It is gone: prove it, go on",
        says: "Pressure passes freely both ways and both gauges agree; the rest is bled slowly, with inhibitor.",
        rejoins: [],
      },
      {
        id: "stuck-string",
        label: "String is frozen in: wait it out",
        says: "Keep slight tension and inhibit; do not pull to the limit against ice.",
        rejoins: [],
      },
    ],
    fields: [
      words("hydrate-where", "Where"),
      quantity("hydrate-pressure", "Pressure there", "pressure"),
      words("hydrate-inhibitor", "Inhibitor and amount", true),
    ],
    near: ["let-in", "level-first", "pull-out", "set-out", "proof-start"],
  },
  {
    id: "wire-parted",
    title: "Wire parted",
    stop: "Stop the drum. Everybody stays clear of the loose end until it hangs still.",
    makeSafe: [
      "If wire still hangs through the stack: close the wireline valves on still wire.",
      "If it went through the packing: the ball check or packing has to hold; then the tree valves, when nothing can lie across them.",
      "Measure the wire that came back: what is left in the hole is the rest.",
    ],
    tell: [
      "Everybody on location: line down, who is accounted for.",
      "Engineer: depth of string, length left, what the string carried and its fishing necks.",
    ],
    caution:
      "Wire under tension whips. What fell balls up: nothing is ever run past the expected top of it.",
    options: [
      {
        id: "fish",
        label: "Stop here, prepare to fish",
        says: "Fishing is a job of its own with its own programme: drawing of the string, top of wire found with care, wire grab, then the string.",
        rejoins: [],
      },
      {
        id: "all-out",
        label: "All of it is out: go on after re-heading",
        says: "Only when every tool and all wire is counted at surface. Cut back, new rope socket, pull-tested.",
        rejoins: beforeString.any,
      },
    ],
    fields: [
      depth("parted-depth", "Depth of the string"),
      quantity("parted-left", "Wire left in the hole", "length"),
      quantity("parted-pull", "Line pull when it parted", "force"),
      person("parted-told", "Who was told"),
    ],
    near: ["jar-out", "shear"],
  },
  {
    id: "blown-up",
    title: "Tool blown up the hole",
    stop: "Stop the flow, not the string: shut what feeds it. Winching in faster than the string rises only hides the slack.",
    makeSafe: [
      "Field operator shuts the annulus flow, and whatever else flows.",
      "When weight is back, stop; take in slack slowly until the string hangs.",
      "Take it that the wire is balled above the string until it has been seen.",
      "Read both gauges and write down when it moved.",
    ],
    tell: [
      "Everybody on location: clear of the line and of the stack.",
      "Engineer: both pressures before and after, depth before and after.",
    ],
    caution:
      "A string driven into the stuffing box parts the wire. Slack may lie across the tree: close no valve on it blindly.",
    options: [
      {
        id: "out-and-look",
        label: "Come out, look at all of the wire",
        says: "Dead slow, every foot looked at; kinked wire is cut off before another run.",
        rejoins: beforeString.any,
      },
      {
        id: "balled",
        label: "Wire is balled: stop, prepare to fish",
        says: "Fishing is a job of its own with its own programme.",
        rejoins: [],
      },
    ],
    fields: [
      depth("blown-from", "Depth before"),
      depth("blown-to", "Depth now"),
      quantity("blown-casing", "Casing pressure now", "pressure", { channel: "casing pressure" }),
      quantity("blown-wellhead", "Wellhead pressure now", "pressure", {
        channel: "wellhead pressure",
      }),
    ],
    near: ["jar-out", "locate", "enter"],
  },
];
