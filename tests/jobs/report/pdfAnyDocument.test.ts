import { PDFDocument } from "@cantoo/pdf-lib";
import fc from "fast-check";
import { beforeAll, expect, it } from "vitest";
import type { Axis, Block, Cell, ReportDocument } from "../../../src/jobs/report/document.ts";
import { Fonts } from "../../../src/jobs/report/pdf/fonts.ts";
import { setPdf } from "../../../src/jobs/report/pdf/setPdf.ts";
import { greyJpeg } from "./jpeg.ts";
import { paperFonts } from "./paperFonts.ts";
import { firstMissing, pagesOf } from "./readPdf.ts";
import { wordsOfDocument } from "./wordsOfDocument.ts";

const TIMES = 25;

/** Anything that can be in a text, halves of surrogate pairs included. */
const anyText = fc.oneof(
  fc.string({ maxLength: 60 }),
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.string({ unit: "grapheme", maxLength: 60 }),
  fc.string({
    unit: fc.constantFrom("\ud83d", "\ude00", "\u200f", "\u0000", "\n", "ש", " ", "é", "́"),
  }),
  fc.string({ unit: fc.constantFrom("a", "b", "0", "-"), minLength: 300, maxLength: 900 }),
);

/** Letters, figures and signs that the fonts have, and that a search finds under the character they were written with. */
const coveredText = fc
  .array(
    fc.string({
      unit: fc.constantFrom(..."abcxyzAZ0189.,;:-+()/°²³αβγΔρπωΩЖщйłőŠ√≥≤≈₀₁⁻∙→"),
      minLength: 1,
      maxLength: 24,
    }),
    { maxLength: 12 },
  )
  .map((words) => words.join(" "));

const number = fc.double({ noDefaultInfinity: false });
const few = { maxLength: 5 };

function documents(text: fc.Arbitrary<string>): fc.Arbitrary<ReportDocument> {
  const tone = fc.constantFrom("soft", "strong", "problem", "calculated" as const);
  const cell: fc.Arbitrary<Cell> = fc.oneof(text, fc.record({ text, tone }));
  const axis: fc.Arbitrary<Axis> = fc.record({
    label: text,
    from: number,
    to: number,
    // Within every axis that there is: a mark beyond its axis is not drawn.
    ticks: fc.constant([]),
  });
  const block: fc.Arbitrary<Block> = fc.oneof(
    fc.record({ kind: fc.constant("heading"), text }),
    fc.record({ kind: fc.constant("words"), text, tone }),
    fc.record({ kind: fc.constant("facts"), rows: fc.array(fc.tuple(text, cell), few) }),
    fc.record({
      kind: fc.constant("table"),
      caption: text,
      columns: fc.array(
        fc.record({
          title: text,
          align: fc.constantFrom("left", "right"),
          share: fc.oneof(fc.constant(1), number),
        }),
        few,
      ),
      rows: fc.array(fc.array(cell, { maxLength: 7 }), few),
    }),
    fc.record({ kind: fc.constant("list"), items: fc.array(cell, few) }),
    fc.record({
      kind: fc.constant("chart"),
      chart: fc.record({
        title: text,
        x: axis,
        y: axis,
        series: fc.array(
          fc.record({
            name: text,
            shape: fc.constantFrom("line", "dashed line", "steps", "dots", "rings", "bar", "band"),
            of: fc.constantFrom("measured", "calculated", "limit"),
            points: fc.array(fc.array(number, { maxLength: 3 }), few),
          }),
          few,
        ),
        ratio: fc.oneof(fc.constant(0.6), number),
      }),
    }),
    fc.record({
      kind: fc.constant("photograph"),
      picture: fc.constantFrom("here", "junk", "0123456789abcdef".repeat(4)),
      width: fc.nat(4000),
      height: fc.nat(4000),
      caption: text,
    }),
    fc.record({
      kind: fc.constant("signature"),
      name: text,
      role: text,
      at: text,
      of: text,
      strokes: fc.array(fc.array(fc.tuple(fc.nat(600), fc.nat(200)), few), few),
    }),
  ) as fc.Arbitrary<Block>;
  const part = fc.record({
    id: fc.string(),
    title: text,
    newPage: fc.boolean(),
    blocks: fc.array(block, { maxLength: 8 }),
  });
  return fc.record({
    title: text,
    subtitle: text,
    foot: text,
    asOf: fc.constantFrom("2026-03-15T09:12:00.000Z", "no instant"),
    parts: fc.array(part, { maxLength: 3 }),
  });
}

const pictures = async (hash: string) =>
  hash === "here" ? greyJpeg(160, 120) : hash === "junk" ? Uint8Array.of(0xff, 0xd8, 0) : undefined;

const set = (document: ReportDocument, paper: "A4" | "Letter") =>
  setPdf(document, { paper, fonts: paperFonts, pictures });

let fonts: Fonts;
beforeAll(async () => {
  fonts = await Fonts.of(await PDFDocument.create(), paperFonts);
});

it("any document can be set, whatever stands in it, and says how many pages it has", async () => {
  await fc.assert(
    fc.asyncProperty(
      documents(anyText),
      fc.constantFrom("A4", "Letter"),
      async (document, paper) => {
        const pages = await pagesOf(await set(document, paper));
        pages.forEach((page, index) => {
          expect(page).toContain(`page ${index + 1} of ${pages.length}`);
        });
      },
    ),
    { numRuns: TIMES },
  );
});

it("every word that the fonts have is found, in the document's order", async () => {
  await fc.assert(
    fc.asyncProperty(
      documents(coveredText),
      fc.constantFrom("A4", "Letter"),
      async (document, paper) => {
        const words = wordsOfDocument(document);
        for (const word of words) fonts.word(word, "regular");
        expect([...fonts.missing]).toEqual([]);
        const text = (await pagesOf(await set(document, paper))).join("\n");
        expect(firstMissing(words, text)).toBeUndefined();
      },
    ),
    { numRuns: TIMES },
  );
});
