import { Inflate, unzipSync, zipSync } from "fflate";

/**
 * Whether a zip (a spreadsheet is one) may be unpacked: looked at by its directory first, then each part is inflated
 * piece by piece and thrown away, so that a part cannot be larger than it says.
 *
 * Layout of the records: PKWARE's APPNOTE.TXT, 4.3.
 */
const MEGA = 1024 * 1024;

const most = {
  /** of the file as it lies on the disk */
  packed: 50 * MEGA,
  /** of everything in it together */
  unpacked: 200 * MEGA,
  parts: 2000,
  /** A sheet of XML packs 10 to 50 times; deflate cannot do more than 1,032. */
  ratio: 200,
};

/** Below this a high ratio harms nobody: a short part full of blanks packs very well. */
const RATIO_COUNTS_FROM = MEGA;

/** Given to the inflater at once: it makes at most 1,032 times as much of it before the count is looked at. */
const PIECE = 4096;

const DIRECTORY_END = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_HEADER = 0x04034b50;
const DIRECTORY_END_SIZE = 22;
const DIRECTORY_ENTRY_SIZE = 46;
const LOCAL_HEADER_SIZE = 30;
const LONGEST_COMMENT = 0xffff;
/** Says that the figure stands in a zip64 record instead. */
const FULL_16 = 0xffff;
const FULL_32 = 0xffffffff;

const ENCRYPTED = 1 << 0;
const SIZES_FOLLOW = 1 << 3;
const STRONGLY_ENCRYPTED = 1 << 6;
const DIRECTORY_MASKED = 1 << 13;
const STORED = 0;
const DEFLATED = 8;

interface Part {
  readonly name: string;
  readonly flags: number;
  readonly method: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly offset: number;
}

interface Directory {
  readonly parts: readonly Part[];
  readonly start: number;
}

const saveAgain =
  "Open it in the spreadsheet program, save it as a new .xlsx or as CSV, and choose that file.";

/** A refusal, and what to do about it. */
const refuse = (why: string) => `${why} Nothing was read from it. ${saveAgain}`;

/** Why a zip is not to be unpacked, in words with what to do; undefined when it may be. */
export function zipProblem(bytes: Uint8Array): string | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length > most.packed) {
    return refuse(
      `The file has ${inMega(bytes.length)} MB; ${inMega(most.packed)} MB is the most. Leave out what is not needed, pictures first.`,
    );
  }
  if (isOldSpreadsheet(view)) {
    return "The file is an older .xls or is locked with a password. Nothing was read from it. Open it in the spreadsheet program, take the password off, save it as a new .xlsx or as CSV, and choose that file.";
  }
  const directory = readDirectory(view);
  if (typeof directory === "string") return directory;
  return (
    namesProblem(directory.parts) ??
    sizesProblem(directory.parts, bytes.length) ??
    placesProblem(view, directory) ??
    contentProblem(bytes, view, directory.parts)
  );
}

/**
 * The same zip with its parts as they are, not packed.
 *
 * For a reader that unpacks larger parts in a worker which it makes out of a text: the page's content security policy
 * forbids such a worker, and the reader would wait for it for ever. What is not packed it takes as it is.
 *
 * @param bytes a zip that `zipProblem` has nothing against
 */
export function unpackedZip(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  return zipSync(unzipSync(bytes), { level: 0 });
}

const inMega = (size: number) =>
  (size / MEGA).toLocaleString("en-US", { maximumFractionDigits: 1 });

/** The container that old spreadsheets, and new ones behind a password, are kept in. */
function isOldSpreadsheet(view: DataView): boolean {
  return (
    view.byteLength >= 8 && view.getUint32(0) === 0xd0cf11e0 && view.getUint32(4) === 0xa1b11ae1
  );
}

function readDirectory(view: DataView): Directory | string {
  const notWhole = refuse("The file is not a whole spreadsheet: its table of contents is missing.");
  const end = directoryEnd(view);
  if (end === undefined) return notWhole;
  const u16 = (at: number) => view.getUint16(end + at, true);
  const u32 = (at: number) => view.getUint32(end + at, true);
  const count = u16(10);
  const size = u32(12);
  const start = u32(16);
  if (count === FULL_16 || size === FULL_32 || start === FULL_32) return tooLargeForm;
  if (count > most.parts) {
    return refuse(
      `The file has ${count.toLocaleString("en-US")} parts inside it; a spreadsheet has far fewer than ${most.parts.toLocaleString("en-US")}.`,
    );
  }
  if (u16(4) !== 0 || u16(6) !== 0 || u16(8) !== count) {
    return refuse("The file is one piece of a zip in several pieces.");
  }
  if (start + size !== end) {
    return refuse("The file's table of contents is not where the file says it is.");
  }
  const parts: Part[] = [];
  let at = start;
  for (let index = 0; index < count; index++) {
    const part = readPart(view, at, end);
    if (typeof part === "string") return part;
    parts.push(part);
    at = part.next;
  }
  if (at !== end) return refuse("The file's table of contents holds more than it says.");
  if (count === 0) return refuse("The file is empty.");
  return { parts, start };
}

const tooLargeForm = refuse(
  "The file is in the form for zips above 4 GB, which no spreadsheet for this needs.",
);

/** The end record is the last thing in the file, its comment reaching to the last byte. */
function directoryEnd(view: DataView): number | undefined {
  const last = view.byteLength - DIRECTORY_END_SIZE;
  const first = Math.max(0, last - LONGEST_COMMENT);
  for (let at = last; at >= first; at--) {
    if (view.getUint32(at, true) !== DIRECTORY_END) continue;
    const comment = view.getUint16(at + DIRECTORY_END_SIZE - 2, true);
    // A reader takes the last record it finds. One that does not end the file was put there to differ from it.
    return at + DIRECTORY_END_SIZE + comment === view.byteLength ? at : undefined;
  }
  return undefined;
}

function readPart(view: DataView, at: number, end: number): (Part & { next: number }) | string {
  const broken = refuse("The file's table of contents is broken.");
  if (at + DIRECTORY_ENTRY_SIZE > end) return broken;
  const u16 = (of: number) => view.getUint16(at + of, true);
  const u32 = (of: number) => view.getUint32(at + of, true);
  if (u32(0) !== DIRECTORY_ENTRY) return broken;
  const name = at + DIRECTORY_ENTRY_SIZE;
  const next = name + u16(28) + u16(30) + u16(32);
  if (next > end) return broken;
  const part = {
    name: nameAt(view, name, u16(28)),
    flags: u16(8),
    method: u16(10),
    packed: u32(20),
    unpacked: u32(24),
    offset: u32(42),
    next,
  };
  const { packed, unpacked, offset } = part;
  return [packed, unpacked, offset].includes(FULL_32) ? tooLargeForm : part;
}

const nameAt = (view: DataView, at: number, length: number) =>
  new TextDecoder().decode(new Uint8Array(view.buffer, view.byteOffset + at, length));

/** As a person may read it in a sentence: a name out of a file may hold anything. */
const shown = (name: string) =>
  `"${Array.from(name.slice(0, 60), (sign) => (sign < " " ? "?" : sign)).join("")}"`;

function namesProblem(parts: readonly Part[]): string | undefined {
  const climbs = parts.find(
    ({ name }) =>
      name.split(/[/\\]/).includes("..") || /^([/\\]|[a-z]:)/i.test(name) || name.includes("\0"),
  );
  if (climbs) {
    return refuse(`A part of the file, ${shown(climbs.name)}, points outside the file.`);
  }
  // Parts are handed on by their names, as the keys of an object.
  const reserved = parts.find(({ name }) => name.split("/").includes("__proto__"));
  if (reserved) return refuse(`A part of the file is called ${shown(reserved.name)}.`);
  const seen = new Set<string>();
  for (const { name } of parts) {
    if (seen.has(name)) {
      return refuse(
        `Two parts of the file are called ${shown(name)}: which one counts is not said.`,
      );
    }
    seen.add(name);
  }
  return undefined;
}

function sizesProblem(parts: readonly Part[], length: number): string | undefined {
  const locked = parts.some(
    ({ flags }) => (flags & (ENCRYPTED | STRONGLY_ENCRYPTED | DIRECTORY_MASKED)) !== 0,
  );
  if (locked) {
    return refuse("The file is locked with a password. Take the password off first.");
  }
  const strange = parts.find(({ method }) => method !== STORED && method !== DEFLATED);
  if (strange) {
    return refuse(`A part of the file, ${shown(strange.name)}, is packed in a way not known here.`);
  }
  const lies = parts.find(({ method, packed, unpacked }) =>
    method === STORED ? packed !== unpacked : packed === 0,
  );
  if (lies) return refuse(`A part of the file, ${shown(lies.name)}, is not as large as it says.`);
  const bomb = (packed: number, unpacked: number) =>
    unpacked > RATIO_COUNTS_FROM && unpacked > most.ratio * packed;
  const total = parts.reduce((sum, { unpacked }) => sum + unpacked, 0);
  const burst = parts.find(({ packed, unpacked }) => bomb(packed, unpacked));
  if (total > most.unpacked || burst || bomb(length, total)) {
    return refuse(
      `Unpacked the file would have ${inMega(total)} MB, from ${inMega(length)} MB; ${inMega(most.unpacked)} MB, and ${most.ratio} times its size, are the most. Clear the empty rows and columns.`,
    );
  }
  return undefined;
}

/** Where each part lies: inside the file, ahead of the directory, and none on top of another. */
function placesProblem(view: DataView, { parts, start }: Directory): string | undefined {
  const inOrder = [...parts].sort((a, b) => a.offset - b.offset);
  let free = 0;
  for (const part of inOrder) {
    if (part.offset < free) {
      return refuse(`A part of the file, ${shown(part.name)}, lies on top of another.`);
    }
    const data = dataOf(view, part);
    if (data === undefined || data + part.packed > start) {
      return refuse(`A part of the file, ${shown(part.name)}, is not where the file says it is.`);
    }
    free = data + part.packed;
  }
  return undefined;
}

/** Where a part's data begins, when what stands ahead of it says the same as the directory. */
function dataOf(view: DataView, part: Part): number | undefined {
  const { offset } = part;
  if (offset + LOCAL_HEADER_SIZE > view.byteLength) return undefined;
  const u16 = (at: number) => view.getUint16(offset + at, true);
  const u32 = (at: number) => view.getUint32(offset + at, true);
  const name = offset + LOCAL_HEADER_SIZE;
  if (u32(0) !== LOCAL_HEADER || name + u16(26) > view.byteLength) return undefined;
  const flags = u16(6);
  if (nameAt(view, name, u16(26)) !== part.name || u16(8) !== part.method) return undefined;
  if ((flags & ENCRYPTED) !== (part.flags & ENCRYPTED)) return undefined;
  // Some programs write the sizes after the data, or in a zip64 field, though the part is small.
  const agrees = (at: number, size: number) =>
    (flags & SIZES_FOLLOW) !== 0 || u32(at) === FULL_32 || u32(at) === size;
  if (!agrees(18, part.packed) || !agrees(22, part.unpacked)) return undefined;
  return name + u16(26) + u16(28);
}

function contentProblem(
  bytes: Uint8Array,
  view: DataView,
  parts: readonly Part[],
): string | undefined {
  for (const part of parts) {
    const data = dataOf(view, part);
    if (data === undefined || part.method === STORED) continue;
    const size = inflatedSize(bytes.subarray(data, data + part.packed), part.unpacked);
    if (size === undefined) {
      return refuse(`A part of the file, ${shown(part.name)}, is damaged.`);
    }
    if (size !== part.unpacked) {
      return refuse(`A part of the file, ${shown(part.name)}, is not as large as it says.`);
    }
  }
  return undefined;
}

/**
 * How large packed data becomes. What comes out is counted and let go.
 *
 * @param expected counting stops above it
 * @returns undefined when the data cannot be unpacked
 */
function inflatedSize(packed: Uint8Array, expected: number): number | undefined {
  let size = 0;
  const inflate = new Inflate((piece) => {
    size += piece.length;
  });
  try {
    for (let at = 0; at < packed.length && size <= expected; at += PIECE) {
      inflate.push(packed.subarray(at, at + PIECE), at + PIECE >= packed.length);
    }
  } catch {
    return undefined;
  }
  return size;
}
