import { jobEvent } from "../log/event.ts";
import { logsByJob } from "../log/logsByJob.ts";
import { hashOf } from "../log/seal.ts";
import { brokenLinks, describeBroken } from "../log/verify.ts";
import { recordSchemas } from "../records/library.ts";
import { instant, sha256, z } from "../schema.ts";
import { type RecordKind, recordKinds } from "../store/library.ts";
import type { Picture } from "../store/picture.ts";
import { badPicture, pack as packed, packedPicture } from "./packedPictures.ts";
import { jsonFault } from "./strictJson.ts";

/**
 * A job pack: records, logs and the pictures that the logs name in one file, so that they can travel without a
 * network. A backup of a tablet is a pack of all that is on it.
 */
export const PACK_FORMAT = "latchline-pack";
/**
 * 2: programmes and run sheets carry what a log needs to stand on its own; packs of version 1 do not.
 * 3: the pictures that events name travel along.
 * 4: tools that the office owns, and days.
 * 5: investigations of wells whose lift is in doubt.
 */
export const PACK_VERSION = 5;
const OLDEST_VERSION = 2;
/** A pack inside a lock; see `locked.ts`. */
export const LOCKED_FORMAT = "latchline-locked-pack";

const content = z.strictObject({
  records: z.strictObject({
    wells: z.array(recordSchemas.wells),
    valves: z.array(recordSchemas.valves),
    tools: z.array(recordSchemas.tools),
    strings: z.array(recordSchemas.strings),
    lines: z.array(recordSchemas.lines),
    stacks: z.array(recordSchemas.stacks),
    policies: z.array(recordSchemas.policies),
    jobs: z.array(recordSchemas.jobs),
    days: z.array(recordSchemas.days),
    investigations: z.array(recordSchemas.investigations),
  }),
  events: z.array(jobEvent),
  pictures: z.array(packedPicture),
});

export const packSchema = z.strictObject({
  format: z.literal(PACK_FORMAT),
  version: z.number().int().min(OLDEST_VERSION).max(PACK_VERSION),
  made: instant,
  content,
  /** SHA-256 of the canonical JSON (RFC 8785) of `content` */
  checksum: sha256,
});
export type Pack = z.infer<typeof packSchema>;
export type PackContent = Pack["content"];

/** What goes into a pack. */
export interface Carried extends Omit<PackContent, "pictures"> {
  readonly pictures?: readonly Picture[];
}

export function makePack({ records, events, pictures = [] }: Carried, made: string): Pack {
  const whole = { records, events, pictures: pictures.map(packed) };
  return {
    format: PACK_FORMAT,
    version: PACK_VERSION,
    made,
    content: whole,
    checksum: hashOf(whole),
  };
}

export type PackRead =
  | {
      readonly ok: true;
      readonly pack: Pack;
      /** logs that do not hold, in words, where they were let in */
      readonly broken: readonly string[];
    }
  | Refused;

/** What a tablet can still take apart; a guard against a wrong file, too. */
export const MOST_CHARACTERS = 200_000_000;

/**
 * A pack as the text of its file.
 *
 * @throws Error when it would be larger than a tablet can read again
 */
export function packText(pack: Pack): string {
  const text = JSON.stringify(pack);
  if (text.length > MOST_CHARACTERS) {
    throw new Error(
      `it would have ${(text.length / 1e6).toFixed(0)} MB, and at most ${MOST_CHARACTERS / 1e6} MB can be read again: save packs of closed jobs and remove those jobs`,
    );
  }
  return text;
}

/** A log that does not hold: a tablet's own backup may carry one, and be all that is left of it. */
export type BrokenLogs = "refuse" | "keep";

type JsonRead = { readonly ok: true; readonly given: unknown } | Refused;
interface Refused {
  readonly ok: false;
  readonly why: string;
}
const refuse = (why: string): Refused => ({ ok: false, why });

/** Reads a file's text as JSON that a pack may be written in. */
export function readJson(text: string): JsonRead {
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch (error) {
    return refuse(
      `The file is damaged or not a job pack: it cannot be read as JSON (${short((error as Error).message)}). Ask for the pack again.`,
    );
  }
  const fault = jsonFault(text);
  if (fault) {
    return refuse(
      `This is no file that Latchline wrote: ${fault}. Nothing was imported. Ask for the pack again.`,
    );
  }
  return { ok: true, given };
}

/** Why a text is too large to be a pack; undefined when it is not. */
export function tooLarge(characters: number, most = MOST_CHARACTERS): string | undefined {
  if (characters <= most) return undefined;
  return `This file has ${(characters / 1e6).toFixed(0)} MB; a pack has at most ${(most / 1e6).toFixed(0)} MB. If it is a pack, ask for the jobs in packs of their own; if not, choose the pack itself.`;
}

/**
 * Reads a pack's text. Nothing of a pack that is not whole in every part is used.
 *
 * @param broken what to do with a log that does not hold; kept, it stays as it is and goes on to say so
 * @returns the pack, or what is wrong, where, and what to do about it
 */
export function readPack(text: string, broken: BrokenLogs = "refuse"): PackRead {
  const large = tooLarge(text.length);
  if (large) return refuse(large);
  const json = readJson(text);
  return json.ok ? readGiven(json.given, broken) : json;
}

/** The same for what was read as JSON already. */
export function readGiven(given: unknown, broken: BrokenLogs = "refuse"): PackRead {
  if (typeof given !== "object" || given === null || !("format" in given)) {
    return refuse('This is not a job pack: it does not say "format": "latchline-pack".');
  }
  const { format, version } = given as { format: unknown; version?: unknown };
  if (format === LOCKED_FORMAT) {
    return refuse(
      'This pack is locked with a passphrase. "Import a pack" on the board asks for it and opens it.',
    );
  }
  if (format !== PACK_FORMAT) {
    return refuse(`This is not a job pack: its format is ${short(JSON.stringify(format))}.`);
  }
  if (typeof version === "number" && version > PACK_VERSION) {
    return refuse(
      `This pack is of version ${version}, made by a newer Latchline; this one reads up to version ${PACK_VERSION}. Update this tablet, then import the pack again.`,
    );
  }
  if (version === 1) {
    return refuse(
      "This pack is of version 1, made by a Latchline from before its first release; its logs do not hold what a run stands on. Ask for the pack again from an updated tablet.",
    );
  }
  const raw = given as { content?: unknown; checksum?: unknown };
  const parsed = packSchema.safeParse(asNow(given, version));
  // A changed byte shows as a wrong checksum; that says more than the field it happened to hit.
  if (
    raw.content !== undefined &&
    typeof raw.checksum === "string" &&
    safeHash(raw.content) !== raw.checksum
  ) {
    return refuse(
      "The pack was damaged or changed after it was made: its checksum does not fit. Ask for the pack again.",
    );
  }
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const where = issue?.path
      .map((key) => (typeof key === "number" ? `[${key}]` : `.${String(key)}`))
      .join("")
      .slice(1);
    return refuse(
      `The pack holds something that cannot be: ${short(where || "the file")}: ${short(issue?.message ?? "not understood")}. Nothing was imported.`,
    );
  }
  return wholeLogs(parsed.data, broken);
}

/** What the parts of a pack say of each other. */
function wholeLogs(pack: Pack, broken: BrokenLogs): PackRead {
  const { records, events, pictures } = pack.content;
  const fault = doubled(pack.content) ?? countedTooFar(pack.content);
  if (fault) return refuse(`${fault} Nothing was imported. Ask for the pack again.`);
  const inPack = new Set(records.jobs.map((job) => job.id));
  const kept: string[] = [];
  for (const [job, log] of logsByJob(events)) {
    if (!inPack.has(job)) {
      return refuse(
        `The pack holds events of a job "${job}" that is not in it. Nothing was imported.`,
      );
    }
    const [link] = brokenLinks(log);
    if (!link) continue;
    const says = `The log of job ${job} is not whole: ${describeBroken(link)}.`;
    if (broken === "refuse") {
      return refuse(
        `${says} Nothing was imported. Ask for the pack again; if this file is all there is, bring it in under Storage, which keeps such a log as it is and marks it.`,
      );
    }
    kept.push(says);
  }
  const picture = badPicture(pictures, events);
  if (picture) return refuse(`${picture} Nothing was imported. Ask for the pack again.`);
  return { ok: true, pack, broken: kept };
}

/** What stands in a pack twice, where either of the two could be meant. */
function doubled({ records, events, pictures }: PackContent): string | undefined {
  for (const kind of recordKinds) {
    const twice = firstTwice(records[kind].map(({ id }) => id));
    if (twice !== undefined)
      return `The pack holds two records with the id "${twice}" among its ${kind}.`;
  }
  const event = firstTwice(events.flatMap(({ hash, id }) => [hash, id]));
  if (event !== undefined) {
    const { job, sequence } =
      events.findLast(({ hash, id }) => hash === event || id === event) ?? {};
    return `The pack holds event ${sequence} of job ${job} twice.`;
  }
  const picture = firstTwice(pictures.map(({ sha256 }) => sha256));
  return picture && `The pack holds picture ${picture.slice(0, 12)} twice.`;
}

function firstTwice(names: readonly string[]): string | undefined {
  const known = new Set<string>();
  return names.find((name) => known.size === known.add(name).size);
}

/** No record was ever changed so often; one more would not be counted any more. */
const MOST_REVISIONS = 1e9;

function countedTooFar({ records }: PackContent): string | undefined {
  for (const kind of recordKinds) {
    const far = (records[kind] as readonly { id: string; revision: number }[]).find(
      ({ revision }) => revision > MOST_REVISIONS,
    );
    if (far)
      return `Record "${far.id}" among the ${kind} of the pack says that it was changed ${far.revision} times.`;
  }
  return undefined;
}

/** What a file says of itself may be of any length. */
const short = (said: string) => (said.length > 200 ? `${said.slice(0, 200)}…` : said);

/** Kinds of records that a version brought: a pack of before has none of them. */
const broughtBy: readonly { readonly version: number; readonly kinds: readonly RecordKind[] }[] = [
  { version: 4, kinds: ["tools", "days"] },
  { version: 5, kinds: ["investigations"] },
];

/** A pack of before with what its version did not know; version 2 knew no pictures either. */
function asNow(given: object, version: unknown): unknown {
  const { content } = given as { content?: unknown };
  if (!isBefore(version) || !isObject(content)) return given;
  const pictures = version === 2 && !("pictures" in content) ? { pictures: [] } : {};
  const { records } = content as { records?: unknown };
  const unknown = broughtBy.filter((each) => version < each.version).flatMap(({ kinds }) => kinds);
  const added = isObject(records)
    ? { records: Object.assign({}, records, ...unknown.map((kind) => without(records, kind))) }
    : {};
  return { ...given, content: { ...content, ...pictures, ...added } };
}

const isBefore = (version: unknown): version is number =>
  typeof version === "number" && version >= OLDEST_VERSION && version < PACK_VERSION;
const isObject = (value: unknown): value is object => typeof value === "object" && value !== null;
const without = (records: object, kind: string) => (kind in records ? {} : { [kind]: [] });

function safeHash(value: unknown): string | undefined {
  try {
    return hashOf(value);
  } catch {
    return undefined;
  }
}
