import { barriers, comingOut, mustBeYes, step } from "../parts.ts";
import type { SheetItem } from "../sheet.ts";

interface ComeOut {
  /** what hangs on the string */
  readonly what: string;
  /** what is watched on the way, a sentence of its own */
  readonly onTheWay?: string;
  /** what is about to be opened at surface */
  readonly before: string;
  /** the step that opens it */
  readonly guards: string;
}

/** From the pocket to the surface on the pull string, up to the barriers behind which the lubricator is opened. */
export const comeOut = ({ what, onTheWay, before, guards }: ComeOut): SheetItem[] => [
  step({
    id: "pull-out",
    title: `Come out with the ${what}`,
    instruction: [
      "Slow where the arm has to fold, at safety valve and hanger and for the last 200 ft.",
      ...(onTheWay === undefined ? [] : [onTheWay]),
      "Count every tool at surface before the crown valve closes.",
    ].join(" "),
    caution: comingOut,
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
  ...barriers("third", before, guards, "pull-all-out"),
];
