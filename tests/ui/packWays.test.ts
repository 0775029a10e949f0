import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { leaveBy, waysHere } from "../../src/ui/Packs/ways.ts";

/** A browser's own ways out, each as it answers: a file is out when the promise says so, and not before. */

const file = { name: "latchline-EM-07-2026-11-25.json", text: '{"format":"latchline-pack"}' };
const closed = () => Promise.reject(new DOMException("closed", "AbortError"));
const refused = () => Promise.reject(new DOMException("Permission denied", "NotAllowedError"));

interface Written {
  text: string;
  kept: boolean;
}
/** A file that somebody chose. @param arrives how many of its bytes are there afterwards */
function chosen(written: Written, arrives = 1) {
  return {
    name: "EM-07.json",
    createWritable: async () => ({
      write: async (blob: Blob) => {
        written.text = await blob.text();
      },
      close: async () => {
        written.kept = true;
      },
      abort: async () => {},
    }),
    getFile: async () => ({ size: Math.floor(new Blob([written.text]).size * arrives) }),
  };
}

beforeEach(() => {
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("window", {});
});
afterEach(() => vi.unstubAllGlobals());

describe("the ways out of a tablet", () => {
  it("are the downloads everywhere, and what the browser says it has", () => {
    expect(waysHere()).toEqual(["download"]);
    const asked: File[] = [];
    vi.stubGlobal("navigator", {
      canShare: ({ files }: { files: File[] }) => {
        asked.push(...files);
        return true;
      },
    });
    vi.stubGlobal("window", { showSaveFilePicker: closed });
    expect(waysHere()).toEqual(["download", "share", "file"]);
    // No browser shares a file that ends in .json.
    expect(asked.map(({ name, type }) => [name, type])).toEqual([
      ["latchline.json.txt", "text/plain"],
    ]);
    vi.stubGlobal("navigator", { canShare: () => false });
    expect(waysHere()).toEqual(["download", "file"]);
  });

  it("say nothing of a share sheet until it took the file", async () => {
    let taken: (() => void) | undefined;
    const shared: File[] = [];
    vi.stubGlobal("navigator", {
      share: ({ files }: { files: File[] }) => {
        shared.push(...files);
        return new Promise<void>((resolve) => {
          taken = resolve;
        });
      },
    });
    let said: string | undefined;
    const leaving = leaveBy("share", file).then((words) => {
      said = words;
    });
    await new Promise((resolve) => setTimeout(resolve, 5));
    expect(said).toBeUndefined();
    taken?.();
    await leaving;
    expect(said).toBe(`${file.name}.txt handed to the share sheet. See there that it arrived.`);
    expect(await shared[0]?.text()).toBe(file.text);
  });

  it("take a share sheet or a picker that was closed for what it is: nothing left", async () => {
    vi.stubGlobal("navigator", { share: closed });
    vi.stubGlobal("window", { showSaveFilePicker: closed });
    expect(await leaveBy("share", file)).toBeUndefined();
    expect(await leaveBy("file", file)).toBeUndefined();
  });

  it("say what the browser refused", async () => {
    vi.stubGlobal("navigator", { share: refused });
    await expect(leaveBy("share", file)).rejects.toThrow("Permission denied");
  });

  it("write a chosen file whole, and count what arrived", async () => {
    const written: Written = { text: "", kept: false };
    vi.stubGlobal("window", { showSaveFilePicker: async () => chosen(written) });
    expect(await leaveBy("file", file)).toBe("EM-07.json is written, 27 bytes.");
    expect(written).toEqual({ text: file.text, kept: true });
    vi.stubGlobal("window", { showSaveFilePicker: async () => chosen(written, 0.5) });
    await expect(leaveBy("file", file)).rejects.toThrow("13 of 27 bytes arrived");
  });
});
