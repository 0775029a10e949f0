import { bothGauges, choice, count, depth, person, quantity, words } from "../parts.ts";
import type { Contingency } from "../sheet.ts";
import { beforeString } from "./openings.ts";

/** What can come at any step: string held fast, pressure where it does not belong, gas, people and weather. */
export const onSite: readonly Contingency[] = [
  {
    id: "stuck-in-hole",
    title: "String stuck in the hole",
    stop: "Stop at the line's limit. Pull it there once more and the wire parts at the weakest place.",
    makeSafe: [
      "Take the over-pull off; leave neither slack nor a hard pull on it.",
      "Note depth, weight and which way it last moved.",
      "Read both gauges: a difference across the string can hold it.",
      "Everybody clear of the line before it is worked.",
    ],
    tell: [
      "Engineer: depth, weights, which tool is held and its fishing necks.",
      "Field operator: that valves stay as they are, the wire lies across the tree.",
    ],
    caution: "A line at its limit parts without warning and whips.",
    options: [
      {
        id: "worked-free",
        label: "It came free: come out and look",
        says: "Slowly, every foot of wire looked at. The gauge passes there before another string goes.",
        rejoins: beforeString.any,
      },
      {
        id: "by-programme",
        label: "Cut and fish by a programme of its own",
        says: "The wire is cut on the word of those whom the programme names; fishing has its own programme.",
        rejoins: [],
      },
    ],
    fields: [
      depth("stuck-depth", "Depth of the string"),
      quantity("stuck-pull", "Largest line pull", "force", { most: "largest-pull" }),
      choice("stuck-moves", "It moves", [
        ["no", "Neither way"],
        ["down", "Down only"],
        ["up", "Up only"],
      ]),
      ...bothGauges("stuck"),
    ],
    near: ["gauge-down", "gauge-out", "catcher-set", "locate", "pull-out", "enter", "set-out"],
  },
  {
    id: "jammed-in-lubricator",
    title: "Tools jammed in the lubricator",
    stop: "Stop the winch. Nothing is closed and nothing is bled: part of the string may hang across the valve.",
    makeSafe: [
      "Slack off by hand; feel whether the string goes down again.",
      "Count by the drum and by feel what is above the crown valve.",
      "Keep the pressure level across the tools: bled above, they are driven up.",
    ],
    tell: [
      "Supervisor: what was counted, and what may hang across the valve.",
      "Everybody on location: nobody under the stack or near the sheaves.",
    ],
    caution:
      "A string that lets go falls past the tree, or is driven up by what is trapped below it.",
    options: [
      {
        id: "freed",
        label: "Freed, counted again",
        says: "Let down, turned, pulled up slowly; every tool counted in the lubricator before the crown valve closes.",
        rejoins: ["gauge-out", "catcher-out", "pull-out", "set-out", "fetch-out"],
      },
      {
        id: "stays",
        label: "It stays: stop here",
        says: "The well is held by what can be closed without the wire in it; the engineer says how the stack is opened.",
        rejoins: [],
      },
    ],
    fields: [
      words("jammed-where", "Where, and which tool"),
      quantity("jammed-wellhead", "Wellhead pressure", "pressure", {
        channel: "wellhead pressure",
      }),
    ],
    near: ["gauge-out", "catcher-out", "pull-out", "set-out", "fetch-out"],
  },
  {
    id: "leak-below",
    title: "Leak below the wireline valves",
    stop: "Stop the line. The wireline valves do not help: what leaks is below them.",
    makeSafe: [
      "Everybody out of the wind of it; engines that can light it are shut down as the site's plan says.",
      "With the string out of the tree: shut the crown valve, then the master valve.",
      "With the wire across the tree: those whom the programme names decide whether the wire is cut and the tree shut.",
    ],
    tell: [
      "Everybody on location: alarm, muster, wind.",
      "Field operator: emergency closure may be wanted, and on whose word.",
    ],
    caution:
      "Gas, H2S, ignition. Nobody goes up to a leak to tighten it. The site's emergency plan comes first.",
    options: [
      {
        id: "shut-and-mended",
        label: "Come out, shut the tree, mend and test",
        says: "Two barriers proved, the joint mended, the stack tested again before it sees the well.",
        rejoins: beforeString.any,
      },
      {
        id: "cut-and-shut",
        label: "Wire cut, tree shut",
        says: "The last resort of the programme, on the word of those it names. The string is in the hole.",
        rejoins: [],
      },
    ],
    fields: [
      words("below-where", "Where it leaks"),
      depth("below-depth", "Depth of the string"),
      quantity("below-wellhead", "Wellhead pressure", "pressure", {
        channel: "wellhead pressure",
      }),
    ],
    near: ["let-in", "friction", "gauge-down", "catcher-set", "locate", "enter"],
  },
  {
    id: "surge",
    title: "Surge or kick",
    stop: "Stop the winch and whatever is bled. Do not winch after a string that is driven up: it hides the slack.",
    makeSafe: [
      "Everybody clear of the line and of the stack.",
      "Field operator shuts what flows: annulus, flowline.",
      "Let the string come to rest; take in slack slowly until it hangs.",
      "Read both gauges until they stand still, and write down when it moved.",
    ],
    tell: [
      "Engineer: both pressures before and after, depth of the string.",
      "Everybody on location: what flowed, what was shut.",
    ],
    caution: "Slack may lie across the tree: close no valve on it blindly.",
    options: [
      {
        id: "level-again",
        label: "Level again, and watch",
        says: "Both sides are brought into the band anew and watched for the whole time agreed.",
        rejoins: ["level-first", "level-last"],
      },
      {
        id: "out-and-look",
        label: "Come out, look at all of the wire",
        says: "Dead slow, every foot looked at; kinked wire is cut off before another run.",
        rejoins: beforeString.any,
      },
      {
        id: "found",
        label: "Cause found, both gauges stand still",
        says: "Only when it is known what fed it, and that it is shut.",
        rejoins: [],
      },
    ],
    fields: [
      ...bothGauges("surge"),
      depth("surge-depth", "Depth of the string"),
      words("surge-words", "What moved, and when", true),
    ],
    near: ["level-first", "latch-on", "jar-out", "proof-start"],
  },
  {
    id: "gas-alarm",
    title: "Gas alarm or H2S",
    stop: "Stop the work and leave, across the wind, to the muster point. Nobody stays to finish a step.",
    makeSafe: [
      "Count everybody at the muster point.",
      "Nobody goes back for another without breathing air and a second person.",
      "From there, those whom the site's plan names say whether the well is shut in from afar.",
    ],
    tell: [
      "Everybody on location: alarm, wind, muster point.",
      "Field operator: where the string is, what lies across the tree.",
    ],
    caution:
      "H2S dulls the nose: no smell proves nothing. The site's emergency plan comes before this sheet.",
    options: [
      {
        id: "clear",
        label: "Tested clear, source found and shut",
        says: "Tested by whom the permit names, and the permit holds again.",
        rejoins: [],
      },
      {
        id: "mended",
        label: "Come out, mend what leaks, test again",
        says: "The string is out, two barriers are proved, the stack is tested before it sees the well.",
        rejoins: beforeString.any,
      },
      {
        id: "left",
        label: "The work stops here",
        says: "The well is left as those whom the site's plan names have it.",
        rejoins: [],
      },
    ],
    fields: [
      words("gas-where", "Where, and what was read"),
      count("gas-people", "People counted at the muster point"),
      depth("gas-depth", "Depth of the string"),
    ],
    near: [],
  },
  {
    id: "hurt",
    title: "Somebody is hurt",
    stop: "Stop the winch and the lift. Whoever is hurt comes first; the string waits.",
    makeSafe: [
      "Call for help by the site's plan; say where and how to get in.",
      "Set the brake. Close the wireline valves on still wire if the well is to be left.",
      "Leave the place as it is, as far as that helps nobody.",
    ],
    tell: ["Whoever the site's plan names, at once.", "Field operator: how the well is held."],
    caution:
      "Nobody becomes the second one hurt: look for gas, pressure and line under load first.",
    options: [
      {
        id: "goes-on",
        label: "Cared for, and the work may go on",
        says: "On the word of those whom the site's plan names, with a crew that is complete, after a new briefing.",
        rejoins: [],
      },
      {
        id: "stops",
        label: "The work stops here",
        says: "The well is secured by whoever is left for it, or by those who come.",
        rejoins: [],
      },
    ],
    fields: [words("hurt-words", "What happened"), person("hurt-told", "Who was told")],
    near: [],
  },
  {
    id: "weather",
    title: "Weather stops the work",
    stop: "Stop lifts first, then the winch: lightning, wind above the limit, water or ice on the location.",
    makeSafe: [
      "Get off the stack and away from the line in a thunderstorm.",
      "With the string in the hole: hang it still, brake set, wireline valves closed on still wire.",
      "Watch guys and crane; nobody under the stack.",
    ],
    tell: [
      "Everybody on location: where to wait.",
      "Field operator: how the well is held meanwhile.",
    ],
    options: [
      {
        id: "passed",
        label: "It has passed: go on",
        says: "Stack, guys and line looked at. What was watched or read before is old.",
        rejoins: [],
      },
      {
        id: "out",
        label: "Come out, secure the well",
        says: "Two barriers proved before the crew leaves; the run is taken up again there.",
        rejoins: beforeString.any,
      },
    ],
    fields: [words("weather-words", "What it was"), depth("weather-depth", "Depth of the string")],
    near: [],
  },
  {
    id: "something-else",
    title: "Something else",
    stop: "Stop. Anyone may, for whatever does not look right.",
    makeSafe: [
      "Hang the string still, brake set.",
      "Read both gauges.",
      "Say in your own words what is seen, before anything is tried.",
    ],
    tell: [
      "Supervisor: what is seen, since when.",
      "Engineer: whatever this sheet has no words for.",
    ],
    options: [
      {
        id: "dealt-with",
        label: "Dealt with",
        says: "Say below what was done, and who agreed.",
        rejoins: [],
      },
      {
        id: "out",
        label: "Come out",
        says: "All tools counted, two barriers proved; the run is taken up again there.",
        rejoins: beforeString.any,
      },
    ],
    fields: [words("else-words", "What it is"), ...bothGauges("else")],
    near: [],
  },
];
