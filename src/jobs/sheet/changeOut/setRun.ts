import {
  adverse,
  answer,
  barriers,
  bothGauges,
  check,
  choice,
  comingOut,
  count,
  depth,
  fluidLevelNow,
  hold,
  mustBeYes,
  quantity,
  step,
  unionProved,
  unionTest,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";
import { goesIn, type PocketOptions } from "./options.ts";

/** The new valve, or the dummy, into its pocket, and the running tool off it. */
export const setRun = (options: PocketOptions): Phase => {
  const what = goesIn(options);
  const isEmpty = options.work === "set into an empty pocket";
  const find =
    options.kickover === "orienting"
      ? "Find the sleeve from below, kick over, slack down"
      : "By depth and feel, turn and lower a few times until the arm swings out, slack down";
  return {
    id: "set",
    title: "Set run",
    items: [
      step({
        id: "set-string-on",
        title: "Set string on",
        instruction: `Running tool with the new ${what} on the kickover tool, arm locked for the way in as its maker says, knuckle free. Re-make the lubricator, test the broken union, equalise, open, zero the counter as before.`,
        caution: "A union that was broken is tested again before it sees the well.",
        figures: ["expected-maximum"],
        answers: ["union covers the well"],
        fields: [
          mustBeYes(
            "set-zero",
            "Counter zeroed at the same reference",
            "Another zero is another depth. Zero the counter at the same point as for the gauge.",
          ),
          ...unionTest("set"),
        ],
        string: "set",
        stringAt: "surface",
      }),
      step({
        id: "pocket-open",
        title: "Pressures with the pocket open",
        instruction:
          "Read both gauges at one moment. The pocket joins annulus and tubing: they should agree at the mandrel.",
        expect: "If they do not, something is in the pocket or the fluid level moved.",
        answers: ["levelled"],
        fields: [fluidLevelNow("pocket-open"), ...bothGauges("pocket-open")],
        string: "set",
        stringAt: "surface",
      }),
      hold({
        id: "set-go-hold",
        title: "Set string may go",
        purpose: `Before the new ${what} runs to the pocket.`,
        conditions: [
          ...unionProved("set"),
          answer(
            "set-zeroed",
            "set-zero",
            ["yes"],
            "Counter zeroed at the same reference",
            "Another zero is another depth. Zero the counter at the same point as for the gauge.",
          ),
          check(
            "set-push-out",
            "push-out beaten",
            "Effective weight beats push-out and the friction measured",
          ),
          check("set-tested", "inside what was tested", "Well pressure is inside what was tested", {
            tested: "high-start",
            ended: "high-end",
            "let in": "pocket-open-wellhead",
          }),
          check(
            "set-level",
            "levelled",
            "Annulus and tubing agree at the mandrel",
            { "open pocket": "pocket-open-casing" },
            ["production engineer"],
          ),
          ...(isEmpty
            ? [
                check(
                  "set-steady",
                  "steady",
                  "Steady for the time agreed",
                  { time: "level-time" },
                  ["production engineer"],
                ),
              ]
            : []),
        ],
        releasedBy: ["wireline supervisor"],
        guards: "enter",
      }),
      step({
        id: "enter",
        title: "Enter the pocket",
        instruction: `Depth from the run before, not from paper. Weigh just above the pocket, picking up. ${find}: the ${what} enters and its nose stands on the seat.`,
        expect: `Weight falls over the length of the ${what}, 1 to 2 ft, then stands.`,
        figures: ["counter-at-mandrel"],
        answers: ["same depth as pulled"],
        fields: [
          quantity("set-pick-up", "Line pull picking up just above the pocket", "force", {
            expected: "out-set",
            band: "pull",
            most: "largest-pull",
          }),
          depth("set-depth", "Depth standing in the pocket"),
        ],
        string: "set",
        stringAt: "mandrel",
      }),
      step({
        id: "drive",
        title: "Jar down to drive it home",
        instruction: "Jar down until each stroke stops at the same counter value.",
        expect: "First strokes travel; then they stop short and sharp.",
        caution:
          "Everybody clear of the line. No more slack than the jars' stroke: slack wire kinks, and a kink parts. Pins can shear while driving: weight that is gone is not proof that it is home.",
        fields: [
          count("drive-hits", "Jar hits down"),
          mustBeYes(
            "drive-stops",
            "Last strokes stop at the same counter value",
            "It still travels: it is not home. Go on jarring down, or come up and look.",
          ),
        ],
        string: "set",
        stringAt: "mandrel",
      }),
      step({
        id: "test-pull",
        title: "Test the latch with a light pull",
        instruction:
          "Pull lightly over pick-up, below the pins' shear. It must hold. Not before this: jarring up.",
        expect: "About 100 to 200 lbf over pick-up holds (common practice).",
        caution:
          "Everybody clear of the line before it is pulled. If it moves, stop: the string may jump, and the valve may be half in.",
        figures: ["out-set", "test-pull", "test-pull-most"],
        answers: ["pulled over picking up"],
        fields: [
          quantity("test-pull-force", "Line pull taken", "force", {
            expected: "test-pull",
            band: "pull",
            most: "test-pull-most",
          }),
          choice("test-pull-held", "The pull", [
            ["held", "Holds"],
            [
              "moved",
              "Moved",
              {
                stop: "The latch did not hold. Do not jar up: drive it down again and test again, or come up and look at latch and pocket.",
              },
            ],
          ]),
        ],
        string: "set",
        stringAt: "mandrel",
      }),
      hold({
        id: "latched-hold",
        title: "Latched before shearing off",
        purpose: "Before the first blow upward.",
        conditions: [
          check(
            "same-pocket",
            "same depth as pulled",
            isEmpty
              ? "It stands where the pocket was found"
              : "It stands where the old valve came from",
            { pulled: "pocket-depth", set: "set-depth" },
            ["production engineer"],
          ),
          answer(
            "driven",
            "drive-stops",
            ["yes"],
            "Driven home",
            "It still travels: it is not home. Go on jarring down, or come up and look.",
          ),
          answer(
            "pull-holds",
            "test-pull-held",
            ["held"],
            "Latch held the test pull",
            "The latch did not hold. Do not jar up.",
          ),
          check(
            "pulled-over",
            "pulled over picking up",
            "The pull was more than picking up alone",
            {
              pull: "test-pull-force",
              "pick-up": "set-pick-up",
            },
          ),
        ],
        releasedBy: ["wireline supervisor"],
        guards: "shear",
      }),
      step({
        id: "shear",
        title: "Jar up to shear off",
        instruction:
          "Several light, then harder hits until the pins shear. Do not pull static to shear unless it is programmed.",
        expect: "Over-pull falls to hanging, the string is free.",
        caution:
          "Everybody clear of the line and the sheaves: the string jumps when the pins shear, and jarred wire can part and whip. Work to the line's limit and no further. If they will not shear: stop, let it soak, call.",
        figures: ["largest-pull", "pin-shear"],
        fields: [
          count("shear-hits", "Jar hits up"),
          quantity("shear-largest", "Largest line pull", "force", { most: "largest-pull" }),
          choice("shear-sign", "Shear sign", [
            ["clear", "Clear, string free"],
            ["unclear", "Free, sign not clear", adverse],
            [
              "will not shear",
              "Will not shear",
              {
                stop: "Stop at the line's limit. Let it soak, call. Cutting the wire is the programme's last resort.",
              },
            ],
          ]),
        ],
        string: "set",
        stringAt: "mandrel",
      }),
      step({
        id: "set-out",
        title: "Come out",
        instruction:
          "Slow where the arm has to fold, at safety valve and hanger and for the last 200 ft. Count every tool at surface before the crown valve closes.",
        caution: comingOut,
        fields: [
          mustBeYes(
            "set-all-out",
            "All tools counted in the lubricator",
            "The crown valve stays open: pull up, feel the catcher, count again.",
          ),
        ],
        string: "set",
        stringAt: "surface",
      }),
      ...barriers(
        "fourth",
        "the lubricator is opened to look at the running tool",
        "look-tool",
        "set-all-out",
      ),
      step({
        id: "look-tool",
        title: "Look at the running tool",
        instruction: `Pins sheared, both halves or their marks seen; no ${what} and no latch ring on it; arm folds. Photograph the scars.`,
        fields: [
          choice("tool-pins", "Pins", [
            ["sheared", "All sheared"],
            ["not sheared", "Not all sheared", adverse],
          ]),
          choice("tool-valve", what === "dummy" ? "Dummy" : "Valve", [
            ["left in pocket", "Not on the tool", { pocketHolds: "replacement" }],
            ["came back", "Came back on the tool", { ...adverse, pocketHolds: "nothing" }],
          ]),
        ],
      }),
    ],
  };
};
