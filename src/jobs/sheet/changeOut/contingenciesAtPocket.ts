import { choice, count, depth, quantity, words } from "../parts.ts";
import type { Contingency } from "../sheet.ts";
import { beforeString } from "./openings.ts";

/** Pocket, sleeve, latch and pins: what does not go as it should while the string is at work. */
export const atPocket: readonly Contingency[] = [
  {
    id: "cannot-get-down",
    title: "Cannot get down",
    stop: "Stop the winch at once: weight that goes while the counter turns lays slack wire in the tubing.",
    makeSafe: [
      "Pick up slowly until the string hangs; look for weight above the pattern.",
      "Hold 50 to 100 ft above the place (common practice) and note depth and weights.",
      "Read both gauges: a pressure that moved changes what may be done.",
    ],
    tell: [
      "Supervisor: depth, weights, which tool is lowest.",
      "Engineer: when metal marks, a collapse or an unknown restriction is likely.",
    ],
    caution: "Slack wire makes a nest in seconds. Do not spud on a place you do not know.",
    options: [
      {
        id: "try-again",
        label: "Try again, slower",
        says: "From above, dead slow, a few times. No jarring down with a kickover tool on.",
        rejoins: ["gauge-down", "catcher-set", "locate", "enter"],
      },
      {
        id: "clear",
        label: "Come out and clear the way",
        says: "Wax is cut, sand is bailed, a hydrate is inhibited; then the gauge passes before anything else goes in.",
        rejoins: beforeString.any,
      },
      {
        id: "look",
        label: "Come out for an impression",
        says: "A block shows what is there. With metal on the block the engineer decides.",
        rejoins: beforeString.any,
      },
    ],
    fields: [
      depth("down-depth", "Depth of the place"),
      quantity("down-hanging", "Line pull hanging above it", "force"),
      choice("down-sign", "Sign", [
        ["sat down", "Sat down, weight gone"],
        ["tight", "Tight picking up"],
        ["slow", "Falls slower and slower"],
      ]),
    ],
    near: ["gauge-down", "catcher-set", "locate", "enter"],
  },
  {
    id: "no-sleeve",
    title: "Tool does not find the sleeve",
    stop: "Stop picking up when the key should have taken and did not: a tool pulled into the next mandrel is in another pocket.",
    makeSafe: [
      "Compare the counter with the depth of the mandrel, stretch counted in.",
      "Leave the arm as it is: do not slack down where the depth is not known.",
    ],
    tell: [
      "Supervisor: depth, largest pull, number of tries.",
      "Planner: when the record of the sleeve may be wrong.",
    ],
    options: [
      {
        id: "lower-slower",
        label: "Again, 10 ft lower and slower",
        says: "Run 10 ft lower (common practice) and come up slower. A worn key or scale may let it slip.",
        rejoins: ["locate", "enter"],
      },
      {
        id: "prove-depth",
        label: "Prove the depth again",
        says: "Tag the neighbours and the known point before the next try.",
        rejoins: ["locate", "enter"],
      },
      {
        id: "other-tool",
        label: "Come out, change the tool",
        says: "Look at key and arm at surface. The tool has to match the mandrel, by its record.",
        rejoins: beforeString.pullOrSet,
      },
    ],
    fields: [
      depth("sleeve-depth", "Depth where the key should take"),
      count("sleeve-tries", "Tries"),
      quantity("sleeve-pull", "Largest line pull", "force", { most: "largest-pull" }),
    ],
    near: ["locate", "enter"],
  },
  {
    id: "no-latch",
    title: "Pulling tool does not latch",
    stop: "Stop tapping: blows on a latch that is covered or bent make it worse. Do not jar up on a tool that is not latched.",
    makeSafe: [
      "Lift clear and let the string hang; note depth and weight.",
      "Check that the depth of rest is that of this pocket.",
    ],
    tell: ["Supervisor: depth of rest, tries, how each felt."],
    options: [
      {
        id: "again",
        label: "Locate and tap again",
        says: "Come off, find the sleeve anew, sit down and tap with short strokes.",
        rejoins: ["locate", "latch-on"],
      },
      {
        id: "wash-or-bail",
        label: "Come out, clear the latch",
        says: "Fill on the latch is bailed, brushed or washed; an impression shows what the latch looks like.",
        rejoins: beforeString.pull,
      },
      {
        id: "other-pulling-tool",
        label: "Come out, change the pulling tool",
        says: "Check dogs, skirt and reach against the latch on record.",
        rejoins: beforeString.pull,
      },
    ],
    fields: [
      depth("latch-depth", "Depth of rest"),
      count("latch-tries", "Tries"),
      words("latch-felt", "How it felt", true),
    ],
    near: ["latch-on"],
  },
  {
    id: "will-not-come",
    title: "Valve will not come",
    stop: "Stop at the limit of pull or of hits, whichever comes first.",
    makeSafe: [
      "Take the over-pull off and let the string hang.",
      "Read both gauges: work out again whether annulus and tubing are level at the mandrel.",
      "Shift the depth at the sheaves, or cut back: the wire bent at one place all the time.",
    ],
    tell: [
      "Engineer: hits, largest pull, both pressures, time on the valve.",
      "Field operator: that levelling starts again.",
    ],
    caution:
      "If it comes with a difference across it, gas rushes past the string and can blow it up the hole.",
    options: [
      {
        id: "level-again",
        label: "Level again, let it soak",
        says: "Bring the pressures back into the band and watch before the next blow.",
        rejoins: ["level-last"],
      },
      {
        id: "jar-on",
        label: "Jar on to a new limit",
        says: "Only when the programme, or the engineer by name, gives a new limit of pull and hits. It stays inside line and rope socket.",
        rejoins: ["level-last"],
      },
      {
        id: "heavier",
        label: "Shear off, come out for another string",
        says: "Heavier stem or an upstroke jar, if the programme has one. Push-out, drift and length are worked out anew.",
        rejoins: beforeString.pull,
      },
      {
        id: "leave-it",
        label: "Leave the valve, secure the well",
        says: "The valve stays in its pocket and the record says so. The engineer decides what the well does next.",
        rejoins: [],
      },
    ],
    fields: [
      count("come-hits", "Jar hits so far"),
      quantity("come-pull", "Largest line pull", "force", { most: "release-pull" }),
      quantity("come-casing", "Casing pressure now", "pressure", { channel: "casing pressure" }),
      quantity("come-wellhead", "Wellhead pressure now", "pressure", {
        channel: "wellhead pressure",
      }),
    ],
    near: ["jar-out"],
  },
  {
    id: "sheared-early",
    title: "Running tool sheared early",
    stop: "Stop: the valve may stand half in the pocket, lie on top of it, or be loose in the tubing. Assume nothing.",
    makeSafe: [
      "Do not go lower: something may lie below or above the pocket.",
      "Come out slowly and count what is on the tool at surface.",
      "Read both gauges: a half-seated valve leaks.",
    ],
    tell: [
      "Engineer: depth, hits, which way the blow was, what came back.",
      "Supervisor: pin material, count and batch that were in the tool.",
    ],
    options: [
      {
        id: "tag-and-pull",
        label: "Next run: tag and light pull",
        says: "A pulling string tags the pocket and pulls lightly. What it feels decides, nothing else.",
        rejoins: beforeString.set,
      },
      {
        id: "valve-came-back",
        label: "Valve came back: dress and run again",
        says: "Look at latch, packing and pins. What was bent or nicked does not go in a second time.",
        rejoins: beforeString.set,
      },
      {
        id: "go-on-and-prove",
        label: "It stood home: look at the tool, prove it",
        says: "Only at the test pull, when the latch had held it. That pull is recorded, the shear sign as not clear; pins are looked at, then the valve is proved like any other.",
        rejoins: ["enter", "drive", "test-pull"],
      },
    ],
    fields: [
      depth("early-depth", "Depth when it sheared"),
      count("early-hits", "Jar hits before"),
      choice("early-latch", "Latch had held a test pull", [
        ["yes", "Yes"],
        ["no", "No"],
      ]),
    ],
    near: ["enter", "drive", "test-pull"],
  },
  {
    id: "pins-hold",
    title: "Pins will not shear",
    stop: "Stop at the line's limit. More pull parts the wire above a string that is fast to a seated valve.",
    makeSafe: [
      "Take the over-pull off and let the string rest in slack of inches, not feet.",
      "Look at wire and sheaves where it was jarred; shift the depth.",
    ],
    tell: [
      "Engineer: hits, largest pull, pin material and count.",
      "Crew: who cuts, and on whose word.",
    ],
    caution: "Keep clear of the line while it is at its limit. A parted wire whips.",
    options: [
      {
        id: "soak",
        label: "Let it soak, jar again",
        says: "After a rest, jar up again from light to hard, inside the limit.",
        rejoins: ["shear"],
      },
      {
        id: "release-tool",
        label: "Release by the tool's other way",
        says: "Where the maker gives a second way to let go, and the programme names it.",
        rejoins: ["shear", "set-out"],
      },
      {
        id: "cut",
        label: "Cut the wire",
        says: "The programme's last resort, on the word of those it names. The string stays on the valve until it is fished.",
        rejoins: [],
      },
    ],
    fields: [
      count("fast-hits", "Jar hits up so far"),
      quantity("fast-pull", "Largest line pull", "force", { most: "largest-pull" }),
      words("fast-words", "What was agreed, by whom", true),
    ],
    near: ["shear"],
  },
];
