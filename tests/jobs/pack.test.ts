import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { demoPack } from "../../demo-data/build.ts";
import { library } from "../../demo-data/emberMesa.ts";
import { hashOf } from "../../src/jobs/log/seal.ts";
import { arrivalOf, contentForJob, previewPack, redate } from "../../src/jobs/pack/arrival.ts";
import { makePack, type Pack, readPack } from "../../src/jobs/pack/pack.ts";
import { emptyLibrary, type Library } from "../../src/jobs/store/library.ts";
import { demoText } from "./demo.ts";

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
      () => JSON.stringify({ ...good(), version: 3 }),
      /version 3, made by a newer Latchline; this one reads up to version 2/,
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
    expect(preview.different).toEqual([{ kind: "wells", id: "em-03", name: "EM-03" }]);
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
    const content = contentForJob(job, mine, []);
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
