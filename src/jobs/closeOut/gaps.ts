import { type CloseOutSection, inSentence } from "./line.ts";

/** Something that nothing in the log answers. */
export interface Gap {
  readonly id: string;
  /** e.g. `Pulled: charge left. Not answered.` */
  readonly says: string;
  /** step or hold point at which it is answered; undefined where the sheet does not ask for it */
  readonly at: string | undefined;
}

export function gapsOf(sections: readonly CloseOutSection[]): Gap[] {
  return sections.flatMap(({ title, lines }) =>
    lines.flatMap(({ id, label, says, gap }): Gap[] => {
      if (!gap) return [];
      return [{ id, says: `${title}: ${inSentence(label)}. ${says}`, at: gap.at }];
    }),
  );
}
