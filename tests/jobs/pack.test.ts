import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { demoPack } from "../../demo-data/build.ts";
import { library } from "../../demo-data/emberMesa.ts";
import type { EventBody } from "../../src/jobs/log/event.ts";
import { hashOf } from "../../src/jobs/log/seal.ts";
import { arrivalOf, previewPack, redate } from "../../src/jobs/pack/arrival.ts";
import { contentForJobs, picturesFor } from "../../src/jobs/pack/contents.ts";
import { makePack, type Pack, readPack } from "../../src/jobs/pack/pack.ts";
import { badPicture, pack as packed } from "../../src/jobs/pack/packedPictures.ts";
import { fromBase64, inBase64 } from "../../src/jobs/photographs.ts";
import { emptyLibrary, type Library } from "../../src/jobs/store/library.ts";
import { pictureHash } from "../../src/jobs/store/picture.ts";
import { demoText, supervisor } from "./demo.ts";
import { memoryStore } from "./memoryStore.ts";

const good = () => JSON.parse(demoText()) as Pack;
const why = (text: string) => {
  const read = readPack(text);
  return read.ok ? "read" : read.why;
};
const signed = (pack: Pack) => JSON.stringify({ ...pack, checksum: hashOf(pack.content) });

describe("reading a pack", () => {
  it("reads the demonstration, which is what its builder builds", () => {
    expect(readPack(demoText()).ok).toBe(true);
    expect(good()).toEqual(JSON.parse(JSON.stringify(demoPack())));
  });

  it.each([
    ["an empty file", () => "", /cannot be read as JSON/],
    ["a file cut off", () => demoText().slice(0, 5000), /cannot be read as JSON/],
    ["something else", () => '{"hello": 1}', /not a job pack/],
    ["a list", () => "[]", /not a job pack/],
    ["another format", () => JSON.stringify({ ...good(), format: "zip" }), /its format is "zip"/],
    [
      "a pack from before the first release",
      () => JSON.stringify({ ...good(), version: 1 }),
      /version 1, made by a Latchline from before its first release/,
    ],
    [
      "a newer version",
      () => JSON.stringify({ ...good(), version: 6 }),
      /version 6, made by a newer Latchline; this one reads up to version 5/,
    ],
    ["a changed byte", () => demoText().replace('"EM-07"', '"EM-08"'), /checksum does not fit/],
    ["no content", () => JSON.stringify({ ...good(), content: undefined }), /content/],
  ])("refuses %s, saying so", (_, text, message) => {
    expect(why(text())).toMatch(message);
  });

  it("names the place of a value that cannot be, though the checksum fits", () => {
    const pack = good();
    const well = pack.content.records.wells[0];
    if (well?.mandrels[1]) well.mandrels[1].depthAlongHole = { value: 1e9, unit: "ft" };
    expect(why(signed(pack))).toContain(
      "content.records.wells[0].mandrels[1].depthAlongHole.value: a length lies between",
    );
  });

  it("refuses a log with an event changed, though the checksum fits", () => {
    const pack = good();
    const event = pack.content.events[4];
    if (event) event.at = "2026-11-01T00:00:00.000Z";
    expect(why(signed(pack))).toMatch(/log of job job-em-03-3 is not whole: event \d+ was changed/);
  });

  it("keeps such a log, whole and named, where it is a tablet's own backup", () => {
    const pack = good();
    const event = pack.content.events[4];
    if (event) event.at = "2026-11-01T00:00:00.000Z";
    const read = readPack(signed(pack), "keep");
    expect(read).toMatchObject({
      ok: true,
      broken: [expect.stringMatching(/log of job job-em-03-3 is not whole: event \d+ was changed/)],
    });
    expect(read.ok && read.pack.content.events).toEqual(pack.content.events);
  });

  it("never crashes on a pack with any one part replaced, and says why it will not have it", () => {
    const text = demoText();
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: text.length - 1 }),
        fc.string({ maxLength: 8 }),
        (at, noise) => {
          const bent = text.slice(0, at) + noise + text.slice(at + noise.length);
          const read = readPack(bent);
          if (!read.ok) expect(read.why.length).toBeGreaterThan(20);
          else expect(hashOf(read.pack.content)).toBe(good().checksum);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("the pictures of a pack", () => {
  const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, ...Array(70_000).keys()]);
  const picture = { sha256: pictureHash(bytes), type: "image/jpeg" as const, bytes };
  const named = () => {
    const { records, events } = good().content;
    const body = { type: "photograph", picture: picture.sha256 } as unknown as EventBody;
    return { records, events, pictures: [picture], body };
  };

  it("come out as they went in, whatever their length", () => {
    for (const length of [0, 1, 2, 3, bytes.length]) {
      const part = bytes.slice(0, length);
      expect(fromBase64(inBase64(part))).toEqual(part);
    }
    const pack = makePack(named(), good().made);
    expect(
      arrivalOf(pack, previewPack(pack, emptyLibrary, []), emptyLibrary, "keep mine").pictures,
    ).toEqual([picture]);
  });

  it("are those that its events name, as far as the tablet has them", async () => {
    const store = memoryStore();
    const [event] = await store.append(
      [
        {
          id: crypto.randomUUID(),
          job: "job",
          at: "2026-11-25T06:00:00.000Z",
          actor: supervisor,
          body: named().body,
        },
      ],
      { pictures: [picture] },
    );
    if (!event) throw new Error("nothing written");
    expect(await picturesFor(store, [event])).toEqual([picture]);
    expect(await picturesFor(memoryStore(), [event])).toEqual([]);
  });

  it.each([
    ["that no event names", {}, /Picture [0-9a-f]{12} of the pack belongs to no event in it/],
    ["of another kind", { type: "image/png" }, /content.pictures\[0\].type/],
    ["that is too large", { base64: "A".repeat(6_000_000) }, /larger than a picture may be/],
  ])("refuse the whole pack for one %s, by its name", (_, change, says) => {
    const pack = makePack(named(), good().made);
    const bad = {
      ...pack.content,
      pictures: pack.content.pictures.map((each) => ({ ...each, ...change })),
    };
    expect(why(signed({ ...pack, content: bad as Pack["content"] }))).toMatch(says);
  });

  it.each([
    ["whose bytes were changed", { base64: inBase64(bytes.with(9, 0)) }, /changed or damaged/],
    ["that is not written in base64", { base64: "?" }, /not written in base64/],
    ["that is no JPEG", { base64: "AAAA" }, /does not begin as a JPEG does/],
  ])("are refused by name: one %s", (_, change, says) => {
    const { body } = named();
    expect(badPicture([packed(picture)], [{ body }])).toBeUndefined();
    expect(badPicture([{ ...packed(picture), ...change }], [{ body }])).toMatch(says);
    expect(badPicture([{ ...packed(picture), ...change }], [{ body }])).toContain(
      picture.sha256.slice(0, 12),
    );
  });

  it("of a pack of version 2 are none: it is read as ever", () => {
    const { pictures: _, ...content } = good().content;
    const read = readPack(
      JSON.stringify({ ...good(), version: 2, content, checksum: hashOf(content) }),
    );
    if (!read.ok) throw new Error(read.why);
    expect(read.pack.content.pictures).toEqual([]);
    expect(read.pack.content.events).toHaveLength(content.events.length);
  });

  it.each([
    { version: 3, unknown: ["tools", "days", "investigations"] },
    { version: 4, unknown: ["investigations"] },
  ])(
    "of a pack of version $version are there as ever; it did not know $unknown",
    ({ version, unknown }) => {
      const { records, ...rest } = good().content;
      const known = Object.fromEntries(
        Object.entries(records).filter(([kind]) => !unknown.includes(kind)),
      );
      const content = { ...rest, records: known };
      const read = readPack(
        JSON.stringify({ ...good(), version, content, checksum: hashOf(content) }),
      );
      if (!read.ok) throw new Error(read.why);
      const without = Object.fromEntries(unknown.map((kind) => [kind, []]));
      expect(read.pack.content).toEqual({ ...rest, records: { ...records, ...without } });
    },
  );
});

describe("importing a pack", () => {
  const pack = good();
  const mine: Library = { ...emptyLibrary, ...pack.content.records };

  it("into an empty tablet everything is new", () => {
    const preview = previewPack(pack, emptyLibrary, []);
    expect(preview.different).toEqual([]);
    expect(preview.fresh).toHaveLength(Object.values(pack.content.records).flat().length);
    expect(preview.newEvents).toBe(pack.content.events.length);
  });

  it("a second time nothing is, and nothing is written", () => {
    const preview = previewPack(pack, mine, pack.content.events);
    expect(preview.fresh).toEqual([]);
    expect(preview.newEvents).toBe(0);
    const arrival = arrivalOf(pack, preview, mine, "take theirs");
    expect(Object.values(arrival.records).flat()).toEqual([]);
  });

  it("names what differs, and keeps or takes it as the person says", () => {
    const [first] = mine.wells;
    if (!first) throw new Error("no well");
    const changed: Library = {
      ...mine,
      wells: [{ ...first, name: "EM-03B", revision: 4 }, ...mine.wells.slice(1)],
    };
    const preview = previewPack(pack, changed, []);
    expect(preview.different).toEqual([
      {
        kind: "wells",
        id: "em-03",
        name: "EM-03",
        mine: 4,
        theirs: 1,
        fields: [{ where: "Name", mine: "EM-03B", theirs: "EM-03" }],
      },
    ]);
    expect(arrivalOf(pack, preview, changed, "keep mine").records.wells).toEqual([]);
    const [taken] = arrivalOf(pack, preview, changed, "take theirs").records.wells ?? [];
    expect(taken).toMatchObject({ name: "EM-03", revision: 5 });
  });

  it("moves the days of jobs that have not begun, and of no others", () => {
    const moved = redate(pack.content, "2026-11-25", "2027-02-28");
    const day = (id: string) => moved.records.jobs.find((job) => job.id === id)?.day;
    expect(day("job-em-07-3")).toBe("2027-02-28");
    expect(day("job-em-12-3")).toBe("2027-03-01");
    expect(day("job-em-03-3")).toBe("2026-11-24");
  });

  it("takes along all that one job needs and nothing of the others", () => {
    const job = library.jobs[0];
    if (!job) throw new Error("no job");
    const content = contentForJobs([job], mine, []);
    expect(content.records.wells.map((well) => well.name)).toEqual(["EM-07"]);
    expect(content.records.valves.map((valve) => valve.serial)).toEqual([
      "EM-0711",
      "EM-0712",
      "EM-0713",
      "EM-0714",
      "EM-0715",
      "EM-2041",
    ]);
    expect(readPack(JSON.stringify(makePack(content, pack.made))).ok).toBe(true);
  });
});
