import { PDFDocument } from "@cantoo/pdf-lib";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Block, ReportDocument } from "../../../src/jobs/report/document.ts";
import { type Setting, setPdf } from "../../../src/jobs/report/pdf/setPdf.ts";
import { greyJpeg } from "./jpeg.ts";
import { paperFonts } from "./paperFonts.ts";
import { bare, firstMissing, pagesOf } from "./readPdf.ts";
import { sample } from "./sampleDocument.ts";
import { wordsOfDocument } from "./wordsOfDocument.ts";

const set = (document: ReportDocument, more: Partial<Setting> = {}) =>
  setPdf(document, {
    paper: "A4",
    fonts: paperFonts,
    pictures: async (hash) => (hash === "here" ? greyJpeg(1600, 1200) : undefined),
    ...more,
  });

const withBlocks = (...blocks: Block[]): ReportDocument => ({
  title: "EM-14",
  subtitle: "",
  foot: "as of 09:12",
  asOf: "2026-03-15T09:12:00.000Z",
  parts: [{ id: "only", title: "Only part", blocks }],
});

const textOf = async (document: ReportDocument, more?: Partial<Setting>) =>
  (await pagesOf(await set(document, more))).join("\n");

describe("a report on paper", () => {
  it("says every word of the document, in its order", async () => {
    expect(firstMissing(wordsOfDocument(sample), await textOf(sample))).toBeUndefined();
  });

  it.each([
    { paper: "A4", size: [595.28, 841.89] },
    { paper: "Letter", size: [612, 792] },
  ] as const)("has every page in $paper", async ({ paper, size }) => {
    const pdf = await PDFDocument.load(await set(sample, { paper }));
    const sizes = pdf.getPages().map((page) => [page.getWidth(), page.getHeight()]);
    expect(sizes.length).toBeGreaterThan(3);
    expect(sizes).toEqual(sizes.map(() => size));
  });

  it("sets a dense part on fewer pages, with the same words", async () => {
    const rows = Array.from({ length: 120 }, (_, index) => [`pressure ${index}`, `${index} psig`]);
    const columns = [{ title: "What" }, { title: "Value" }];
    const usual = withBlocks(
      { kind: "heading", text: "Worked out" },
      { kind: "words", text: "p = p0 + g h", keep: true },
      { kind: "table", columns, rows },
    );
    const dense = { ...usual, parts: usual.parts.map((part) => ({ ...part, dense: true })) };
    const pages = (await pagesOf(await set(dense))).length;
    expect(pages).toBeLessThan((await pagesOf(await set(usual))).length);
    expect(firstMissing(wordsOfDocument(dense), await textOf(dense))).toBeUndefined();
  });

  it("has the foot and the page's number on every page, and the title above all but the first", async () => {
    const pages = await pagesOf(await set(sample));
    pages.forEach((page, index) => {
      expect(bare(page)).toContain(bare(sample.foot));
      expect(page).toContain(`page ${index + 1} of ${pages.length}`);
      expect(page.split(sample.title)).toHaveLength(2);
    });
  });

  it("names title, language, maker and the day of the last event", async () => {
    const pdf = await PDFDocument.load(await set(sample), { updateMetadata: false });
    expect(pdf.getTitle()).toBe(sample.title);
    expect(pdf.getSubject()).toBe(sample.subtitle);
    expect(pdf.getProducer()).toBe("Latchline");
    expect(pdf.getCreationDate()?.toISOString()).toBe(sample.asOf);
    expect(pdf.catalog.toString()).toContain("/Lang");
  });

  it("has a bookmark for each part", async () => {
    const pdf = await PDFDocument.load(await set(sample));
    const written = pdf.context
      .enumerateIndirectObjects()
      .map(([, object]) => object.toString())
      .filter((object) => object.includes("/Dest"));
    expect(written).toHaveLength(sample.parts.length);
  });

  it("is one page when nothing is in it", async () => {
    const pages = await pagesOf(await set({ ...withBlocks(), title: "", foot: "", parts: [] }));
    expect(pages).toHaveLength(1);
    expect(pages[0]).toContain("page 1 of 1");
  });
});

describe("the same document", () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  it("gives the same bytes whenever it is made", async () => {
    vi.useFakeTimers({ toFake: ["Date"] });
    const made: Uint8Array[] = [];
    for (const day of ["2026-03-15", "2027-08-01"]) {
      vi.setSystemTime(new Date(`${day}T10:00:00Z`));
      made.push(await set(sample));
    }
    expect(Buffer.compare(...(made as [Uint8Array, Uint8Array]))).toBe(0);
  });
});

describe("text", () => {
  it("of a formula is found with its Greek letters, signs and raised figures", async () => {
    const formula = "q = C·√(2 ρ Δp) ≥ 0 m³·s⁻², z₀ ≈ 0.92, α ≤ ½ × 10⁻³";
    expect(bare(await textOf(withBlocks({ kind: "words", text: formula })))).toContain(
      bare(formula),
    );
  });

  it("of names is found in Latin, Greek, Cyrillic and Hebrew letters", async () => {
    const names = ["Łukasz Đorđević-Ñuñez", "Ωμέγα Παπαδόπουλος", "Жанна Щёкина", "שלום"];
    const text = await textOf(withBlocks({ kind: "list", items: names }));
    for (const name of names) expect(bare(text)).toContain(bare(name));
  });

  it("with marks that no letter has of its own is found as it was written", async () => {
    const bytes = await set(withBlocks({ kind: "words", text: "Name: Yo\u0323\u0300ba\u0304" }));
    const [page] = await pagesOf(bytes);
    expect(bare(page ?? "")).toContain(bare("Name:Yo\u0323\u0300ba\u0304"));
  });

  it("without a font is seen as replaced, and named at the end", async () => {
    const text = await textOf(withBlocks({ kind: "words", text: "Name: 王伟, and \u0007 too" }));
    expect(text).toContain("Name: \uFFFD\uFFFD, and \uFFFD too");
    expect(text).toContain("U+738B U+4F1F");
  });

  it("has the line ends that it was given", async () => {
    const text = await textOf(withBlocks({ kind: "words", text: "first\nsecond\r\nthird" }));
    expect(text).toMatch(/first\nsecond\nthird/u);
  });

  it.each([
    { where: "words", block: (text: string): Block => ({ kind: "words", text }) },
    {
      where: "a fact",
      block: (text: string): Block => ({ kind: "facts", rows: [["hash", text]] }),
    },
    {
      where: "a narrow cell",
      block: (text: string): Block => ({
        kind: "table",
        columns: Array.from({ length: 9 }, (_, index) => ({ title: `c${index}` })),
        rows: [[text, "beside"]],
      }),
    },
    { where: "a heading", block: (text: string): Block => ({ kind: "heading", text }) },
  ])("that is one very long word breaks in $where", async ({ block }) => {
    const word = "0123456789abcdef".repeat(400);
    const pages = await pagesOf(await set(withBlocks(block(word))));
    // Without what stands around each page's text the pieces of the word follow each other.
    const text = pages
      .map((page) => bare(page).replace(/(EM-14)?asof09:12page\d+of\d+$/u, ""))
      .join("");
    // The rows of its pieces stand beside the other cells, which come after them on the first page.
    expect(text.replace("beside", "").replaceAll("c0c1c2c3c4c5c6c7c8", "")).toContain(word);
  });
});

describe("a table", () => {
  const rows = Array.from({ length: 400 }, (_, index) => [
    `${index + 1}.`,
    `reading ${index + 1}`,
    `${1000 + index}`,
  ]);
  const long = withBlocks({
    kind: "table",
    caption: "All readings",
    columns: [{ title: "Number" }, { title: "What was read" }, { title: "psig", align: "right" }],
    rows,
  });

  it("of 400 rows has its header above the rows of every page, and each row whole and once", async () => {
    const pages = await pagesOf(await set(long));
    expect(pages.length).toBeGreaterThan(6);
    for (const page of pages) {
      expect(page.split("What was read")).toHaveLength(2);
      expect(page.indexOf("What was read")).toBeLessThan(page.search(/reading \d/u));
    }
    for (const [number = "", what = "", psig = ""] of rows) {
      const wanted = bare(`${number}${what}${psig}`);
      const on = pages.filter((page) => bare(page).includes(wanted));
      // "1.reading 11001" is in "11.reading 11…" too: the row is on one page if the page before it says so.
      expect(on.length, wanted).toBe(1);
    }
  });

  it("goes on with the rest of a row that is taller than a page", async () => {
    const tall = Array.from({ length: 2000 }, (_, index) => `word${index}`);
    const pages = await pagesOf(
      await set(
        withBlocks({
          kind: "table",
          columns: [{ title: "Note" }, { title: "By" }],
          rows: [[tall.join(" "), "R. Tamsin"]],
        }),
      ),
    );
    expect(firstMissing(tall, pages.join("\n"))).toBeUndefined();
    for (const page of pages) expect(page).toContain("Note");
  });

  it("keeps a figure with its unit, and thousands together, where words around it break", async () => {
    const row = ["1400 psig", "14\u2009200 ft", "12.5 kSm³/d", "2 valves of it"];
    for (let columns = 6; columns < 11; columns += 1) {
      const cells = Array.from({ length: columns }, (_, index) => row[index % row.length] ?? "");
      const titles = cells.map(() => ({ title: "", align: "right" as const }));
      const text = await textOf(withBlocks({ kind: "table", columns: titles, rows: [cells] }));
      for (const figure of ["1400 psig", "14 200 ft", "12.5 kSm³/d"]) {
        expect(text, `${columns} columns`).toContain(figure);
      }
    }
  });

  it("never leaves a title among its rows at the foot of a page", async () => {
    for (let above = 28; above < 60; above += 1) {
      const rows = Array.from({ length: above + 9 }, (_, index) => [`row ${index}`]);
      rows[above] = ["Title here"];
      const pages = await pagesOf(
        await set(withBlocks({ kind: "table", columns: [{ title: "" }], rows, titles: [above] })),
      );
      const page = pages.find((each) => each.includes("Title here"));
      expect(page, `${above} rows`).toContain(`row ${above + 1}`);
    }
  });

  it("shows the cells beyond its columns", async () => {
    const text = await textOf(
      withBlocks({ kind: "table", columns: [{ title: "one" }], rows: [["a", "b", "beyond"]] }),
    );
    expect(text).toContain("beyond");
  });
});

describe("headings", () => {
  it("never stand at the end of a page", async () => {
    const line: Block = { kind: "words", text: "One line." };
    // Line by line, the heading comes to stand at every place of the page.
    for (let above = 25; above < 45; above += 1) {
      const lines = Array.from({ length: above }, () => line);
      const heading: Block = { kind: "heading", text: "Heading here" };
      const pages = await pagesOf(
        await set(withBlocks(...lines, heading, { kind: "words", text: "Below it." })),
      );
      for (const page of pages) {
        expect(page.includes("Heading here"), `${above} lines`).toBe(page.includes("Below it."));
      }
    }
  });
});

describe("photographs", () => {
  const photograph = (picture: string): Block => ({
    kind: "photograph",
    picture,
    width: 4,
    height: 3,
    caption: `caption of ${picture}`,
  });

  it("are in the file as they are, once, however often they are shown", async () => {
    const jpeg = greyJpeg(1600, 1200);
    const bytes = Buffer.from(await set(withBlocks(photograph("here"), photograph("here"))));
    const at = bytes.indexOf(jpeg);
    expect(at).toBeGreaterThan(0);
    expect(bytes.indexOf(jpeg, at + 1)).toBe(-1);
  });

  it.each([
    { when: "not here", bytes: undefined, said: "This photograph is not on this device." },
    { when: "empty", bytes: new Uint8Array(), said: "no JPEG that can be read" },
    {
      when: "cut off",
      bytes: greyJpeg(1600, 1200).slice(0, 70),
      said: "no JPEG that can be read",
    },
  ])("say so when they are $when", async ({ bytes, said }) => {
    const hash = "3f2a9c0d".repeat(8);
    const text = await textOf(withBlocks(photograph(hash)), { pictures: async () => bytes });
    expect(bare(text)).toContain(bare(said));
    expect(bare(text)).toContain(hash);
    expect(bare(text)).toContain(bare(`caption of ${hash}`));
  });
});

describe("setting", () => {
  it("tells how far it is, ending with everything", async () => {
    const told: number[] = [];
    let pages = 0;
    await set(sample, {
      onProgress: (progress) => {
        told.push(progress.share);
        pages = progress.pages;
      },
    });
    expect(told.length).toBeGreaterThan(10);
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(told.at(-1)).toBe(1);
    expect(pages).toBe((await pagesOf(await set(sample))).length);
  });

  it("stops when it is given up", async () => {
    const giveUp = new AbortController();
    const why = new Error("given up");
    const setting = set(sample, {
      signal: giveUp.signal,
      onProgress: ({ pages }) => {
        if (pages === 2) giveUp.abort(why);
      },
    });
    await expect(setting).rejects.toBe(why);
  });
});
