import canonicalize from "canonicalize";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hashOf, seal } from "../../src/jobs/log/seal.ts";
import { arrivalOf, previewPack } from "../../src/jobs/pack/arrival.ts";
import { type Locksmith, lock, openLocked, readPackFile } from "../../src/jobs/pack/locked.ts";
import { makePack, packText } from "../../src/jobs/pack/pack.ts";
import { fromBase64, inBase64 } from "../../src/jobs/photographs.ts";
import type { Line } from "../../src/jobs/records/equipment.ts";
import type { Job } from "../../src/jobs/records/job.ts";
import { recordSchemas } from "../../src/jobs/records/library.ts";
import type { WorkingDay } from "../../src/jobs/records/workingDay.ts";
import { emptyLibrary, recordKinds } from "../../src/jobs/store/library.ts";
import { Conflict, Outdated, type Store } from "../../src/jobs/store/store.ts";
import { planner } from "./demo.ts";
import { memoryStore } from "./memoryStore.ts";

/**
 * Hostile packs: a small one bent in its bytes, its structure and its values, as it is and with the checksum made to
 * fit again. Whatever comes of it, nothing crashes, nothing is written in part, and a refusal gives its reason.
 */

const PASSPHRASE = "four words of rope";
const MADE = "2026-11-25T06:00:00.000Z";

const line: Line = {
  id: "line-a",
  revision: 3,
  name: "Slickline A",
  diameter: { value: 0.108, unit: "in" },
  massPerLength: { value: 31.1, unit: "lb/1000 ft" },
  breakingStrength: { value: 2100, unit: "lbf" },
  strengthFrom: "certificate",
  cutBack: [{ day: "2026-11-20", length: { value: 50, unit: "ft" } }],
};
const job: Job = {
  id: "job-a",
  revision: 2,
  day: "2026-11-25",
  well: "well-a",
  mandrel: "mandrel-a",
  reason: "Port cut",
  design: {},
  expected: {},
  strings: {},
  line: "line-a",
  crew: { supervisor: "R. Tamsin" },
  sheet: "change-out",
};
const day: WorkingDay = {
  id: "2026-11-25",
  revision: 1,
  order: ["job-a"],
  loaded: [{ line: "line-a", at: MADE, by: "R. Tamsin" }],
  extras: [],
};
const notes = (count: number) =>
  seal(
    Array.from({ length: count }, (_, index) => ({
      id: `00000000-0000-4000-8000-00000000000${index}`,
      job: job.id,
      at: MADE,
      actor: planner,
      body: { type: "note" as const, text: `Note ${index}` },
    })),
    "00000000-0000-4000-8000-0000000000aa",
    { sequence: 0, tick: 0, hash: null, seen: {} },
  );
const small = makePack(
  {
    records: { ...emptyLibrary, lines: [line], jobs: [job], days: [day] } as never,
    events: notes(3),
  },
  MADE,
);
const text = packText(small);

/** The same key every time a file asks for the same one: a test of thousands derives it once. */
function quickSmith(): Locksmith {
  const { subtle } = crypto;
  const keys = new Map<string, Promise<CryptoKey>>();
  return {
    getRandomValues: (array) => crypto.getRandomValues(array),
    subtle: {
      importKey: subtle.importKey.bind(subtle),
      encrypt: subtle.encrypt.bind(subtle),
      decrypt: subtle.decrypt.bind(subtle),
      deriveKey: (...given) => {
        const { salt, iterations } = given[0] as unknown as {
          salt: Uint8Array;
          iterations: number;
        };
        const name = `${salt.join()} ${iterations}`;
        // Another salt or count gives another key: which one is all the same to a file that was not locked with it.
        const key = keys.get(name) ?? (keys.size === 0 ? subtle.deriveKey(...given) : anyKey());
        keys.set(name, key);
        return key;
      },
    },
  };
}
const anyKey = () =>
  crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);

/** A tablet that holds an older line, the job's first event and a line of its own. */
async function tablet(): Promise<Store> {
  const store = memoryStore("00000000-0000-4000-8000-0000000000bb");
  await store.receive({
    records: {
      lines: [
        { ...line, revision: 2, name: "Slickline" },
        { ...line, id: "line-b" },
      ],
    },
    events: notes(1),
  });
  return store;
}

const stateOf = async (store: Store) =>
  JSON.stringify([await store.library(), await store.allEvents(), await store.copies()]);

/** Brings a file in as the dialog does. @returns why it was refused, or undefined when it was written */
async function bring(store: Store, given: string, smith: Locksmith): Promise<string | undefined> {
  const file = readPackFile(given);
  const read = file.ok === "locked" ? await openLocked(file.locked, PASSPHRASE, smith) : file;
  if (!read.ok) return read.why;
  const [library, events] = await Promise.all([store.library(), store.allEvents()]);
  const preview = previewPack(read.pack, library, events);
  const [clash] = preview.clashes;
  if (clash) return `This pack cannot be imported: ${clash}`;
  const copy = { made: MADE, why: "before it was imported" };
  try {
    await store.receive({ ...arrivalOf(read.pack, preview, library, "take theirs"), copy });
  } catch (error) {
    if (error instanceof Conflict || error instanceof Outdated)
      return `${error.name}: ${error.message}`;
    throw error;
  }
  return undefined;
}

/** All that must hold whatever was in the file. */
async function holds(given: string, smith: Locksmith): Promise<string | undefined> {
  const store = await tablet();
  const before = await stateOf(store);
  const why = await bring(store, given, smith);
  if (why === undefined) {
    const library = await store.library();
    for (const kind of recordKinds) {
      for (const record of library[kind])
        expect(recordSchemas[kind].safeParse(record).success).toBe(true);
    }
    expect(await store.copies()).toHaveLength(1);
  } else {
    expect(why.length).toBeGreaterThan(20);
    expect(why.length).toBeLessThan(900);
    expect(await stateOf(store)).toBe(before);
  }
  expect(Object.keys(Object.prototype)).toEqual([]);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  return why;
}

/** Names and values that somebody would try. */
const hostileKey = fc.oneof(
  fc.constantFrom(
    "__proto__",
    "constructor",
    "prototype",
    "toString",
    "id",
    "revision",
    "hash",
    "",
    "toJSON",
  ),
  fc.string({ maxLength: 6 }),
);
const hostileValue = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    0,
    -1,
    1e308,
    2 ** 53,
    "",
    "\u202e.exe",
    "__proto__",
    "x".repeat(5000),
    [],
    {},
    JSON.parse('{"__proto__":{"polluted":true}}'),
    { constructor: { prototype: { polluted: true } } },
  ),
  fc.jsonValue({ maxDepth: 3 }),
);

interface Node {
  readonly parent: Record<string, unknown>;
  readonly key: string;
}
function nodesOf(value: unknown, found: Node[] = []): Node[] {
  if (typeof value !== "object" || value === null) return found;
  for (const key of Object.keys(value)) {
    found.push({ parent: value as Record<string, unknown>, key });
    nodesOf((value as Record<string, unknown>)[key], found);
  }
  return found;
}

type Bend = (node: Node, other: Node, key: string, value: unknown) => void;
const own = (target: object, key: string, value: unknown) =>
  Object.defineProperty(target, key, {
    value,
    enumerable: true,
    configurable: true,
    writable: true,
  });
const bends: Readonly<Record<string, Bend>> = {
  "a value": ({ parent, key }, _, __, value) => own(parent, key, value),
  "a value from elsewhere": ({ parent, key }, other) =>
    own(parent, key, structuredClone(other.parent[other.key])),
  "a further field": ({ parent, key }, _, name, value) => {
    const target = parent[key];
    own(typeof target === "object" && target !== null ? target : parent, name, value);
  },
  "a field less": ({ parent, key }) => {
    if (Array.isArray(parent)) parent.splice(Number(key), 1);
    else delete parent[key];
  },
  "an item twice": ({ parent, key }) => {
    if (Array.isArray(parent)) parent.push(structuredClone(parent[Number(key)]));
  },
  "a field under another name": ({ parent, key }, _, name) => {
    if (Array.isArray(parent)) return;
    own(parent, name, parent[key]);
    delete parent[key];
  },
};

const bent = fc
  .array(
    fc.record({
      bend: fc.constantFrom(...Object.keys(bends)),
      at: fc.nat(),
      other: fc.nat(),
      key: hostileKey,
      value: hostileValue,
    }),
    { minLength: 1, maxLength: 3 },
  )
  .chain((steps) => fc.tuple(fc.constant(steps), fc.boolean()))
  .map(([steps, signed]) => {
    const pack = JSON.parse(text) as Record<string, unknown>;
    for (const { bend, at, other, key, value } of steps) {
      const nodes = nodesOf(pack);
      const [node, from] = [nodes[at % nodes.length], nodes[other % nodes.length]];
      if (node && from) bends[bend]?.(node, from, key, value);
    }
    if (signed) {
      try {
        pack.checksum = hashOf(pack.content);
      } catch {
        // What has no canonical form keeps the old one.
      }
    }
    return JSON.stringify(pack) ?? "";
  });

/** Bytes of a text changed, taken out or put in. */
const bytesBent = (of: string) =>
  fc
    .array(fc.record({ at: fc.nat(), cut: fc.nat(3), put: fc.uint8Array({ maxLength: 3 }) }), {
      minLength: 1,
      maxLength: 4,
    })
    .map((steps) => {
      let bytes = [...new TextEncoder().encode(of)];
      for (const { at, cut, put } of steps) bytes = bytes.toSpliced(at % bytes.length, cut, ...put);
      return new TextDecoder().decode(Uint8Array.from(bytes));
    });

describe("a pack that somebody bent", () => {
  it("is brought in as it is when nobody did", async () => {
    expect(await holds(text, quickSmith())).toBeUndefined();
    const smith = quickSmith();
    expect(await holds(await lock(text, PASSPHRASE, smith), smith)).toBeUndefined();
  });

  it("in its bytes is refused with a reason, and nothing of it is written", async () => {
    const smith = quickSmith();
    await fc.assert(
      fc.asyncProperty(bytesBent(text), async (given) => {
        await holds(given, smith);
      }),
      { numRuns: 1500 },
    );
  });

  it("in its structure and values is refused with a reason, or whole and valid", async () => {
    const smith = quickSmith();
    let refused = 0;
    await fc.assert(
      fc.asyncProperty(bent, async (given) => {
        if ((await holds(given, smith)) !== undefined) refused += 1;
      }),
      { numRuns: 2500 },
    );
    expect(refused).toBeGreaterThan(1000);
  });

  it("in its lock is refused with a reason: nobody changes how it says it was locked", async () => {
    const smith = quickSmith();
    const locked = await lock(text, PASSPHRASE, smith);
    await fc.assert(
      fc.asyncProperty(bytesBent(locked), async (given) => {
        const why = await holds(given, smith);
        if (!isWrittenOtherwise(given, locked)) expect(why).toBeDefined();
      }),
      { numRuns: 1000 },
    );
  });

  it("inside its lock is refused like one without", async () => {
    const smith = quickSmith();
    await fc.assert(
      fc.asyncProperty(bent, async (given) => {
        await holds(await lock(given, PASSPHRASE, smith), smith);
      }),
      { numRuns: 200 },
    );
  });
});

/** The same parts in another order, with blanks between them, or bits at the end of base64 that stand for nothing. */
function isWrittenOtherwise(given: string, locked: string): boolean {
  const parts = (of: string) => {
    const { data, ...header } = JSON.parse(of) as { data: string };
    return canonicalize({ ...header, data: inBase64(fromBase64(data)) });
  };
  try {
    return parts(given) === parts(locked);
  } catch {
    return false;
  }
}
