import { Sheet } from "./sheet.ts";

/** Something with a height that stands on one page. */
export interface Box {
  readonly height: number;
  /** white above it, where it does not begin a page */
  readonly before?: number;
  /** stands on one page with what comes next */
  readonly keep?: boolean;
  readonly newPage?: boolean;
  /** stands above it once more where it begins a page */
  readonly over?: Box;
  /** what of it fits into a height, and the rest; undefined where nothing fits */
  readonly split?: (room: number) => readonly [Box, Box] | undefined;
  draw(sheet: Sheet, top: number): void;
}

/** Where pages have room for boxes, in points from above. */
export interface Room {
  readonly width: number;
  readonly height: number;
  readonly top: number;
  readonly bottom: number;
}

const heightOf = (boxes: readonly Box[]) =>
  boxes.reduce((sum, { height, before = 0 }, index) => sum + height + (index > 0 ? before : 0), 0);

/** Of what goes on over several pages this much stands on the first, in points. */
const BEGINNING = 60;

/** Puts boxes one below the other on as many pages as they take. */
export class Flow {
  readonly sheets: Sheet[] = [];
  private readonly room: Room;
  private at = 0;
  /** whether nothing stands on the present page but what is repeated on each */
  private fresh = true;
  private waiting: Box[] = [];

  constructor(room: Room) {
    this.room = room;
    this.begin();
  }

  add(...boxes: readonly Box[]): void {
    for (const box of boxes) {
      if (box.newPage) this.settle();
      this.waiting.push(box);
      if (!box.keep) this.settle();
    }
  }

  /** Places what still waits for something to stand with. */
  end(): void {
    this.settle();
  }

  private settle(): void {
    const together = this.waiting;
    this.waiting = [];
    const [first] = together;
    if (!first) return;
    // What is taller than any page begins where there is room for what is before its last box, and some of that.
    const whole = heightOf(together);
    const isTooTall = whole > this.room.bottom - this.room.top;
    const needed = isTooTall ? heightOf(together.slice(0, -1)) + BEGINNING : whole;
    const fits = this.whiteOver(first) + needed <= this.left;
    if (!this.fresh && (first.newPage || !fits)) this.begin(first.over);
    for (const box of together) this.place(box);
  }

  private place(box: Box): void {
    let rest = box;
    while (this.whiteOver(rest) + rest.height > this.left) {
      const split = rest.split?.(this.left - this.whiteOver(rest));
      if (split) {
        this.draw(split[0]);
        rest = split[1];
      } else if (this.fresh) break;
      this.begin(rest.over);
    }
    // What is larger than any page and cannot be split is better cut at the page's end than not there.
    this.draw(rest);
  }

  private draw(box: Box): void {
    const top = this.at + this.whiteOver(box);
    const sheet = this.sheets.at(-1);
    if (sheet) box.draw(sheet, top);
    this.at = top + box.height;
    this.fresh = false;
  }

  private whiteOver({ before = 0 }: Box): number {
    return this.fresh ? 0 : before;
  }

  private get left(): number {
    return this.room.bottom - this.at;
  }

  private begin(over?: Box): void {
    const sheet = new Sheet(this.room.width, this.room.height);
    this.sheets.push(sheet);
    this.at = this.room.top;
    this.fresh = true;
    if (over) {
      over.draw(sheet, this.at);
      this.at += over.height;
    }
  }
}
