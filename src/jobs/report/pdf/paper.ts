/** Sizes of a page set on paper, in points (1/72 in): one place for how the whole report looks. */

export type Paper = "A4" | "Letter";

export const paperSizes: Readonly<Record<Paper, readonly [width: number, height: number]>> = {
  A4: [595.28, 841.89],
  Letter: [612, 792],
};

export const margins = { side: 54, top: 66, foot: 56 } as const;

/** Size of type and height of its line. */
export interface Type {
  readonly size: number;
  readonly leading: number;
}

export const types = {
  title: { size: 22, leading: 28 },
  subtitle: { size: 12, leading: 17 },
  part: { size: 15, leading: 20 },
  heading: { size: 11.5, leading: 16 },
  body: { size: 10, leading: 14.5 },
  table: { size: 8.5, leading: 11.5 },
  small: { size: 8, leading: 11 },
} as const satisfies Record<string, Type>;

/** How words and tables of a part are set, in points. */
interface Look {
  readonly heading: Type;
  readonly body: Type;
  readonly table: Type;
  /** white above and below the text of a row */
  readonly padding: number;
  /** white before a heading, before words and before a table */
  readonly before: { readonly heading: number; readonly words: number; readonly table: number };
}

/** Dense is for what is long and looked things up in. */
export const looks = {
  usual: {
    heading: types.heading,
    body: types.body,
    table: types.table,
    padding: 2.5,
    before: { heading: 12, words: 5, table: 8 },
  },
  dense: {
    heading: { size: 9, leading: 12 },
    body: { size: 8, leading: 10.5 },
    table: { size: 8, leading: 10 },
    padding: 1.3,
    before: { heading: 9, words: 2, table: 3 },
  },
} as const satisfies Record<string, Look>;

/** Colours as PDF has them, red, green, blue of 1. The steel and the ember of the screens, on white. */
export const colours = {
  ink: "0 0 0",
  soft: "0.27 0.25 0.2",
  steel: "0.09 0.267 0.373",
  steelWash: "0.875 0.91 0.918",
  ember: "0.561 0.212 0.051",
  edge: "0.66 0.61 0.51",
  hair: "0.85 0.83 0.79",
  white: "1 1 1",
} as const;

export type Colour = (typeof colours)[keyof typeof colours];
