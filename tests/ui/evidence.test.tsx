import fc from "fast-check";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { fromBase64, inBase64 } from "../../src/jobs/photographs.ts";
import type { Strokes } from "../../src/jobs/signature.ts";
import { textOfCode } from "../../src/ui/Evidence/barcodes.ts";
import { DrawnSignature } from "../../src/ui/Evidence/DrawnSignature.tsx";
import { noPicture } from "../../src/ui/Evidence/noPicture.ts";
import ScanSerial from "../../src/ui/Evidence/ScanSerial.tsx";
import SignaturePad from "../../src/ui/Evidence/SignaturePad.tsx";
import { smallEnough } from "../../src/ui/Evidence/smallEnough.ts";
import TakePhotograph from "../../src/ui/Evidence/TakePhotograph.tsx";

describe("a picture made small enough", () => {
  /** A picture of so many bytes at full size and best quality; both count alike. */
  const writer = (bytes: number) => {
    const tried: string[] = [];
    const write = async (side: number, quality: number) => {
      tried.push(`${Math.round(side)} at ${quality}`);
      return { size: bytes * (side / 1600) ** 2 * (quality / 0.85) };
    };
    return { tried, write };
  };

  it.each([
    { bytes: 300_000, tried: ["1600 at 0.85"] },
    { bytes: 450_000, tried: ["1600 at 0.85", "1600 at 0.75"] },
    {
      bytes: 700_000,
      tried: [
        "1600 at 0.85",
        "1600 at 0.75",
        "1600 at 0.65",
        "1600 at 0.55",
        "1280 at 0.85",
      ].concat("1280 at 0.75"),
    },
  ])("of $bytes bytes is written rougher first, then smaller", async ({ bytes, tried }) => {
    const writing = writer(bytes);
    const { size } = await smallEnough(writing.write, 1600, 400_000);
    expect(size).toBeLessThanOrEqual(400_000);
    expect(writing.tried).toEqual(tried);
  });

  it("comes to an end where nothing is small enough", async () => {
    const { size } = await smallEnough(async () => ({ size: 500 }), 1600, 400);
    expect(size).toBe(500);
  });

  it("is passed on when it cannot be written at all", async () => {
    await expect(
      smallEnough(() => Promise.reject(new Error("no memory")), 1600, 400),
    ).rejects.toThrow("no memory");
  });
});

describe("a file that is no picture", () => {
  const bytes = (text: string) => new TextEncoder().encode(text);
  it.each([
    { file: "IMG_7.heic", content: "\0\0\0\x18ftypheic\0\0\0\0", says: /HEIC.*save it as JPEG/ },
    { file: "photo.jpg", content: "\0\0\0\x18ftypmif1\0\0\0\0", says: /HEIC/ },
    { file: "film.mp4", content: "\0\0\0\x18ftypisom\0\0\0\0", says: /not a picture.*camera here/ },
    { file: "torn.jpg", content: "\xff\xd8", says: /damaged.*choose a JPEG or PNG/ },
    { file: "none.png", content: "", says: /empty.*Copy it again/ },
  ])("$file is named, with why and the way out", ({ file, content, says }) => {
    const why = noPicture(file, bytes(content));
    expect(why).toMatch(says);
    expect(why.startsWith(`${file} is `)).toBe(true);
  });
});

describe("bytes in base64", () => {
  it("come back as they were, and are what others write", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (given) => {
        expect(inBase64(given)).toBe(Buffer.from(given).toString("base64"));
        expect([...fromBase64(inBase64(given))]).toEqual([...given]);
      }),
    );
  });

  it("are written however many they are", () => {
    const many = new Uint8Array(400_000).map((_, index) => (index * 7) % 256);
    expect(inBase64(many)).toBe(Buffer.from(many).toString("base64"));
  });
});

describe("the text of a code", () => {
  it.each([
    { raw: " VX-1042\r\n", text: "VX-1042" },
    { raw: "\x1d21VX 1042\x1d10B7", text: "21VX 1042 10B7" },
    { raw: "\ufeffVX\u200b-1", text: "VX -1" },
    { raw: "\n\t ", text: "" },
    { raw: "9".repeat(500), text: "9".repeat(400) },
  ])("$raw", ({ raw, text }) => {
    expect(textOfCode(raw)).toBe(text);
  });
});

describe("taking photographs", () => {
  const page = (room?: number) =>
    renderToStaticMarkup(
      <TakePhotograph
        reach="glove"
        {...(room !== undefined && { room })}
        onTaken={() => undefined}
      />,
    );

  it("offers the rear camera, and files that are here, several at once", () => {
    const [camera, files] = page().match(/<input[^>]*>/g) ?? [];
    expect(camera).toContain('capture="environment"');
    expect(camera).not.toContain("multiple");
    expect(files).toContain('multiple=""');
    expect(files).not.toContain("capture");
    expect(page()).toContain('data-reach="glove"');
  });

  it("offers nothing where there is no room left", () => {
    expect(page(1)).toContain("<input");
    expect(page(0)).not.toContain("<input");
  });
});

const drawn: Strokes = [
  [
    [100, 60],
    [180, 140],
  ],
  [
    [180, 60],
    [100, 140],
  ],
];

describe("the signature pad on the page", () => {
  const page = (value: Strokes, optional = false) =>
    renderToStaticMarkup(
      <SignaturePad label="R. Tamsin" value={value} optional={optional} onChange={() => {}} />,
    );

  it("says whose it is, what it holds, and that a name counts only where the caller says so", () => {
    expect(page([])).toContain("Signature: R. Tamsin");
    expect(page([])).toContain('aria-label="Empty pad"');
    expect(page([])).not.toContain("may stay empty");
    expect(page([], true)).toContain("(may stay empty)");
    expect(page([], true)).toContain("The name that is typed counts without it.");
    expect(page(drawn)).toContain('aria-label="Drawn in 2 strokes"');
  });

  it("draws the strokes it is given, and has nothing to take back while it is empty", () => {
    expect(page(drawn)).toContain('d="M100 60L180 140M180 60L100 140"');
    expect(page(drawn)).not.toContain("disabled");
    expect(page([]).match(/disabled/g)).toHaveLength(2);
  });

  it("says what a signature is while there is none", () => {
    expect(page(drawn.slice(0, 1))).toContain("Not a signature yet. A signature is a line");
    expect(page(drawn)).not.toContain("Not a signature");
    const full: Strokes = Array.from({ length: 100 }, () => [[1, 1]]);
    expect(page(full)).toContain("The pad holds 100 strokes and no more");
  });
});

describe("a signature on a record", () => {
  it("is a picture with its name", () => {
    const page = renderToStaticMarkup(<DrawnSignature strokes={drawn} name="R. Tamsin" />);
    expect(page).toContain('role="img" aria-label="Signature of R. Tamsin"');
    expect(page).toContain('viewBox="0 0 600 200"');
    expect(page).toContain('d="M100 60L180 140M180 60L100 140"');
  });
});

describe("scanning a serial", () => {
  it("is not offered before it is known that the browser can", () => {
    expect(renderToStaticMarkup(<ScanSerial what="serial" onRead={() => {}} />)).toBe("");
  });
});
