import { adverse, check, choice, hold, step, words } from "../parts.ts";
import type { Phase } from "../sheet.ts";
import { comeOut } from "./comeOut.ts";
import type { PocketOptions } from "./options.ts";
import { reachPocket } from "./reachPocket.ts";

/** A pocket that is empty on paper, looked into before anything is set: what lies in it would be hammered home. */
export const emptyPocket = (options: PocketOptions): Phase => ({
  id: "pocket",
  title: "Look into the pocket",
  items: [
    ...reachPocket(options),
    step({
      id: "pocket-look",
      title: "Feel the pocket",
      instruction: "Lower the block into the pocket and tap once, lightly, for its print.",
      expect:
        "It goes in to the depth of the pocket and stands there; an open pocket meets nothing.",
      caution: "One tap. A block that is hammered in comes back torn, or not at all.",
      fields: [
        choice("pocket-found", "The pocket", [
          ["empty", "Went in, nothing met", { pocketHolds: "nothing" }],
          [
            "blocked",
            "Something is in it",
            {
              stop: "The pocket is not empty. Come out, read the block; the engineer decides what is pulled first.",
            },
          ],
          [
            "fill",
            "Sand or scale",
            { stop: "Come out; brush, wash or bail the pocket, then look again." },
          ],
        ]),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    ...comeOut({
      what: "block",
      before: "the lubricator is opened to look at the block",
      guards: "look-block",
    }),
    step({
      id: "look-block",
      title: "Read the block",
      instruction:
        "Before it is wiped: photograph the print, compare it with the pocket's drawing.",
      answers: ["pocket is empty"],
      fields: [
        choice("block-shows", "The print", [
          ["open pocket", "Rim of an open pocket, nothing else"],
          ["neck", "A neck, a latch or a part", adverse],
          ["unclear", "Not clear", adverse],
        ]),
        words("block-words", "In words", true),
      ],
    }),
    hold({
      id: "pocket-hold",
      title: "Pocket found empty",
      purpose: "Before the replacement is made ready to go in.",
      conditions: [
        check(
          "pocket-empty",
          "pocket is empty",
          "The pocket is empty, by record, by feel and by the print",
          { found: "pocket-found", print: "block-shows" },
          ["production engineer"],
        ),
        check(
          "pocket-ok",
          "right pocket",
          "Rested where the schematic has the mandrel",
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
      ],
      releasedBy: ["wireline supervisor"],
      guards: "card",
    }),
  ],
});
