import { conditionWords, pulledConditions } from "../../pulledConditions.ts";
import {
  adverse,
  answer,
  bothGauges,
  check,
  choice,
  count,
  hold,
  quantity,
  serial,
  signature,
  step,
  words,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";
import { comeOut } from "./comeOut.ts";
import type { PocketOptions } from "./options.ts";
import { reachPocket } from "./reachPocket.ts";

/** The old valve out of its pocket, to the surface, and looked at. */
export const pullRun = (options: PocketOptions): Phase => ({
  id: "pull",
  title: "Pull run",
  items: [
    ...reachPocket(options),
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
        answer(
          "level-latched",
          "latch-held",
          ["held"],
          "Latched: the light pull held",
          "Not latched. Lift, tap again; fill on the latch is bailed or washed. Do not jar.",
        ),
        check(
          "pocket-ok",
          "right pocket",
          "Resting where the schematic has the mandrel",
          { pocket: "pocket-depth", counter: "known-counter" },
          ["production engineer"],
        ),
        check(
          "neighbours-ok",
          "neighbours agree",
          "Neighbouring mandrels found where the schematic has them",
          { above: "tagged-above", below: "tagged-below", counter: "known-counter" },
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
      caution:
        "Everybody clear of the line and the sheaves: jarred wire can part and whip. A surge as it comes free drives the string up: stop jarring, do not winch after it, watch both gauges. The weight of a valve is less than the noise of the indicator and proves nothing.",
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
    ...comeOut({
      what: "valve",
      onTheWay: "After a surge look at the wire on the way.",
      before: "the lubricator is opened to take the valve",
      guards: "inspect",
    }),
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
        choice(
          "pulled-condition",
          "Condition",
          pulledConditions.map(
            (condition) =>
              [
                condition,
                conditionWords[condition],
                // A valve that looks good was not what ailed the well: the engineer looks at it.
                condition === "good" ? adverse : {},
              ] as const,
          ),
        ),
        // Zero is a lost charge, low a leak or a wrong set, right not this valve: it tells a fault of the valve from one elsewhere.
        choice(
          "pulled-charge",
          "Charge left, by the test rack",
          [
            ["as set", "As set"],
            ["low", "Low"],
            ["none", "None"],
            ["not tested", "Not tested here"],
          ],
          true,
        ),
        quantity("pulled-opening", "Test-rack opening as found", "pressure", { optional: true }),
        words("pulled-words", "In words", true),
      ],
    }),
  ],
});
