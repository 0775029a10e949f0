import { describe, expect, it } from "vitest";
import { readTableFile, sourceInWords } from "../../src/ui/readTableFile.ts";

const advice = "Save only the days that are wanted in a file of its own.";

describe("a file that somebody opened as a table", () => {
  it("comes with its name and all its bytes", async () => {
    const read = await readTableFile(new File(["Time,psig\n"], "two pens.csv"), advice);
    expect(read).toEqual({
      ok: true,
      source: { is: "file", name: "two pens.csv", bytes: new TextEncoder().encode("Time,psig\n") },
    });
  });

  it("is not read beyond 60 MB, and says how large it is and what makes it smaller", async () => {
    const file = new File([], "year.csv");
    Object.defineProperty(file, "size", { value: 61.4e6 });
    expect(await readTableFile(file, advice)).toEqual({
      ok: false,
      why: `year.csv has 61 MB; at most 60 MB are read. ${advice}`,
    });
  });

  it("says what to do where the disk does not give it", async () => {
    const file = new File(["Time,psig\n"], "open elsewhere.xlsx");
    file.arrayBuffer = () => Promise.reject(new DOMException("locked", "NotReadableError"));
    expect(await readTableFile(file, advice)).toEqual({
      ok: false,
      why: "open elsewhere.xlsx could not be read from the disk. Is it open in another program? Close it there, then choose it again.",
    });
  });
});

it("a source is called by its file's name, or as what was pasted", () => {
  expect(sourceInWords({ is: "file", name: "two pens.csv", bytes: new Uint8Array() })).toBe(
    "two pens.csv",
  );
  expect(sourceInWords({ is: "pasted", text: "Time\tpsig" })).toBe("what was pasted");
});
