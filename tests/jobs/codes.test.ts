import { concatBytes } from "@noble/hashes/utils.js";
import fc from "fast-check";
import { deflateSync } from "fflate";
import { describe, expect, it } from "vitest";
import { jobs, library } from "../../demo-data/emberMesa.ts";
import { fromBase45, inBase45 } from "../../src/jobs/codes/base45.ts";
import { cut, type Grain, grains } from "../../src/jobs/codes/cut.ts";
import { darkPath, modulesOf } from "../../src/jobs/codes/drawnCode.ts";
import {
  frameText,
  MOST_FRAMES,
  pieceBytes,
  readFrame,
  transferOf,
} from "../../src/jobs/codes/frame.ts";
import { Gathering } from "../../src/jobs/codes/gathering.ts";
import { inShort, numbersIn } from "../../src/jobs/codes/numbers.ts";
import { codeIn } from "../../src/jobs/codes/readCode.ts";
import { MOST_TEXT_BYTES, squeeze, unsqueeze } from "../../src/jobs/codes/squeezed.ts";
import { withoutPictures } from "../../src/jobs/codes/withoutPictures.ts";
import type { EventBody } from "../../src/jobs/log/event.ts";
import { headsOf } from "../../src/jobs/log/heads.ts";
import { previewPack } from "../../src/jobs/pack/arrival.ts";
import { contentForJobs } from "../../src/jobs/pack/contents.ts";
import { makePack, readPack } from "../../src/jobs/pack/pack.ts";
import { emptyLibrary } from "../../src/jobs/store/library.ts";
import { Tablet } from "./demo.ts";
import { photographed } from "./pixels.ts";

const MADE = "2026-05-04T09:00:00.000Z";
const device = "11111111-1111-4111-8111-111111111111";

/** The demonstration's EM-07 job with its log up to the pressures as found, as the text of a pack. */
function halfRun() {
  const tablet = new Tablet(device, jobs.ready.id);
  tablet.start().runTo("as-found");
  const { carried } = withoutPictures(contentForJobs([jobs.ready], library, tablet.events));
  const pack = makePack(carried, MADE);
  return { events: tablet.events, text: JSON.stringify(pack) };
}

function framesOf(text: string, grain: Grain = "fine"): readonly string[] {
  const made = cut(text, grain);
  if (!made.ok) throw new Error(made.why);
  return made.frames;
}

/** Text that deflating makes hardly smaller. */
function dense(characters: number): string {
  let seed = 7;
  const next = () => {
    seed = (seed * 1664525 + 1013904223) % 2 ** 32;
    return String.fromCharCode(33 + Math.floor((seed / 2 ** 32) * 90));
  };
  return Array.from({ length: characters }, next).join("");
}

describe("base45", () => {
  // RFC 9285, section 4.3 and 4.4.
  it.each([
    ["AB", "BB8"],
    ["Hello!!", "%69 VD92EX0"],
    ["base-45", "UJCLQE7W581"],
    ["ietf!", "QED8WEX0"],
  ])("writes %s as %s and back", (text, written) => {
    expect(inBase45(new TextEncoder().encode(text))).toBe(written);
    expect(new TextDecoder().decode(fromBase45(written))).toBe(text);
  });

  it("gives any bytes back", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(fromBase45(inBase45(bytes))).toEqual(bytes);
      }),
    );
  });

  it.each(["A", "::::", ":::", "::", "ab8", "BB8A"])("knows that %s is none", (text) => {
    expect(fromBase45(text)).toBeUndefined();
  });
});

describe("gathering codes", () => {
  it("gives a text back from its codes in any order, each read any number of times", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", maxLength: 4000 }),
        fc.constantFrom<Grain>("fine", "coarse"),
        fc.infiniteStream(fc.nat()),
        (text, grain, numbers) => {
          const frames = framesOf(text, grain);
          const gathering = new Gathering();
          const read = new Set<number>();
          for (const number of numbers) {
            const index = number % frames.length;
            expect(gathering.text).toBeUndefined();
            const { is } = gathering.add(frames[index] ?? "");
            expect(is).toBe(read.has(index) ? "known" : "new");
            read.add(index);
            expect(gathering.have).toBe(read.size);
            expect(gathering.missing.map((each) => each - 1)).toEqual(
              frames.map((_, at) => at).filter((at) => !read.has(at)),
            );
            if (read.size === frames.length) break;
          }
          expect(gathering.text).toBe(text);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("ignores every code with a changed character, and never gives another text", () => {
    const text = dense(1500);
    const frames = framesOf(text);
    const alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    fc.assert(
      fc.property(
        fc.nat(frames.length - 1),
        fc.nat(),
        fc.constantFrom(...alphabet),
        (index, at, character) => {
          const frame = frames[index] ?? "";
          const place = at % frame.length;
          const changed = frame.slice(0, place) + character + frame.slice(place + 1);
          fc.pre(changed !== frame);
          expect(["damaged", "foreign", "newer"]).toContain(readFrame(changed).is);
          const gathering = new Gathering();
          expect(gathering.add(changed).is).not.toBe("new");
          for (const each of frames) gathering.add(each);
          expect(gathering.text).toBe(text);
        },
      ),
    );
  });

  it("keeps to the transfer that came first and names another one", () => {
    const mine = framesOf(dense(1200));
    const other = framesOf(`${dense(1200)}!`);
    const gathering = new Gathering();
    gathering.add(mine[1] ?? "");
    const [name] = [new Gathering()].map((each) => {
      each.add(other[0] ?? "");
      return each.name;
    });
    expect(name).toMatch(/^[0-9A-F]{4}$/);
    expect(gathering.add(other[0] ?? "")).toEqual({ is: "other transfer", name });
    expect(gathering.name).not.toBe(name);
    for (const each of mine) gathering.add(each);
    expect(gathering.text).toBe(dense(1200));
    // Cut coarser it is another transfer, too.
    expect(gathering.add(framesOf(dense(1200), "coarse")[0] ?? "").is).toBe("other transfer");
  });

  it.each([
    ["a web address", "https://example.com/", "foreign"],
    ["nothing", "", "foreign"],
    ["a later version", framesOf("a")[0]?.replace("LATCHLINE1", "LATCHLINE2") ?? "", "newer"],
    [
      "a version that never was",
      framesOf("a")[0]?.replace("LATCHLINE1", "LATCHLINE0") ?? "",
      "damaged",
    ],
    ["no frame at all", "LATCHLINE1:", "damaged"],
    ["a code cut off", framesOf(dense(300))[0]?.slice(0, -9) ?? "", "damaged"],
    ["an index past the count", frameOf({ index: 3, count: 3 }), "damaged"],
    ["more codes than there may be", frameOf({ index: 0, count: MOST_FRAMES + 1 }), "damaged"],
  ])("takes nothing from %s", (_, code, is) => {
    const gathering = new Gathering();
    expect(gathering.add(code)).toEqual({ is });
    expect(gathering.count).toBeUndefined();
  });

  function frameOf({ index, count }: { index: number; count: number }) {
    return frameText({ transfer: "00112233445566ff", index, count, piece: Uint8Array.of(1, 2) });
  }

  /** All the codes of bytes that were never text. */
  function codesOf(bytes: Uint8Array, transfer = transferOf(bytes)): string[] {
    const size = pieceBytes(grains.fine.characters);
    const count = Math.ceil(bytes.length / size);
    return Array.from({ length: count }, (_, index) =>
      frameText({
        transfer,
        index,
        count,
        piece: bytes.subarray(index * size, (index + 1) * size),
      }),
    );
  }
  const claiming = (length: number, bytes: Uint8Array) =>
    concatBytes(new Uint8Array(Uint32Array.of(length).buffer).reverse(), bytes);
  const zeros = (length: number) => deflateSync(new Uint8Array(length), { level: 9 });

  it.each([
    [
      "that claims more than may be",
      claiming(MOST_TEXT_BYTES + 1, zeros(MOST_TEXT_BYTES + 1)),
      /unpacks to 4000001 bytes/,
    ],
    ["that is longer than it claims", claiming(10, zeros(90_000_000)), /not as long as it says/],
    ["that is shorter than it claims", claiming(500, zeros(10)), /not as long as it says/],
    ["that is not deflated at all", claiming(500, Uint8Array.of(7, 7, 7, 7)), /invalid/],
    ["that is no UTF-8", claiming(2, deflateSync(Uint8Array.of(0xff, 0xfe))), /not valid|utf-8/i],
    ["with nothing in it", Uint8Array.of(0, 0, 0, 0), /nothing in it/],
  ])("forgets a transfer %s, says so, and reads on", (_, bytes, why) => {
    const gathering = new Gathering();
    const [last] = codesOf(bytes)
      .map((code) => gathering.add(code))
      .slice(-1);
    expect(last).toEqual({ is: "spoilt", why: expect.stringMatching(why) });
    expect(gathering.count).toBeUndefined();
    expect(gathering.have).toBe(0);
    for (const each of framesOf("the next one")) gathering.add(each);
    expect(gathering.text).toBe("the next one");
  });

  it("forgets pieces whose checksum does not hold together, though each holds alone", () => {
    const gathering = new Gathering();
    const codes = codesOf(squeeze(dense(1500)), "0011223344556677");
    const [last] = codes.map((code) => gathering.add(code)).slice(-1);
    expect(last).toEqual({ is: "spoilt", why: expect.stringMatching(/checksum does not hold/) });
    expect(gathering.text).toBeUndefined();
  });

  it("unpacks what it packed, whatever the text", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (text) => {
        expect(unsqueeze(squeeze(text))).toBe(text);
      }),
    );
  });
});

describe("cutting a pack", () => {
  it("makes the same codes of the same text at any time", () => {
    const { text } = halfRun();
    expect(framesOf(text)).toEqual(framesOf(text));
  });

  it.each([
    [
      "more codes than can be shown",
      dense(MOST_FRAMES * 700),
      /it needs \d+ of them, and 400 is most/,
    ],
    ["more text than is unpacked again", " ".repeat(MOST_TEXT_BYTES + 1), /4\.0 MB of text/],
  ])("points to the file instead of %s", (_, text, why) => {
    const made = cut(text, "fine");
    if (made.ok) throw new Error("it was cut");
    expect(made.why).toMatch(why);
    expect(made.why).toMatch(/carry the file over instead/);
  });

  it("leaves photographs behind, counts them, and makes a pack that says on import what it misses", () => {
    const { events } = halfRun();
    const photo = { jpeg: "/9j/4AAQ", takenAt: MADE } as never;
    const strings = library.strings.map((string) =>
      string.id === jobs.ready.strings.pull ? { ...string, photographs: [photo, photo] } : string,
    );
    const [last] = events.slice(-1);
    const taken = {
      type: "photograph taken",
      picture: "ab".repeat(32),
    } as unknown as EventBody;
    const content = contentForJobs(
      [jobs.ready],
      { ...library, strings },
      last ? [...events, { ...last, body: taken }] : [],
    );
    const { carried, ofLog, ofStrings } = withoutPictures(content);
    expect([ofLog, ofStrings]).toEqual([1, 2]);
    expect(carried.pictures).toBeUndefined();
    expect(carried.records.strings.some((string) => "photographs" in string)).toBe(false);
    expect(carried.records.strings.map(({ id }) => id)).toEqual(
      content.records.strings.map(({ id }) => id),
    );
    expect(previewPack(makePack(carried, MADE), emptyLibrary, []).missingPictures).toBe(1);
  });
});

describe("numbers of codes", () => {
  it.each([
    ["3 17 22", [3, 17, 22]],
    ["22, 3;17 3", [3, 17, 22]],
    ["3 – 5  9", [3, 4, 5, 9]],
    ["", []],
  ])("reads %s", (typed, numbers) => {
    expect(numbersIn(typed, 40)).toEqual(numbers);
  });

  it.each([
    ["0", /no code 0: they are numbered 1 to 40/],
    ["41", /no code 41/],
    ["39-41", /no code 39-41/],
    ["9-3", /"9-3" is no number/],
    ["three", /"three" is no number of a code/],
    ["-4", /"-4" is no number/],
  ])("says what is wrong with %s", (typed, why) => {
    expect(numbersIn(typed, 40)).toEqual({ why: expect.stringMatching(why) });
  });

  it("reads what it writes", () => {
    expect(inShort([3, 17, 18, 20, 21, 22])).toBe("3 17 18 20-22");
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 60 })), (some) => {
        const numbers = [...some].sort((a, b) => a - b);
        expect(numbersIn(inShort(numbers), 60)).toEqual(numbers);
      }),
    );
  });
});

describe("codes as they are drawn and seen", () => {
  it("brings a whole job over: every code of it drawn, photographed, read and joined", () => {
    const { text, events } = halfRun();
    const frames = framesOf(text);
    const gathering = new Gathering();
    for (const frame of frames) {
      const seen = codeIn(photographed(modulesOf(frame, "fine"), 5));
      expect(seen).toBe(frame);
      gathering.add(seen ?? "");
    }
    const read = readPack(gathering.text ?? "");
    if (!read.ok) throw new Error(read.why);
    expect(headsOf(read.pack.content.events)).toEqual(headsOf(events));
    // What the screens promise: some fifty codes, thirteen seconds at four a second.
    expect(frames.length).toBeLessThanOrEqual(56);
  });

  it.each<[Grain, number]>([
    ["fine", 89],
    ["coarse", 57],
  ])("fills a %s code of %i modules as far as it goes", (grain, side) => {
    const [first = ""] = framesOf(dense(2000), grain);
    const modules = modulesOf(first, grain);
    expect(modules.length).toBe(side + 8);
    expect(first.length).toBeLessThanOrEqual(grains[grain].characters);
    expect(first.length).toBeGreaterThan(grains[grain].characters - 3);
    expect(codeIn(photographed(modules, 5))).toBe(first);
  });

  it("reads nothing in a picture without a code", () => {
    const light = Array.from({ length: 60 }, () => Array<boolean>(60).fill(false));
    expect(codeIn(photographed(light, 4))).toBeUndefined();
  });

  it("draws each dark module once", () => {
    const modules = [
      [true, true, false],
      [false, true, true],
    ];
    expect(darkPath(modules)).toBe("M0 0h2v1H0zM1 1h2v1H1z");
  });
});
