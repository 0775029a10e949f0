import {
  adverse,
  answer,
  barriers,
  bothGauges,
  check,
  choice,
  count,
  depth,
  equalisingPlan,
  fluidLevelNow,
  hold,
  mustBeYes,
  planAgreed,
  quantity,
  serial,
  signature,
  step,
  words,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";

export const pullRun: Phase = {
  id: "pull",
  title: "Pull run",
  items: [
    step({
      id: "pull-string-on",
      title: "Pull string on",
      instruction:
        "Make up the pull string with kickover tool and pulling tool. Check shear pins and shear direction, the arm's lock, knuckle free. Re-make the lubricator, test the broken union, equalise, open, zero the counter as before.",
      caution: "A union that was broken is tested again before it sees the well.",
      fields: [
        mustBeYes(
          "pull-zero",
          "Counter zeroed at the same reference",
          "Another zero is another depth. Zero the counter at the same point as for the gauge.",
        ),
        mustBeYes(
          "pull-union",
          "Broken union tested and held",
          "A union that was broken is tested before it sees the well. Test it first.",
        ),
        words("pull-pins", "Pulling tool pins: material, count, shear direction"),
      ],
      string: "pull",
      stringAt: "surface",
    }),
    equalisingPlan("level", "the valve is unseated"),
    step({
      id: "level-first",
      title: "Equalise annulus and tubing at the mandrel",
      instruction:
        "By the agreed route bring the casing into the band shown. Equal at surface is not equal at the mandrel. Read both gauges at one moment.",
      caution: "Bleed only where the permit allows. H2S, ignition, freezing at the choke.",
      figures: ["casing-lowest", "casing-highest", "watch"],
      answers: ["levelled"],
      fields: [fluidLevelNow("level-first"), ...bothGauges("level-first")],
      string: "pull",
      stringAt: "surface",
    }),
    hold({
      id: "pull-go-hold",
      title: "Pull string may go",
      purpose: "Before the string runs to the pocket.",
      conditions: [
        answer(
          "pull-union-tested",
          "pull-union",
          ["yes"],
          "Broken union tested",
          "A union that was broken is tested before it sees the well. Test it first.",
        ),
        answer(
          "pull-zeroed",
          "pull-zero",
          ["yes"],
          "Counter zeroed at the same reference",
          "Another zero is another depth. Zero the counter at the same point as for the gauge.",
        ),
        check(
          "pull-push-out",
          "push-out beaten",
          "Effective weight beats push-out and the friction measured",
        ),
        check("pull-tested", "inside what was tested", "Well pressure is inside what was tested", {
          tested: "high-start",
          ended: "high-end",
        }),
        check(
          "pull-level",
          "levelled",
          "Annulus and tubing within the band at the mandrel",
          undefined,
          ["production engineer"],
        ),
        ...planAgreed("level"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "locate",
    }),
    step({
      id: "locate",
      title: "Run in and find the pocket",
      instruction:
        "Tag the mandrels above and below, so that the pocket is proved. Run to 10 to 30 ft below the sleeve, pick up slowly until the key takes; without a sleeve, work by depth and feel. Kick over, slack down onto the latch.",
      expect:
        "Over-pull of 100 to 300 lbf when the key takes (common practice), then a small jump; weight lost when it rests on the latch.",
      figures: ["counter-at-mandrel", "mandrel-above", "mandrel-below"],
      answers: ["neighbours agree", "right pocket"],
      fields: [
        depth("tagged-above", "Mandrel above tagged at, if there is one", {
          expected: "mandrel-above",
          band: "depth",
          optional: true,
        }),
        depth("tagged-below", "Mandrel below tagged at, if there is one", {
          expected: "mandrel-below",
          band: "depth",
          optional: true,
        }),
        depth("pocket-depth", "Depth resting on the latch", {
          channel: "tagged mandrel depth",
          expected: "target-depth",
          band: "depth",
        }),
        quantity("key-pull", "Largest line pull with the key in the sleeve", "force", {
          most: "largest-pull",
          optional: true,
        }),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "latch-on",
      title: "Latch on",
      instruction:
        "Tap down with a few short strokes, then take a light pull over pick-up. If it stays, the tool is latched.",
      expect: "The pull holds. What the indicator shows is a sign, not proof.",
      figures: ["hanging-pull", "out-pull", "largest-pull"],
      fields: [
        quantity("latch-pull", "Line pull taken", "force", { most: "largest-pull" }),
        choice("latch-held", "The pull", [
          ["held", "Holds"],
          [
            "not held",
            "Does not hold",
            {
              stop: "Not latched. Lift, tap again; fill on the latch is bailed or washed. Do not jar.",
            },
          ],
        ]),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "level-last",
      title: "Read both gauges again",
      instruction:
        "After the watch, before the first blow: read casing and wellhead pressure at one moment.",
      expect: "Still within the band. If it moved, the leak that is being cured refills it.",
      figures: ["casing-lowest", "casing-highest", "watch"],
      answers: ["levelled", "steady"],
      fields: bothGauges("level-last"),
      string: "pull",
      stringAt: "mandrel",
    }),
    hold({
      id: "level-hold",
      title: "Equalised before unseating",
      purpose: "Before the valve is jarred out of its pocket.",
      caution:
        "Once a packing leaves its bore the whole difference acts on the valve and gas rushes past the string: it can blow up the hole, ball the wire or part it.",
      conditions: [
        check(
          "level-now",
          "levelled",
          "Annulus and tubing within the band at the mandrel, on both sides",
          undefined,
          ["production engineer"],
        ),
        check("level-steady", "steady", "Steady for the time agreed", { time: "level-time" }, [
          "production engineer",
        ]),
        check("level-fresh", "fresh", "Pressures are fresh"),
        check(
          "pocket-ok",
          "right pocket",
          "Resting where the schematic has the mandrel",
          { pocket: "pocket-depth" },
          ["production engineer"],
        ),
        check(
          "neighbours-ok",
          "neighbours agree",
          "Neighbouring mandrels found where the schematic has them",
          { above: "tagged-above", below: "tagged-below" },
          ["production engineer"],
        ),
        signature("field operator", "Field operator agrees on these pressures"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "first-blow",
    }),
    step({
      id: "first-blow",
      title: "First blow",
      instruction:
        "Press when the first upward blow is struck. The hold point before it lapses when its pressures grow old.",
      fields: [],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "jar-out",
      title: "Jar the valve out",
      instruction:
        "Jar up with rising strokes, within the programme's limit of pull and hits. Shift the depth at the sheaves after many hits. When it is free, stop and watch both gauges.",
      expect: "Over-pull gone; the string moves up smoothly.",
      caution: "A valve weighs less than the noise of the indicator. Its weight proves nothing.",
      figures: ["release-pull", "stretch-at-limit"],
      fields: [
        count("pull-hits", "Jar hits"),
        quantity("pull-largest", "Largest line pull", "force", { most: "release-pull" }),
        choice("pull-free", "Came free", [
          ["quiet", "Free, no surge", { pocketHolds: "nothing" }],
          ["surge", "Free, with a surge", { ...adverse, pocketHolds: "nothing" }],
          [
            "not free",
            "Not free, limit reached",
            {
              stop: "Stop at the limit of pull or hits. Equalise again, let it soak, call: heavier string or upstroke jar is the programme's to say.",
            },
          ],
          [
            "tool sheared",
            "Pulling tool sheared off",
            {
              stop: "Come up, look at the tool, dress it. Read the pressures again before the next run.",
            },
          ],
        ]),
        quantity("free-casing", "Casing pressure when free", "pressure"),
        quantity("free-wellhead", "Wellhead pressure when free", "pressure"),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "pull-out",
      title: "Come out with the valve",
      instruction:
        "Slow where the arm has to fold, at safety valve and hanger and for the last 200 ft. After a surge look at the wire on the way. Count every tool at surface before the crown valve closes.",
      fields: [
        mustBeYes(
          "pull-all-out",
          "All tools counted in the lubricator",
          "The crown valve stays open: pull up, feel the catcher, count again.",
        ),
      ],
      string: "pull",
      stringAt: "surface",
    }),
    ...barriers("third", "the lubricator is opened to take the valve", "inspect", "pull-all-out"),
    step({
      id: "inspect",
      title: "Look at the pulled valve",
      instruction:
        "Before it is cleaned: photograph it, read its serial, look at latch, both packing stacks, check, port and stem, body, bellows. Count every part.",
      caution:
        "The dome may hold its charge: never heat or clamp it. Sharp edges. H2S in what drips off.",
      answers: ["old serial matches"],
      fields: [
        serial("pulled-serial", "Serial of the pulled valve"),
        choice("pulled-complete", "Valve complete", [
          ["complete", "Complete, nothing missing"],
          ["missing", "A part is missing", adverse],
        ]),
        choice("pulled-condition", "Condition", [
          ["port cut", "Port or stem cut"],
          ["check open", "Check stuck or cut"],
          ["charge lost", "Bellows or charge lost"],
          ["packing", "Packing damaged"],
          ["plugged", "Plugged or scaled"],
          ["good", "Looks good", adverse],
        ]),
        words("pulled-words", "In words", true),
      ],
    }),
  ],
};
