import type { ReportDocument } from "../document.ts";
import { columnOf, drawColumn, heightOf } from "./column.ts";
import type { Fonts } from "./fonts.ts";
import { linesOf, shortened } from "./lines.ts";
import { colours, margins, types } from "./paper.ts";
import type { Measure } from "./prose.ts";
import { hairline, type Sheet } from "./sheet.ts";

const type = types.small;
/** for "page 100 of 100" */
const NUMBER = 90;
const HEAD = { text: 34, rule: 48 } as const;
/** Lines of a foot; a longer one would leave no page to be read. */
const MOST_LINES = 6;

/** What stands above and below the text of each page: the title, the foot and the page's number. */
export class HeadAndFoot {
  /** where the text of a page ends, from above */
  readonly bottom: number;
  private readonly fonts: Fonts;
  private readonly document: ReportDocument;
  private readonly measure: Measure;
  private readonly foot: ReturnType<typeof columnOf>;

  constructor(fonts: Fonts, document: ReportDocument, measure: Measure, height: number) {
    this.fonts = fonts;
    this.document = document;
    this.measure = measure;
    const whole = columnOf(
      fonts,
      { text: document.foot, tone: "soft" },
      type,
      measure.width - NUMBER,
    );
    this.foot = { ...whole, lines: whole.lines.slice(0, MOST_LINES) };
    this.bottom = height - margins.foot - heightOf(this.foot) + type.leading;
  }

  draw(sheet: Sheet, page: number, of: number): void {
    const { left, width } = this.measure;
    // The first page has the title itself.
    if (page > 1) {
      const title = shortened(this.fonts, this.document.title, "regular", width / type.size);
      sheet.text(title, type, colours.soft, left, HEAD.text);
      this.across(sheet, HEAD.rule);
    }
    this.across(sheet, this.bottom + 14);
    drawColumn(sheet, this.foot, left, this.bottom + 18);
    for (const line of linesOf(this.fonts, `page ${page} of ${of}`, "regular", width)) {
      const x = left + width - line.width * type.size;
      sheet.text(line, type, colours.ink, x, this.bottom + 18);
    }
  }

  private across(sheet: Sheet, top: number): void {
    const { left, width } = this.measure;
    sheet.line(
      [
        [left, top],
        [left + width, top],
      ],
      hairline,
    );
  }
}
