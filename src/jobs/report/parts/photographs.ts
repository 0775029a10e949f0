import { contingencyById, itemId, itemsOf } from "../../sheet/walk.ts";
import type { Photograph } from "../../state/jobState.ts";
import type { Block, Part } from "../document.ts";
import { entryNumber, type Reported } from "../reported.ts";
import { when } from "../when.ts";

/** Every photograph that the log names; one that this tablet does not hold is said by its name. */
export function photographsPart(of: Reported): Part | undefined {
  const { photographs } = of.state;
  if (photographs.length === 0) return undefined;
  return {
    id: "photographs",
    title: "Photographs",
    newPage: true,
    blocks: photographs.map((each) => photographBlock(each, of)),
  };
}

function photographBlock(photograph: Photograph, of: Reported): Block {
  const { picture, width, height, event } = photograph;
  const caption = captionOf(photograph, of);
  return of.extra.missing.has(picture)
    ? {
        kind: "words",
        tone: "problem",
        text: `${caption} This picture is not on the tablet that made the report; the log names it by ${picture}.`,
      }
    : { kind: "photograph", picture, width, height, caption: `${caption} ${event.actor.name}.` };
}

function captionOf({ caption, at, event }: Photograph, { state, programme }: Reported): string {
  const { sheet } = programme;
  const item = itemsOf(sheet).find((each) => itemId(each) === at);
  const place =
    item?.type === "step"
      ? item.step.title
      : (item?.hold.title ?? (at === undefined ? undefined : contingencyById(sheet, at)?.title));
  const said = [caption, place].filter(Boolean).join(". ");
  return `Entry ${entryNumber(state, event)}, ${when(event.at)}${said ? `: ${said}` : ""}.`;
}
