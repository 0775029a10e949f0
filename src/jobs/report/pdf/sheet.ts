import { PDFHexString, type PDFImage } from "@cantoo/pdf-lib";
import { isRightToLeft } from "./characters.ts";
import type { Face } from "./face.ts";
import type { Line } from "./lines.ts";
import { type Colour, colours, type Type } from "./paper.ts";

export type Point = readonly [x: number, y: number];

/** How a line is drawn. */
export interface Pen {
  readonly colour: Colour;
  readonly width: number;
  readonly dash?: readonly number[];
  /** round ends and corners, as a pen on paper leaves them */
  readonly round?: boolean;
}

/** One page as it is filled. Places are counted in points from its upper left corner, y down. */
export class Sheet {
  readonly width: number;
  readonly height: number;
  readonly faces = new Set<Face>();
  readonly images = new Map<string, PDFImage>();
  private readonly operations: string[] = [];

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }

  /** Everything drawn, as a content stream has it. */
  get content(): string {
    return this.operations.join("\n");
  }

  /** A line of text in a line of its type's height. */
  text({ runs }: Line, { size, leading }: Type, colour: Colour, x: number, top: number): void {
    if (runs.length === 0) return;
    // Capitals, 0.67 of the size high, stand in the middle of the line.
    const baseline = top + leading / 2 + size * 0.335;
    const y = this.height - baseline;
    const parts = [`BT ${colour} rg ${n(x)} ${n(y)} Td`];
    let at = x;
    for (const { face, glyphs, width, placed, thickened } of runs) {
      this.faces.add(face);
      parts.push(`/${face.name} ${n(size * face.scale)} Tf`);
      if (thickened) parts.push(`${colour} RG ${n(size * 0.03)} w 2 Tr`);
      if (placed) {
        const shown = placed.places.map(
          (place) => `${moveTo(at + place.x * size, y + place.y * size)} <${place.glyph}> Tj`,
        );
        // A search finds the text as it was written, at whatever height its glyphs stand. What is written from right to
        // left is turned by the reading program, which would turn this once too often.
        if (isRightToLeft(placed.text)) parts.push(...shown);
        else {
          const text = PDFHexString.fromText(placed.text);
          parts.push(`/Span << /ActualText ${text} >> BDC`, ...shown, "EMC");
        }
        parts.push(moveTo(at + width * size, y));
      } else parts.push(`<${glyphs}> Tj`);
      at += width * size;
      if (thickened) parts.push("0 Tr");
    }
    this.operations.push(`${parts.join(" ")} ET`);
  }

  line(points: readonly Point[], pen: Pen): void {
    if (points.length === 0) return;
    this.operations.push(`q ${penOf(pen)} ${this.path(points)} S Q`);
  }

  area(points: readonly Point[], colour: Colour): void {
    if (points.length === 0) return;
    this.operations.push(`q ${colour} rg ${this.path(points)} h f Q`);
  }

  rectangle(x: number, top: number, width: number, height: number, fill: Colour): void {
    this.operations.push(
      `q ${fill} rg ${n(x)} ${n(this.height - top - height)} ${n(width)} ${n(height)} re f Q`,
    );
  }

  /** A shape with its outline drawn, filled with white or with the outline's colour. */
  outlined(points: readonly Point[], pen: Pen, fill: Colour): void {
    this.operations.push(`q ${penOf(pen)} ${fill} rg ${this.path(points)} h B Q`);
  }

  circle([x, y]: Point, radius: number, pen: Pen, fill: Colour): void {
    // Four curves whose handles are this long stray from a circle by 0.03 %.
    const handle = 0.5523 * radius;
    const [cx, cy] = [x, this.height - y];
    const quarter = (...numbers: readonly number[]) => `${numbers.map(n).join(" ")} c`;
    this.operations.push(
      [
        `q ${penOf(pen)} ${fill} rg ${n(cx + radius)} ${n(cy)} m`,
        quarter(cx + radius, cy + handle, cx + handle, cy + radius, cx, cy + radius),
        quarter(cx - handle, cy + radius, cx - radius, cy + handle, cx - radius, cy),
        quarter(cx - radius, cy - handle, cx - handle, cy - radius, cx, cy - radius),
        quarter(cx + handle, cy - radius, cx + radius, cy - handle, cx + radius, cy),
        "h B Q",
      ].join(" "),
    );
  }

  image(image: PDFImage, x: number, top: number, width: number, height: number): void {
    const name = `P${image.ref.objectNumber}`;
    this.images.set(name, image);
    this.operations.push(
      `q ${n(width)} 0 0 ${n(height)} ${n(x)} ${n(this.height - top - height)} cm /${name} Do Q`,
    );
  }

  /** Draws with everything outside a rectangle left out. */
  within(x: number, top: number, width: number, height: number, draw: () => void): void {
    this.operations.push(
      `q ${n(x)} ${n(this.height - top - height)} ${n(width)} ${n(height)} re W n`,
    );
    draw();
    this.operations.push("Q");
  }

  private path(points: readonly Point[]): string {
    return points
      .map(([x, y], index) => `${n(x)} ${n(this.height - y)} ${index === 0 ? "m" : "l"}`)
      .join(" ");
  }
}

export const hairline: Pen = { colour: colours.hair, width: 0.6 };

const moveTo = (x: number, y: number) => `1 0 0 1 ${n(x)} ${n(y)} Tm`;

const penOf = ({ colour, width, dash = [], round = false }: Pen) =>
  `${colour} RG ${n(width)} w${round ? " 1 J 1 j" : ""}${dash.length > 0 ? ` [${dash.map(n).join(" ")}] 0 d` : ""}`;

/** A number as PDF reads it: no exponent, two places, a hundredth of a point being less than any printer shows. */
const n = (value: number) => String(Math.round(value * 100) / 100);
