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
  equalisingPlan,
  hold,
  mustBeYes,
  planAgreed,
  quantity,
  signature,
  step,
  unionTest,
  words,
} from "../parts.ts";
import type { Field, Phase } from "../sheet.ts";

/** A string that no record describes: what the crew has to have looked at before it goes in. */
const ownString = (name: string): Field[] => [
  mustBeYes(
    `${name}-measured`,
    "String measured, drawn, and heavier than push-out asks",
    "Every part is measured, and the string weighs more than push-out and packing friction ask. Mend that first.",
  ),
  ...unionTest(name),
  mustBeYes(
    `${name}-zero`,
    "Counter zeroed at the same reference",
    "Another zero is another depth. Zero the counter at the same point as for the gauge.",
  ),
];

/** The catcher below the target: what falls stops there. */
export const setCatcher: Phase = {
  id: "catcher-in",
  title: "Set the catcher",
  items: [
    step({
      id: "catcher-string-on",
      title: "Catcher on",
      instruction:
        "Catcher on its running tool: lock and size made for the nipple below the target. Re-make the lubricator, test the broken union, equalise, open, zero the counter as before.",
      caution: "A union that was broken is tested again before it sees the well.",
      figures: ["weight-needed", "expected-maximum"],
      fields: [
        mustBeYes(
          "catcher-fits",
          "Catcher made for the nipple on record",
          "A catcher that is not made for the nipple does not hold. It does not go in.",
        ),
        ...ownString("catcher"),
      ],
    }),
    step({
      id: "catcher-set",
      title: "Set it below the target, pull-test, tag",
      instruction:
        "Set it in the nipple as its maker says, pull lightly, shear off. Tag it and note the depth.",
      caution: "Not a well barrier unless it was set and tested as one.",
      figures: ["target-depth", "largest-pull"],
      answers: ["catcher below the mandrel"],
      fields: [
        quantity("catcher-pull", "Line pull taken", "force", { most: "largest-pull" }),
        choice("catcher-held", "The pull", [
          ["held", "Holds"],
          ["moved", "Moved", { stop: "It is not locked. Set it again, or come out and look." }],
        ]),
        choice("catcher-shear", "Shear sign", [
          ["clear", "Clear, string free"],
          ["unclear", "Free, sign not clear", adverse],
          [
            "will not shear",
            "Will not shear",
            { stop: "Stop at the line's limit. Let it soak, call." },
          ],
        ]),
        depth("catcher-depth", "Tagged at"),
      ],
    }),
    step({
      id: "catcher-out",
      title: "Come out",
      instruction:
        "Slow for the last 200 ft. Count every tool at surface before the crown valve closes.",
      caution: comingOut,
      fields: [
        mustBeYes(
          "catcher-all-out",
          "All tools counted in the lubricator",
          "The crown valve stays open: pull up, feel the catcher, count again.",
        ),
      ],
    }),
    hold({
      id: "catcher-hold",
      title: "Catcher set and pull-tested",
      purpose: "Before anything is loosened above it.",
      conditions: [
        check(
          "catcher-below",
          "catcher below the mandrel",
          "In a nipple on record, below the target",
          { depth: "catcher-depth" },
          ["production engineer"],
        ),
        answer(
          "catcher-holds",
          "catcher-held",
          ["held"],
          "It held a light pull",
          "The catcher moved when it was pulled: it is not locked. Set it again.",
        ),
        answer(
          "catcher-free",
          "catcher-shear",
          ["clear"],
          "Clear shear sign",
          "The shear sign was not clear: look at the running tool, tag the catcher again.",
          ["production engineer"],
        ),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "pull-string-on",
    }),
    ...barriers(
      "second",
      "the lubricator is broken to change strings",
      "pull-string-on",
      "catcher-all-out",
    ),
  ],
};

/** The catcher comes out last, level across it: a plug that holds pressure from below shoots up when it is unseated. */
export const fetchCatcher: Phase = {
  id: "catcher-fetch",
  title: "Take out the catcher",
  items: [
    ...barriers("fetch", "the lubricator is opened to put the pulling tool on", "fetch-string-on"),
    step({
      id: "fetch-string-on",
      title: "Pulling tool for the catcher on",
      instruction:
        "Pulling tool for the catcher's neck, with its equalising prong where it has one. Re-make the lubricator, test the broken union, equalise, open, zero the counter as before.",
      caution: "A union that was broken is tested again before it sees the well.",
      figures: ["weight-needed", "expected-maximum"],
      fields: ownString("fetch"),
    }),
    equalisingPlan("catcher", "the catcher is unseated"),
    step({
      id: "catcher-debris",
      title: "Recover what it caught",
      instruction: "Tag the catcher. What lies on it is bailed or grabbed before it is unseated.",
      fields: [
        choice("debris", "On the catcher", [
          ["nothing", "Nothing met"],
          ["recovered", "Recovered, and counted"],
          ["left", "Something is left on it", adverse],
        ]),
        words("debris-words", "What it was", true),
      ],
    }),
    step({
      id: "catcher-level",
      title: "Equalise across the catcher",
      instruction:
        "Open its equalising device as its maker says, wait the time agreed, read both gauges at one moment.",
      expect: "A gauge that moves shows that it held pressure; both stand still when it is level.",
      caution: "A catcher that holds pressure from below shoots up the hole when it is unseated.",
      fields: [
        ...bothGauges("catcher-level"),
        choice("catcher-is-level", "Both gauges, after the time agreed", [
          ["steady", "Stand still"],
          [
            "moving",
            "Still moving",
            { stop: "It is not level yet. Wait, read both gauges again." },
          ],
        ]),
      ],
    }),
    hold({
      id: "fetch-hold",
      title: "Level across the catcher",
      purpose: "Before the catcher is unseated.",
      conditions: [
        answer(
          "catcher-level-ok",
          "catcher-is-level",
          ["steady"],
          "Both gauges stand still with the equalising device open",
          "The gauges still move: it is not level across the catcher. Wait and read again.",
        ),
        answer(
          "debris-out",
          "debris",
          ["nothing", "recovered"],
          "Nothing is left on it",
          "What lies on the catcher falls or jams when it moves. Recover it first, or the engineer decides.",
          ["production engineer"],
        ),
        check("fetch-tested", "inside what was tested", "Well pressure is inside what was tested", {
          tested: "high-start",
          ended: "high-end",
        }),
        ...planAgreed("catcher"),
        signature("field operator", "Field operator agrees on these pressures"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "fetch",
    }),
    step({
      id: "fetch",
      title: "Unseat the catcher",
      instruction: "Latch on, take a light pull, jar it free within the line's limit. Then wait.",
      caution:
        "Everybody clear of the line and the sheaves. What is left of a difference drives the string up as it comes free.",
      figures: ["largest-pull"],
      fields: [
        count("fetch-hits", "Jar hits"),
        quantity("fetch-largest", "Largest line pull", "force", { most: "largest-pull" }),
        choice("fetch-free", "Came free", [
          ["quiet", "Free, no surge"],
          ["surge", "Free, with a surge", adverse],
          [
            "not free",
            "Not free",
            { stop: "Stop at the limit. Equalise again, let it soak, call." },
          ],
        ]),
      ],
    }),
    step({
      id: "fetch-out",
      title: "Come out with the catcher",
      instruction:
        "Slow at mandrels, safety valve and hanger and for the last 200 ft. Count every tool at surface before the crown valve closes.",
      caution: comingOut,
      fields: [
        mustBeYes(
          "fetch-all-out",
          "All tools and the catcher counted in the lubricator",
          "The crown valve stays open: pull up, feel the catcher, count again.",
        ),
      ],
    }),
    ...barriers(
      "caught",
      "the lubricator is opened to take the catcher",
      "caught-look",
      "fetch-all-out",
    ),
    step({
      id: "caught-look",
      title: "Look into the catcher",
      instruction: "Count and photograph what lies in it: every part belongs to something.",
      fields: [words("caught-words", "What it caught, or nothing")],
    }),
  ],
};
