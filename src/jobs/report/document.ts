import type { Strokes } from "../signature.ts";

/**
 * A report as plain data: what stands on paper, in the order it stands there. A page on the screen, a print from the
 * browser and a PDF are three ways to set the same document.
 */

/** A line of words; what was measured, calculated or exceeded may look different, and says so in words as well. */
export interface Words {
  readonly text: string;
  readonly tone?: "soft" | "strong" | "problem" | "calculated";
}

export type Cell = string | Words;

export interface Column {
  readonly title: string;
  /** figures stand to the right */
  readonly align?: "left" | "right";
  /** share of the width, of all columns' shares; 1 where nothing is said */
  readonly share?: number;
}

export interface Axis {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  /** where there are marks, with what stands at them */
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
}

/**
 * Expected is a hollow ring, measured a filled dot, a limit a hard bar: as on the screens. A bar goes through its
 * points; one that has a single point stands upright across it.
 */
export interface Series {
  readonly name: string;
  readonly shape: "line" | "dashed line" | "steps" | "dots" | "rings" | "bar" | "band";
  readonly of: "measured" | "calculated" | "limit";
  /** [x, y]; of a band [x, low, high] */
  readonly points: readonly (readonly number[])[];
}

export interface Chart {
  readonly title: string;
  /** with `from` at the left */
  readonly x: Axis;
  /** with `from` above: a depth has its smaller figure as `from` */
  readonly y: Axis;
  readonly series: readonly Series[];
  /** height over width of the whole; 0.6 where nothing is said */
  readonly ratio?: number;
}

export type Block =
  | { readonly kind: "heading"; readonly text: string }
  /** kept with what comes next, where it says so */
  | ({ readonly kind: "words"; readonly keep?: boolean } & Words)
  /** name and value, two columns of pairs where there is room */
  | { readonly kind: "facts"; readonly rows: readonly (readonly [name: string, value: Cell])[] }
  | {
      readonly kind: "table";
      readonly caption?: string;
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly Cell[])[];
      /** places of rows that are titles of those after them, and are kept with them */
      readonly titles?: readonly number[];
    }
  | { readonly kind: "list"; readonly items: readonly Cell[] }
  | { readonly kind: "chart"; readonly chart: Chart }
  | {
      readonly kind: "photograph";
      /** hash of its bytes */
      readonly picture: string;
      readonly width: number;
      readonly height: number;
      readonly caption: string;
    }
  | {
      readonly kind: "signature";
      readonly name: string;
      readonly role: string;
      readonly at: string;
      readonly of: string;
      readonly strokes?: Strokes | undefined;
    };

export interface Part {
  readonly id: string;
  readonly title: string;
  /** begins on a new page */
  readonly newPage?: boolean;
  /** long and looked things up in: set smaller and closer */
  readonly dense?: boolean;
  readonly blocks: readonly Block[];
}

export interface ReportDocument {
  readonly title: string;
  readonly subtitle: string;
  /** stands at the foot of every page, beside the page's number; up to six lines of it */
  readonly foot: string;
  /** instant of the last event in it: the document says the same whenever it is made */
  readonly asOf: string;
  readonly parts: readonly Part[];
}
