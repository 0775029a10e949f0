import {
  answer,
  bothGauges,
  check,
  depth,
  equalisingPlan,
  fluidLevelNow,
  hold,
  mustBeYes,
  planAgreed,
  quantity,
  step,
  unionProved,
  unionTest,
  words,
} from "../parts.ts";
import type { SheetItem } from "../sheet.ts";
import type { PocketOptions } from "./options.ts";

/** From the pull string on the line to the tool at the pocket: the same whether a valve sits in it or not. */
export function reachPocket({ work, kickover }: PocketOptions): SheetItem[] {
  const isEmpty = work === "set into an empty pocket";
  const orienting = kickover === "orienting";
  const find = orienting
    ? "Run to 10 to 30 ft below the sleeve (common practice), pick up slowly until the key takes, kick over"
    : "No sleeve turns the tool: by depth and feel, turn and lower a few times until the arm swings out in the belly of the mandrel";
  return [
    step({
      id: "pull-string-on",
      title: isEmpty ? "String with the block on" : "Pull string on",
      instruction: `${
        isEmpty
          ? "Make up the pull string with kickover tool and an impression block in place of the pulling tool."
          : "Make up the pull string with kickover tool and pulling tool. Check shear pins and shear direction."
      } Arm's lock, knuckle free. Re-make the lubricator, test the broken union, equalise, open, zero the counter as before.`,
      caution: "A union that was broken is tested again before it sees the well.",
      figures: ["expected-maximum"],
      answers: ["union covers the well"],
      fields: [
        mustBeYes(
          "pull-zero",
          "Counter zeroed at the same reference",
          "Another zero is another depth. Zero the counter at the same point as for the gauge.",
        ),
        ...unionTest("pull"),
        ...(isEmpty
          ? []
          : [words("pull-pins", "Pulling tool pins: material, count, shear direction")]),
      ],
      string: "pull",
      stringAt: "surface",
    }),
    equalisingPlan("level", isEmpty ? "the open pocket is entered" : "the valve is unseated"),
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
        ...unionProved("pull"),
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
          "let in": "level-first-wellhead",
        }),
        check(
          "pull-level",
          "levelled",
          "Annulus and tubing within the band at the mandrel",
          isEmpty ? { "open pocket": "level-first-casing" } : undefined,
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
      instruction: `Tag the mandrels above and below, so that the pocket is proved. ${find}, slack down ${isEmpty ? "into the pocket" : "onto the latch"}.`,
      expect: orienting
        ? "Over-pull of 100 to 300 lbf when the key takes (common practice), then a small jump; weight lost when it comes to rest."
        : "No over-pull and no turn: weight lost when it comes to rest, at the depth of the pocket. Works mainly in near vertical wells (common practice).",
      figures: ["counter-at-mandrel", "counter-above", "counter-below"],
      answers: ["neighbours agree", "right pocket"],
      fields: [
        depth("tagged-above", "Mandrel above tagged at; this or the one below", {
          expected: "counter-above",
          band: "depth",
          optional: true,
        }),
        depth("tagged-below", "Mandrel below tagged at; this or the one above", {
          expected: "counter-below",
          band: "depth",
          optional: true,
        }),
        depth(
          "pocket-depth",
          isEmpty ? "Depth resting in the pocket" : "Depth resting on the latch",
          {
            channel: "tagged mandrel depth",
            expected: "counter-at-mandrel",
            band: "depth",
          },
        ),
        ...(orienting
          ? [
              quantity("key-pull", "Largest line pull with the key in the sleeve", "force", {
                most: "largest-pull",
                optional: true,
              }),
            ]
          : []),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
  ];
}
