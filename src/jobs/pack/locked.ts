import canonicalize from "canonicalize";
import { fromBase64, inBase64 } from "../photographs.ts";
import { z } from "../schema.ts";
import {
  type BrokenLogs,
  LOCKED_FORMAT,
  MOST_CHARACTERS,
  type PackRead,
  readGiven,
  readJson,
  tooLarge,
} from "./pack.ts";

/**
 * A pack that opens with a passphrase only: AES-GCM with a key of 256 bits, made from the passphrase by PBKDF2 with
 * SHA-256. Everything but the data is authenticated with it, so that nobody can change how it says it was locked.
 */
export const LOCKED_VERSION = 1;

/** OWASP, Password Storage Cheat Sheet: 600,000 iterations for PBKDF2-HMAC-SHA256. */
export const ITERATIONS = 600_000;
/** A file says how many were made; one that asks for more than this would only keep the tablet busy. */
export const MOST_ITERATIONS = 5_000_000;
const SALT_BYTES = 16;
/** What GCM is made for. */
const IV_BYTES = 12;
/** Of a pack at its largest, in base64, with its header. */
const MOST_LOCKED_CHARACTERS = Math.ceil((MOST_CHARACTERS * 4) / 3) + 2000;

export const lockedPackSchema = z.strictObject({
  format: z.literal(LOCKED_FORMAT),
  version: z.literal(LOCKED_VERSION),
  key: z.strictObject({
    method: z.literal("PBKDF2-SHA-256"),
    iterations: z.number().int().min(ITERATIONS).max(MOST_ITERATIONS),
    salt: z.base64().length(inBase64(new Uint8Array(SALT_BYTES)).length),
  }),
  cipher: z.strictObject({
    method: z.literal("AES-GCM-256"),
    iv: z.base64().length(inBase64(new Uint8Array(IV_BYTES)).length),
  }),
  /** of the pack's text in UTF-8, with the 16 bytes by which a change shows */
  data: z.base64(),
});
export type LockedPack = z.infer<typeof lockedPackSchema>;
type Header = Omit<LockedPack, "data">;

/** What locking takes of the browser: nothing of it is there in a page that was not opened over https or at localhost. */
export type Locksmith = Pick<Crypto, "getRandomValues"> & {
  readonly subtle:
    | Pick<SubtleCrypto, "importKey" | "deriveKey" | "encrypt" | "decrypt">
    | undefined;
};

/** Why no pack can be locked or opened in a page; undefined where it can. */
export function cannotLock({ subtle }: Pick<Locksmith, "subtle">): string | undefined {
  if (subtle) return undefined;
  return "This browser offers no encryption here: the page was not opened over https or at localhost. Open Latchline at such an address to lock packs or to open locked ones.";
}

const LEAST_CHARACTERS = 8;

/** What is wrong with a passphrase that was typed twice; undefined when nothing is. */
export function passphraseProblem(first: string, again: string): string | undefined {
  if ([...first.normalize("NFC")].length < LEAST_CHARACTERS) {
    return `A passphrase has at least ${LEAST_CHARACTERS} characters; four words that do not belong together are better.`;
  }
  if (first.normalize("NFC") !== again.normalize("NFC")) {
    return "The two do not agree. Type them again, or let them be shown.";
  }
  return undefined;
}

/** Locks a pack's text, and gives the text of the locked one. @throws Error where `cannotLock` */
export async function lock(text: string, passphrase: string, smith: Locksmith): Promise<string> {
  const problem = cannotLock(smith);
  if (problem || !smith.subtle) throw new Error(problem);
  const [salt, iv] = [SALT_BYTES, IV_BYTES].map((count) =>
    smith.getRandomValues(new Uint8Array(count)),
  ) as [Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>];
  const header: Header = {
    format: LOCKED_FORMAT,
    version: LOCKED_VERSION,
    key: { method: "PBKDF2-SHA-256", iterations: ITERATIONS, salt: inBase64(salt) },
    cipher: { method: "AES-GCM-256", iv: inBase64(iv) },
  };
  const key = await keyOf(header, passphrase, smith.subtle);
  const data = await smith.subtle.encrypt(algorithmOf(header), key, new TextEncoder().encode(text));
  return JSON.stringify({ ...header, data: inBase64(new Uint8Array(data)) });
}

/** A pack, why it is none, or one that opens with a passphrase. */
export type FileRead = PackRead | { readonly ok: "locked"; readonly locked: LockedPack };

/** Reads the text of a file that may be a pack, locked or not. */
export function readPackFile(text: string, broken: BrokenLogs = "refuse"): FileRead {
  const refuse = (why: string): FileRead => ({ ok: false, why });
  const huge = tooLarge(text.length, MOST_LOCKED_CHARACTERS);
  if (huge) return refuse(huge);
  const json = readJson(text);
  if (!json.ok) return json;
  const { format, version } = (json.given ?? {}) as { format?: unknown; version?: unknown };
  if (format !== LOCKED_FORMAT) {
    const large = tooLarge(text.length);
    return large ? refuse(large) : readGiven(json.given, broken);
  }
  if (typeof version === "number" && version > LOCKED_VERSION) {
    return refuse(
      `This pack is locked in a way that a newer Latchline knows (version ${version}; this one opens version ${LOCKED_VERSION}). Update this tablet, then import the pack again.`,
    );
  }
  const parsed = lockedPackSchema.safeParse(json.given);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const where = issue?.path.join(".") || "the file";
    return refuse(
      `The locked pack does not say how it was locked (${where.slice(0, 80)}: ${(issue?.message ?? "").slice(0, 200)}). Nothing was imported. Ask for the pack again.`,
    );
  }
  return { ok: "locked", locked: parsed.data };
}

/**
 * Opens a locked pack and reads what is in it.
 *
 * @returns `again` where another passphrase may open it: that it is wrong and that the file is damaged look alike
 */
export async function openLocked(
  locked: LockedPack,
  passphrase: string,
  smith: Locksmith,
): Promise<PackRead & { readonly again?: true }> {
  const problem = cannotLock(smith);
  if (problem || !smith.subtle) return { ok: false, why: problem ?? "" };
  const { data, ...header } = locked;
  let text: string;
  try {
    const key = await keyOf(header, passphrase, smith.subtle);
    const opened = await smith.subtle.decrypt(algorithmOf(header), key, fromBase64(data));
    text = new TextDecoder("utf-8", { fatal: true }).decode(opened);
  } catch {
    return {
      ok: false,
      again: true,
      why: "It does not open: either the passphrase is another one, or the file was damaged. Type it again; if it stays so, ask for the pack again.",
    };
  }
  const large = tooLarge(text.length);
  if (large) return { ok: false, why: large };
  const json = readJson(text);
  return json.ok ? readGiven(json.given) : json;
}

/** The same letters may be typed as different ones: a passphrase counts in its composed form. */
async function keyOf(
  { key: { iterations, salt } }: Header,
  passphrase: string,
  subtle: NonNullable<Locksmith["subtle"]>,
): Promise<CryptoKey> {
  const typed = new TextEncoder().encode(passphrase.normalize("NFC"));
  const base = await subtle.importKey("raw", typed, "PBKDF2", false, ["deriveKey"]);
  return subtle.deriveKey(
    { name: "PBKDF2", hash: "SHA-256", salt: fromBase64(salt), iterations },
    base,
    { name: "AES-GCM", length: 256 },
    false,
    ["encrypt", "decrypt"],
  );
}

/** @param header authenticated in its one canonical form (RFC 8785), whatever order a file has it in */
function algorithmOf(header: Header) {
  return {
    name: "AES-GCM",
    iv: fromBase64(header.cipher.iv),
    additionalData: new TextEncoder().encode(canonicalize(header)),
    tagLength: 128,
  };
}
