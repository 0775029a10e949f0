import fc from "fast-check";
import { strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import writeXlsxFile from "write-excel-file/node";
import { unpackedZip, zipProblem } from "../../src/jobs/files/zipGuard.ts";

const sheet = strToU8("<row><c>EM-14</c></row>".repeat(500));

/** A zip of one sheet, or of what is given. */
const zip = (parts: Record<string, Uint8Array> = { "xl/sheet1.xml": sheet }) =>
  zipSync(parts, { level: 6 });

/** Where a record of a zip begins, by its signature; the `nth` of its kind. */
function find(bytes: Uint8Array, signature: number, nth = 0): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  let left = nth;
  for (let at = 0; at < bytes.length - 3; at++) {
    if (view.getUint32(at, true) === signature && left-- === 0) return at;
  }
  throw new Error("no such record");
}
const local = (bytes: Uint8Array, nth = 0) => find(bytes, 0x04034b50, nth);
const entry = (bytes: Uint8Array, nth = 0) => find(bytes, 0x02014b50, nth);
const end = (bytes: Uint8Array) => find(bytes, 0x06054b50);

function write(bytes: Uint8Array, at: number, value: number, width: 2 | 4): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  if (width === 2) view.setUint16(at, value, true);
  else view.setUint32(at, value, true);
}

/** A valid zip with something of it written over. */
function spoilt(change: (bytes: Uint8Array) => void, bytes = zip()): Uint8Array {
  change(bytes);
  return bytes;
}

/** Two parts under names of one length, the second renamed. */
function renamed(to: string): Uint8Array {
  const bytes = zip({ "xl/a.xml": sheet, ["n".repeat(to.length)]: sheet });
  const name = new TextEncoder().encode(to);
  bytes.set(name, local(bytes, 1) + 30);
  bytes.set(name, entry(bytes, 1) + 46);
  return bytes;
}

describe("zips that pass", () => {
  it("a workbook as a spreadsheet program writes it", async () => {
    const rows = Array.from({ length: 2000 }, (_, row) => [
      { value: `EM-${row}` },
      { value: row, type: Number },
    ]);
    const blob = await writeXlsxFile(rows).toBuffer();
    expect(zipProblem(new Uint8Array(blob))).toBeUndefined();
  });

  it("a part that is short and packs very well", () => {
    expect(zipProblem(zip({ "a.xml": new Uint8Array(1024 * 1024) }))).toBeUndefined();
  });

  it("a comment at the end of the file", () => {
    const plain = zip();
    write(plain, end(plain) + 20, 5, 2);
    expect(zipProblem(Uint8Array.from([...plain, ...strToU8("notes")]))).toBeUndefined();
  });

  it("sizes that are written after the data", () => {
    const bytes = spoilt((each) => {
      write(each, local(each) + 6, 8, 2);
      write(each, local(each) + 18, 0, 4);
      write(each, local(each) + 22, 0, 4);
    });
    expect(zipProblem(bytes)).toBeUndefined();
  });

  it("a view into a larger buffer", () => {
    const bytes = zip();
    const wide = new Uint8Array(bytes.length + 64);
    wide.set(bytes, 32);
    expect(zipProblem(wide.subarray(32, 32 + bytes.length))).toBeUndefined();
  });
});

it("a zip without packing holds the same parts", () => {
  const packed = zip({ "xl/sheet1.xml": sheet, "xl/b.xml": strToU8("EM-9") });
  const plain = unpackedZip(packed);
  expect(unzipSync(plain)).toEqual(unzipSync(packed));
  const methods: number[] = [];
  unzipSync(plain, { filter: ({ compression }) => methods.push(compression) > 0 });
  expect(methods).toEqual([0, 0]);
  expect(zipProblem(plain)).toBeUndefined();
});

describe("zips that are refused", () => {
  const cases: [string, () => Uint8Array, RegExp][] = [
    ["nothing", () => new Uint8Array(0), /not a whole spreadsheet/],
    ["text", () => strToU8("well,depth\nEM-14,6020\n"), /not a whole spreadsheet/],
    ["half a file", () => zip().subarray(0, 80), /not a whole spreadsheet/],
    ["bytes after the end", () => Uint8Array.from([...zip(), 1, 2, 3]), /not a whole spreadsheet/],
    [
      "a workbook behind a password",
      () =>
        Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...new Uint8Array(600)]),
      /take the password off/,
    ],
    ["a bomb", () => zip({ "xl/sheet1.xml": new Uint8Array(60e6) }), /would have 57.2 MB/],
    [
      "a bomb in many parts",
      () =>
        zip(
          Object.fromEntries(
            Array.from({ length: 40 }, (_, n) => [`xl/${n}.xml`, new Uint8Array(1e6)]),
          ),
        ),
      /are the most\. Clear the empty rows/,
    ],
    [
      "more than may be unpacked",
      () =>
        spoilt(
          (each) => {
            for (const at of [local(each) + 22, entry(each) + 24])
              write(each, at, 201 * 2 ** 20, 4);
          },
          zipSync({ "a.bin": noise(2 * 2 ** 20) }, { level: 1 }),
        ),
      /would have 201 MB.*are the most/,
    ],
    [
      "too many parts",
      () => zip(Object.fromEntries(Array.from({ length: 2001 }, (_, n) => [`${n}`, strToU8("x")]))),
      /2,001 parts/,
    ],
    [
      "a count that is wrong",
      () => spoilt((each) => write(each, end(each) + 10, 2, 2)),
      /one piece of a zip in several/,
    ],
    [
      "a directory with more in it than is counted",
      () =>
        spoilt(
          (each) => {
            write(each, end(each) + 8, 1, 2);
            write(each, end(each) + 10, 1, 2);
          },
          zip({ "a.xml": sheet, "b.xml": sheet }),
        ),
      /holds more than it says/,
    ],
    [
      "a directory elsewhere",
      () => spoilt((each) => write(each, end(each) + 16, 4, 4)),
      /not where the file says/,
    ],
    [
      "zip64 in the end record",
      () => spoilt((each) => write(each, end(each) + 16, 0xffffffff, 4)),
      /above 4 GB/,
    ],
    [
      "zip64 in an entry",
      () => spoilt((each) => write(each, entry(each) + 24, 0xffffffff, 4)),
      /above 4 GB/,
    ],
    [
      "a locked part",
      () =>
        spoilt((each) => {
          write(each, local(each) + 6, 1, 2);
          write(each, entry(each) + 8, 1, 2);
        }),
      /locked with a password/,
    ],
    [
      "an unknown packing",
      () =>
        spoilt((each) => {
          write(each, local(each) + 8, 14, 2);
          write(each, entry(each) + 10, 14, 2);
        }),
      /packed in a way not known/,
    ],
    ["a name that climbs", () => renamed("xl/../../out.xml"), /points outside the file/],
    ["a name that climbs backwards", () => renamed("xl\\..\\out.xml"), /points outside the file/],
    ["a name from the root", () => renamed("/etc/out.xml"), /points outside the file/],
    ["a name on a drive", () => renamed("C:/out.xml"), /points outside the file/],
    ["a name of the language's own", () => renamed("xl/__proto__"), /is called "xl\/__proto__"/],
    ["two parts of one name", () => renamed("xl/a.xml"), /Two parts/],
    [
      "two names for one part",
      () => spoilt((each) => each.set(strToU8("Z"), local(each) + 30)),
      /not where the file says/,
    ],
    [
      "parts on top of each other",
      () =>
        spoilt(
          (each) => write(each, entry(each, 1) + 42, 0, 4),
          zip({ "a.xml": sheet, "b.xml": sheet }),
        ),
      /on top of another/,
    ],
    [
      "a part that reaches into the directory",
      () =>
        spoilt((each) => {
          for (const at of [local(each) + 18, entry(each) + 20]) write(each, at, 100_000, 4);
        }),
      /not where the file says/,
    ],
    [
      "two sizes for one part",
      () => spoilt((each) => write(each, entry(each) + 24, 100, 4)),
      /not where the file says/,
    ],
    [
      "a part larger than both its sizes",
      () =>
        spoilt((each) => {
          for (const at of [local(each) + 22, entry(each) + 24]) write(each, at, 100, 4);
        }),
      /not as large as it says/,
    ],
    [
      "a part smaller than both its sizes",
      () =>
        spoilt((each) => {
          for (const at of [local(each) + 22, entry(each) + 24]) {
            write(each, at, sheet.length + 1, 4);
          }
        }),
      /not as large as it says/,
    ],
    [
      "data that cannot be unpacked",
      () => spoilt((each) => each.fill(0xff, local(each) + 30 + 13, local(each) + 30 + 30)),
      /damaged/,
    ],
  ];

  it.each(cases)("%s", (_, make, says) => {
    const problem = zipProblem(make());
    expect(problem).toMatch(says);
    expect(problem).toMatch(/Nothing was read/);
    expect(problem).toMatch(/choose that file\.$/);
  });

  it("a file above the largest, whatever is in it", () => {
    expect(zipProblem(new Uint8Array(51 * 2 ** 20))).toMatch(/51 MB; 50 MB is the most/);
  });

  it("shows a name out of the file without what a screen would obey", () => {
    const problem = zipProblem(renamed("../\n\u001b[2J"));
    expect(problem).toContain('"../??[2J"');
  });
});

it("answers in words to whatever a file was turned into, and lets nothing through that does not unpack", () => {
  const whole = zip({ "a.xml": sheet, "b.xml": strToU8("EM-9") });
  const change = fc.record({
    at: fc.integer({ min: 0, max: whole.length - 1 }),
    to: fc.integer({ min: 0, max: 255 }),
  });
  const cut = fc.integer({ min: 0, max: whole.length });
  fc.assert(
    fc.property(fc.array(change, { maxLength: 4 }), cut, fc.boolean(), (changes, length, short) => {
      const bytes = whole.slice(0, short ? length : whole.length);
      for (const { at, to } of changes) if (at < bytes.length) bytes[at] = to;
      const problem = zipProblem(bytes);
      if (problem === undefined) {
        const sizes = Object.values(unzipSync(bytes)).map((part) => part.length);
        expect(sizes.sort()).toEqual([sheet.length, 4].sort());
      } else expect(problem).toMatch(/choose that file\.$/);
    }),
    { numRuns: 3000 },
  );
});

/** What does not pack: the same at every run. */
function noise(length: number): Uint8Array {
  let state = 1;
  return Uint8Array.from({ length }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
}
