import { pbkdf2Sync } from "node:crypto";
import { describe, expect, it } from "vitest";
import {
  cannotLock,
  ITERATIONS,
  type LockedPack,
  lock,
  MOST_ITERATIONS,
  openLocked,
  passphraseProblem,
  readPackFile,
} from "../../src/jobs/pack/locked.ts";
import { type Pack, readPack } from "../../src/jobs/pack/pack.ts";
import { demoText } from "./demo.ts";

const words = "rope socket, two stems";
const locked = await lock(demoText(), words, crypto);
const parts = () => JSON.parse(locked) as LockedPack;
const why = (given: string) => {
  const read = readPackFile(given);
  return read.ok ? "read" : read.why;
};
async function open(given: unknown, passphrase = words) {
  const read = readPackFile(JSON.stringify(given));
  if (read.ok !== "locked") throw new Error("not locked");
  return openLocked(read.locked, passphrase, crypto);
}

describe("a locked pack", () => {
  it("opens with its passphrase, whole", async () => {
    const read = await open(parts());
    if (!read.ok) throw new Error(read.why);
    expect(read.pack).toEqual(JSON.parse(demoText()) as Pack);
  });

  it("opens whichever way the same letters were typed", async () => {
    const composed = "câble métallique";
    const decomposed = composed.normalize("NFD");
    expect(decomposed).not.toBe(composed);
    const other = JSON.parse(await lock(demoText(), decomposed, crypto)) as LockedPack;
    expect((await open(other, composed)).ok).toBe(true);
  });

  it("is AES-GCM with 256 bits by PBKDF2, as another implementation opens it", async () => {
    const { data, ...header } = parts();
    const bytes = (base64: string) => Buffer.from(base64, "base64");
    const { createDecipheriv } = await import("node:crypto");
    const key = pbkdf2Sync(words, bytes(header.key.salt), header.key.iterations, 32, "sha256");
    const cipher = createDecipheriv("aes-256-gcm", key, bytes(header.cipher.iv));
    // The header in canonical JSON: names in order, no blanks.
    const { cipher: of, key: by, format, version } = header;
    cipher.setAAD(
      Buffer.from(
        `{"cipher":{"iv":"${of.iv}","method":"AES-GCM-256"},"format":"${format}","key":{"iterations":${by.iterations},"method":"PBKDF2-SHA-256","salt":"${by.salt}"},"version":${version}}`,
      ),
    );
    const sealed = bytes(data);
    cipher.setAuthTag(sealed.subarray(-16));
    const opened = Buffer.concat([cipher.update(sealed.subarray(0, -16)), cipher.final()]);
    expect(opened.toString("utf8")).toBe(demoText());
  });

  it("has a salt and a start of its own each time, and as many iterations as OWASP asks for", async () => {
    const other = JSON.parse(await lock("{}", words, crypto)) as LockedPack;
    expect(other.key.salt).not.toBe(parts().key.salt);
    expect(other.cipher.iv).not.toBe(parts().cipher.iv);
    expect(other.key.iterations).toBe(ITERATIONS);
    expect(ITERATIONS).toBeGreaterThanOrEqual(600_000);
  });

  it("says nothing of what is in it", () => {
    expect(locked).not.toContain("EM-07");
    expect(Object.keys(parts())).toEqual(["format", "version", "key", "cipher", "data"]);
  });

  const turned = (base64: string) =>
    base64[5] === "A" ? base64.replace(/^(.{5})A/, "$1B") : base64.replace(/^(.{5})./, "$1A");
  it.each<[string, () => unknown, string]>([
    ["another passphrase", parts, "rope socket, two stem"],
    ["a changed byte of its data", () => ({ ...parts(), data: turned(parts().data) }), words],
    [
      "another salt",
      () => ({ ...parts(), key: { ...parts().key, salt: turned(parts().key.salt) } }),
      words,
    ],
    [
      "another start",
      () => ({ ...parts(), cipher: { ...parts().cipher, iv: turned(parts().cipher.iv) } }),
      words,
    ],
    [
      "another count",
      () => ({ ...parts(), key: { ...parts().key, iterations: ITERATIONS + 1 } }),
      words,
    ],
    ["its end cut off", () => ({ ...parts(), data: parts().data.slice(0, -8) }), words],
    ["no data", () => ({ ...parts(), data: "" }), words],
  ])("does not open with %s, and cannot tell which it is", async (_, given, passphrase) => {
    expect(await open(given(), passphrase)).toEqual({
      ok: false,
      again: true,
      why: expect.stringMatching(/either the passphrase is another one, or the file was damaged/),
    });
  });

  it.each<[string, unknown, RegExp]>([
    [
      "more iterations than a tablet makes in a while",
      { key: { ...parts().key, iterations: MOST_ITERATIONS + 1 } },
      /how it was locked \(key.iterations/,
    ],
    [
      "fewer than keep a passphrase",
      { key: { ...parts().key, iterations: 1000 } },
      /key.iterations/,
    ],
    ["a short salt", { key: { ...parts().key, salt: "AAAA" } }, /key.salt/],
    ["another method", { cipher: { ...parts().cipher, method: "none" } }, /cipher.method/],
    ["something more", { hint: "the usual" }, /Unrecognized key/],
    [
      "a later version",
      { version: 2 },
      /in a way that a newer Latchline knows \(version 2; this one opens version 1\)/,
    ],
    ["no data", { data: undefined }, /data/],
  ])("is refused before any passphrase with %s", (_, change, says) => {
    expect(why(JSON.stringify({ ...parts(), ...(change as object) }))).toMatch(says);
  });

  it("that holds something else than a pack is refused like that", async () => {
    const other = JSON.parse(await lock("[1, 2]", words, crypto)) as LockedPack;
    expect(await open(other)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/not a job pack/),
    });
  });

  it("is told from a backup: where no passphrase is asked for, it says where one is", () => {
    expect(readPack(locked)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/Import a pack/),
    });
  });

  it("is not made or opened where the browser has no encryption, and says so", async () => {
    const without = { getRandomValues: crypto.getRandomValues.bind(crypto), subtle: undefined };
    expect(cannotLock(without)).toMatch(/not opened over https or at localhost/);
    await expect(lock("{}", words, without)).rejects.toThrow(/not opened over https/);
    expect(await openLocked(parts(), words, without)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/not opened over https/),
    });
  });
});

describe("a passphrase", () => {
  it.each([
    ["", "", /at least 8 characters/],
    ["seven77", "seven77", /at least 8 characters/],
    ["four words of rope", "four words of ropes", /do not agree/],
    ["four words of rope", "", /do not agree/],
  ])("%j and %j are sent back", (first, again, says) => {
    expect(passphraseProblem(first, again)).toMatch(says);
  });

  it("agrees with itself, whichever way its letters were typed", () => {
    expect(
      passphraseProblem("câble métallique", "câble métallique".normalize("NFD")),
    ).toBeUndefined();
    // Blanks count, and are not taken away.
    expect(passphraseProblem("four words ", "four words")).toMatch(/do not agree/);
  });
});
